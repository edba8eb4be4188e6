"""A fact of a record amended in the line: opened, typed, taken or left as it was."""

from __future__ import annotations

from enum import StrEnum
from functools import partial

from textual import on
from textual.widgets import Input

from logbook.errors import Refused
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.states.amended_values import AmendedSlip
from logbook.records.together.clashes import namesake
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.left_off import Midst
from logbook.screens.desk.news import Job
from logbook.screens.desk.to_other_build import logged_with, move_job
from logbook.screens.record.amending import can_amend, frozen, typed_fact
from logbook.screens.record.amendment import Amendment, held, word_of
from logbook.screens.record.undo_here import UndoHere
from logbook.screens.ruled import verbs
from logbook.screens.ruled.asking import (
    AS_MEANT,
    AS_TYPED,
    ONE_PART,
    Answer,
    one_part,
    which_of_slip,
)
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.one_question import OneQuestion
from logbook.screens.ruled.rows import KeyStrip, Row
from logbook.store.typed.drafts import keep_draft

MINE = verbs.Verb(
    "take_mine",
    "take mine",
    "f6",
    "Take your change over one that came from elsewhere meanwhile.",
    in_strip=False,
    told=True,
)


class AmendingSheet(UndoHere, OneQuestion):
    """A sheet about one record, whose facts are amended in the line one by one."""

    def __init__(self, desk: Desk, record_id: str) -> None:
        """Be about the record with this id; no fact is opened."""
        super().__init__(desk, record_id)
        self.opened: Amendment | None = None
        self.sent: tuple[Job, str, str] | None = None

    def follow(self) -> None:
        """Say what can be done where the arrow stands."""
        raise NotImplementedError

    @property
    def purpose(self) -> str:
        """What the line of this record is kept as; the fact's name follows."""
        return f"amending {self.record_id}"

    WAY = "record"

    @property
    def about_here(self) -> tuple[str, ...]:
        """The record."""
        return (self.record_id,)

    @property
    def in_the_middle(self) -> Midst | None:
        """What was typed for a fact, or for none yet."""
        record, fact, typed = self.record, self.opened, self.query_one(EntryLine).value
        stood = typed_fact(held(fact.before, fact.key)) if fact else ""
        if record is None or typed == stood:
            return None
        of = f"{word_of(fact.key)} of " if fact else ""
        return self._midst(f"amending {of}{record.title}", typed)

    def offer(self) -> None:
        """Go on with the fact that was being amended when the screen went away."""
        kept = self.offer_kept(self.purpose)
        key = kept.removeprefix(self.purpose).strip()
        if not key or self.record is None:
            return
        text = self.query_one(EntryLine).value
        self.begin(key)
        if self.opened is not None:
            self.query_one(EntryLine).put(text)

    def show_keys(self) -> None:
        """Show the keys that work: while a fact is amended, those that end it."""
        if self.opened is None or self.question is not None:
            super().show_keys()
            return
        take = self.mapped_keys()(MINE) if self.opened.theirs else "Enter"
        ends = ((take, "take the change"), ("Esc", "leave it as it was"))
        self.query_one(KeyStrip).tell(ends)

    @on(Input.Changed, "#line")
    def _typed(self) -> None:
        self.hold_back()
        line = self.query_one(EntryLine)
        if line.as_put:
            return
        self.tell("")
        key = f" {self.opened.key}" if self.opened else ""
        self.keep_soon(line.value, self.purpose + key)

    def begin(self, key: str, typed: str = "") -> None:
        """Open a fact for amending, as it is, or with what was typed for it."""
        record = self.record
        if record is None:
            return
        value = held(record, key)
        if stays := frozen(record, key):
            self.tell(stays, label="frozen")
            return
        if not can_amend(value):
            path = self.desk.snapshot.path(record)
            self.tell(f"{word_of(key)} holds more than one line; amend it in {path}")
            return
        self.opened = Amendment(key, record)
        self.keep_now("", self.purpose)
        self.query_one("#say", Row).relabel(f"{word_of(key)[:9]} ›")
        self.show_keys()
        line = self.query_one(EntryLine)
        named = not typed and isinstance(getattr(record, key, None), Ref | StrEnum)
        # Another name, or one of few words, is typed in its place, not behind it.
        put = line.propose if named else line.put
        put(typed or typed_fact(value))
        if typed:
            was = typed_fact(value) or "empty"
            self.tell(f"Enter takes it, Esc drops it; it was: {was}")

    def say_what_stands(self) -> None:
        """Say what becomes of what stands in the line, when a fact was just opened."""
        record, line = self.record, self.query_one(EntryLine)
        if self.opened is None or record is None or not line.value:
            return
        typing = "what is typed goes on behind it, Ctrl-U empties it"
        if line.selected_text:
            typing = "what is typed takes its place"
        kept = "git keeps how it was"
        if isinstance(record, Revision):
            key = self.mapped_keys()(verbs.REVISE)
            kept = f"{record.title} itself is changed; {key} on its part makes the next"
        self.tell(f"{typing}; {kept}", label="stands")

    def amend(self, fact: Amendment, typed: str) -> None:
        """Take the change, unless somebody else has changed it meanwhile."""
        if self.record is None or self.was_changed():
            return
        if fact.theirs:
            self._say_theirs(fact)
        else:
            self._put_amended(fact, typed)

    def action_take_mine(self) -> None:
        """Take the change over what came from elsewhere, which the drafts keep."""
        record, fact = self.record, self.opened
        if record is None or fact is None or not fact.theirs:
            self.tell("nothing was changed elsewhere meanwhile", label="nothing")
            return
        if self.was_changed():
            return
        try:
            about = f"{word_of(fact.key)} of {record.title}, as replaced"
            keep_draft(self.desk.project.root, fact.theirs, about)
        except Refused as refusal:
            self.tell(str(refusal), label="not taken")
            return
        self._put_amended(fact, self.query_one(EntryLine).value)

    def _put_amended(self, fact: Amendment, typed: str) -> None:
        """Write the fact as typed, or say why it is not taken."""
        fresh = fact.fresh(typed, self.desk.snapshot, self.desk.now())
        if isinstance(fresh, str):
            self.tell(fresh, label="not taken")
            return
        if self._name_in_use(fact, fresh):
            return
        found = fact.slip(fresh, self.desk.snapshot)
        if found is None:
            self._write(fact, fresh, typed)
        else:
            answered = partial(self._slip_answered, fact, fresh, found)
            self.ask(which_of_slip(found.slip), answered)

    def _name_in_use(self, fact: Amendment, fresh: Record) -> bool:
        """Tell whether another record has the name; ask of parts if they are one."""
        before = fact.before
        other = namesake(self.desk.snapshot, before, fresh)
        if other is None:
            return False
        if isinstance(other, Part):
            self.ask(one_part(before.title, other.title), partial(self._join, other))
        else:
            words = f"there is {other.title} already; accepted: another name"
            self.tell(words, label="not taken")
        return True

    def _join(self, other: Part, answer: Answer) -> None:
        """Make this part one with the other, if that was said; else it is renamed."""
        if answer.words == ONE_PART:
            self.stop_editing()
            self.go("same_part", self.record_id, other.id)

    def _slip_answered(
        self, fact: Amendment, fresh: Record, found: AmendedSlip, answer: Answer
    ) -> None:
        """Take what was meant, or what was typed; unanswered it stays to be typed."""
        line = self.query_one(EntryLine)
        if answer.words == AS_MEANT:
            meant = found.as_meant(fresh)
            self._write(fact, meant, typed_fact(held(meant, fact.key)))
        elif answer.words == AS_TYPED:
            fact.sure = True
            self._write(fact, fresh, line.value)
        elif answer.typed_on:
            line.put(answer.typed_on)

    def _write(self, fact: Amendment, fresh: Record, typed: str) -> None:
        """Write the record as amended; `typed` comes back if that is refused."""
        self.stop_editing()
        if fresh == fact.before:
            self.tell("it stays as it was")
            return
        job = self._job(fact, fresh)
        self.sent = job, fact.key, typed
        self.desk.write(job)

    def _job(self, fact: Amendment, fresh: Record) -> Job:
        """Give the work that amends; an entry comes to another build as by its key."""
        snapshot, before = self.desk.snapshot, fact.before
        build = fact.build(fresh, snapshot)
        if build is None or not isinstance(before, Entry):
            return fact.job(fresh, self.desk.now(), snapshot)
        return move_job(snapshot, before, build.id, logged_with(self.desk, before))

    def give_back(self, key: str, typed: str, reason: str) -> None:
        """Open the fact that could not be amended again, as it was typed."""
        if self.opened is None:
            self.begin(key, typed)
            self.query_one(EntryLine).put(typed)
        if self.opened is not None and self.record is not None:
            self.opened.take_theirs(self.record)
            self.show_keys()
        mine = self.mapped_keys()(MINE)
        self.tell(f"{reason}; {mine} takes yours, Esc drops it", label="not taken")

    def was_changed(self) -> bool:
        """Say once what somebody else has made of the fact that is being amended."""
        fact, record = self.opened, self.record
        if fact is None or record is None or not fact.meets(record):
            return False
        self.show_keys()
        self._say_theirs(fact)
        return True

    def _say_theirs(self, fact: Amendment) -> None:
        """Say what it is by now. Enter, pressed before it was read, takes nothing."""
        key = self.mapped_keys()(MINE)
        self.tell(
            f"by now it is “{fact.theirs}”, changed elsewhere; {key} takes yours "
            "instead, Esc leaves it so",
            label="meanwhile",
        )

    def drop_edit(self) -> None:
        """Leave the fact as it was; what was typed for it can be got back."""
        fact, typed = self.opened, self.query_one(EntryLine).value
        self.stop_editing()
        self.tell("")
        if fact is None or not typed.strip():
            return
        if typed != typed_fact(held(fact.before, fact.key)):
            self.let_go(f"{self.purpose} {fact.key}", typed, fact.key)

    def put_back(self, text: str, of: str) -> None:
        """Open the fact again that a dropped text was for."""
        if of:
            self.begin(of, text)
        else:
            super().put_back(text, of)

    def stop_editing(self) -> None:
        """Close the fact; what stood in the line for it is let go."""
        if self.opened is not None:
            self.keep_now("", f"{self.purpose} {self.opened.key}")
        self.opened = None
        self.query_one("#say", Row).relabel("amend ›")
        self.show_keys()
        self.query_one(EntryLine).put("")
        self.follow()
