"""One record: its facts, prose and file, what mentions it, how it came to be.

Arrows move between its facts and the records it is joined to. Enter on a fact
edits it in the line below; Enter on another record opens that one.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from typing import Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Input

from logbook.errors import Problem, Refused
from logbook.records.ids import Ref
from logbook.records.kinds import kind_of
from logbook.records.record import Record
from logbook.records.snapshot import refs_in
from logbook.screens import news, verbs
from logbook.screens.amending import (
    amend_draft,
    amended,
    can_amend,
    editable,
    typed_fact,
)
from logbook.screens.desk import Desk
from logbook.screens.entry_line import EntryLine
from logbook.screens.listing import Line, Listing
from logbook.screens.margin_words import margin_word
from logbook.screens.moments import day
from logbook.screens.newest import line_of
from logbook.screens.news import Job
from logbook.screens.record_words import has_rows, rows_of_fact
from logbook.screens.rows import KeyStrip, Row
from logbook.screens.sheet import Sheet
from logbook.store.acts import Act
from logbook.store.drafts import keep_draft
from logbook.store.git.history import LogLine

AMEND = verbs.Verb("choose", "amend or open", "enter", "Amend the fact, or open it.")
BACK_HERE = replace(
    verbs.UNDO,
    purpose="Say which entry of this record would be taken back; again: do it.",
)
MINE = verbs.Verb(
    "take_mine",
    "take mine",
    "f6",
    "Take your change over one that came from elsewhere meanwhile.",
    in_strip=False,
)

GONE = "this record is not here any more"


class RecordSheet(Sheet):
    """A record with everything that is known of it."""

    CSS_PATH = "record.tcss"
    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        AMEND,
        verbs.Verb("move(-1)", "up", "up", "Go up.", in_strip=False),
        verbs.Verb("move(1)", "down", "down", "Go down.", in_strip=False),
        verbs.Verb("move(-10)", "far up", "pageup", "Go far up.", in_strip=False),
        verbs.Verb("move(10)", "far down", "pagedown", "Go far down.", in_strip=False),
        MINE, verbs.BACK, BACK_HERE, *verbs.EVERYWHERE,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])

    def __init__(self, desk: Desk, record_id: str) -> None:
        """Show the record with this id."""
        super().__init__(desk)
        self._record_id = record_id
        self._editing = ""
        self._edits: Record | None = None
        self._edited = ""
        self._theirs = ""
        self._sent: tuple[Job, str] | None = None
        self._path = ""
        self._history: tuple[LogLine, ...] | None = ()
        self._asked = False
        self._announced: Act | None = None

    @property
    def record(self) -> Record | None:
        """The record as it is now; none once it was taken back."""
        stored = self.desk.snapshot.stored.get(self._record_id)
        return stored.record if stored else None

    @property
    def heading(self) -> str:
        """The kind of the record."""
        if self.record is None:
            return "cannot be read" if self._problem() else "gone"
        return kind_of(self.record).shown

    def _problem(self) -> Problem | None:
        """Give why its file cannot be read; none where there is no such file."""
        found = self.desk.snapshot.problems
        return next((one for one in found if one.file == self._path), None)

    def body(self) -> ComposeResult:
        """Lay out title, everything known, and the line."""
        yield Row("", id="title")
        yield Listing(GONE, id="facts")
        yield Row("amend ›", EntryLine("", id="line"), id="say")

    def on_mount(self) -> None:
        """Show the record and ask git about it."""
        super().on_mount()
        self.query_one(EntryLine).focus()
        self.show()
        self.desk.history(self._record_id)
        self._offer()

    @property
    def _purpose(self) -> str:
        """What the line of this record is kept as; the fact's name follows."""
        return f"amending {self._record_id}"

    def _offer(self) -> None:
        """Go on with the fact that was being amended when the screen went away."""
        kept = self.offer_kept(self._purpose)
        key = kept.removeprefix(f"{self._purpose} ").partition(" of process ")[0]
        if not kept or self.record is None:
            return
        text = self.query_one(EntryLine).value
        self._begin(key)
        if self._editing:
            self.query_one(EntryLine).put(text)

    def told(self, message: Message) -> None:
        """Follow what changes."""
        match message:
            case news.History(record_id=self._record_id):
                self._history, self._asked = message.lines, True
                self.show()
            case news.Looked():
                self.show()
                self._was_changed()
            case news.NotWritten() if self._sent and message.job is self._sent[0]:
                self._give_back(self._sent[1], message.reason)
            case news.ToUndo():
                self._announce(message)
            case news.Taken():
                self.desk.history(self._record_id)
            case news.Written() if message.job.subject.startswith("amend: "):
                self.tell(message.job.said, label="on disk")
            case _:
                super().told(message)

    def show_keys(self) -> None:
        """Show the keys that work: while a fact is amended, those that end it."""
        if not self._editing:
            super().show_keys()
            return
        take = self.mapped_keys()(MINE) if self._theirs else "Enter"
        ends = ((take, "take the change"), ("Esc", "leave it as it was"))
        self.query_one(KeyStrip).tell(ends)

    # -- what is shown -----------------------------------------------------------

    def show(self) -> None:
        """Show the record as it is now, the arrow where it was."""
        record, facts = self.record, self.query_one(Listing)
        kept = facts.chosen.key if facts.chosen else ""
        self.show_band()
        if record is None:
            facts.show_nothing(self._why_gone())
            facts.show(())
            return
        self._path = self.desk.snapshot.path(record)
        self.query_one("#title", Row).say(record.title, day(record.when))
        facts.show(tuple(self._lines(record)), kept)
        self._follow()

    def _why_gone(self) -> str:
        """Say why there is no record to show: taken back, or not to be read."""
        problem = self._problem()
        if problem is None:
            return GONE
        self.tell(str(problem), label="problem")
        if problem.found == "a merge conflict":
            return "both sides of a merge are in its file: it waits to be settled"
        return "its file cannot be read as it is now; nothing of it is lost"

    def _lines(self, record: Record) -> Iterator[Line]:
        yield Line("title", "title", record.title)
        for key, value in editable(record).items():
            for at, words in enumerate(rows_of_fact(value)):
                more = f" {at}" if has_rows(value) else ""
                label = "" if at else margin_word(key)
                yield Line(f"fact {key}{more}", label, words)
        for at, line in enumerate((record.prose or "no prose").split("\n")):
            yield Line(
                "prose" if not at else f"prose {at}", "" if at else "prose", line
            )
        yield Line("file", "file", self.desk.snapshot.path(record))
        yield from self._joined(record)
        yield from self._commits()

    def _joined(self, record: Record) -> Iterator[Line]:
        snapshot = self.desk.snapshot
        seen = {record.id}
        for label, others in (
            ("names", tuple(refs_in(record))),
            ("named by", snapshot.mentions(record)),
        ):
            for other in others:
                found = snapshot.find(other) if isinstance(other, Ref) else other
                if found is not None and found.id not in seen:
                    seen.add(found.id)
                    line = line_of(found)
                    yield replace(line, key=f"record {found.id}", label=label)

    def _commits(self) -> Iterator[Line]:
        if not self._asked:
            return
        if self._history is None:
            yield Line("git", "history", "git does not know it here (partial clone)")
        elif not self._history:
            yield Line("git", "history", "git has not taken it yet")
        for number, one in enumerate(self._history or ()):
            said = f"{one.when:%Y-%m-%d %H:%M}  {one.id[:9]}  {one.subject}"
            yield Line(f"git {number}", "history" if not number else "", said)

    # -- moving and amending -----------------------------------------------------

    def action_move(self, by: int) -> None:
        """Move the arrow; an edit not yet taken stays as it is."""
        self._keep_it()
        if self._editing and self.query_one(EntryLine).value:
            self.tell("Enter takes the change, Esc drops it")
            return
        self.query_one(Listing).move(by)
        self._follow()

    def _follow(self) -> None:
        chosen, line = self.query_one(Listing).chosen, self.query_one(EntryLine)
        if self._editing or chosen is None:
            return
        line.placeholder = ""
        if chosen.key.startswith("record "):
            line.placeholder = "Enter opens it"
        elif can_amend(self._held(_fact_of(chosen))):
            line.placeholder = "Enter amends it here"

    @on(Input.Submitted, "#line")
    def _enter(self) -> None:
        self._keep_it()
        chosen, typed = self.query_one(Listing).chosen, self.query_one(EntryLine).value
        if self._editing:
            self._amend()
        elif chosen is None:
            return
        elif chosen.key.startswith(("record ", "file", "git")):
            if typed:
                self.tell("this row takes no new value; Esc empties the line")
            elif chosen.key.startswith("record "):
                self.show_record(chosen.key.partition(" ")[2])
        elif self.record is not None:
            self._begin(_fact_of(chosen), typed)

    def _held(self, key: str) -> Any:
        """Give a fact as its file has it; None where the record has no such fact."""
        return None if self.record is None else self._held_of(self.record, key)

    def _held_of(self, record: Record, key: str) -> Any:
        held: dict[str, Any] = {"title": record.title, "prose": record.prose}
        name, _, row = key.partition(" ")
        found = (held | editable(record)).get(name)
        if row and isinstance(found, list | tuple):
            return found[int(row)] if int(row) < len(found) else None
        return found

    @on(Input.Changed, "#line")
    def _typed(self) -> None:
        self._keep_it()
        line = self.query_one(EntryLine)
        if self._editing and not line.as_put:
            self.tell("")
            self.keep_soon(line.value, f"{self._purpose} {self._editing}")

    def _begin(self, key: str, typed: str = "") -> None:
        """Open a fact for amending, as it is, or with what was typed for it."""
        record, value = self.record, self._held(key)
        if record is None:
            return
        if not can_amend(value):
            path = self.desk.snapshot.path(record)
            self.tell(f"{_word(key)} holds more than one line; amend it in {path}")
            return
        self._editing, self._edits = key, record
        self.query_one("#say", Row).relabel(f"{_word(key)[:9]} ›")
        self.show_keys()
        self.query_one(EntryLine).put(typed or typed_fact(value))
        if typed:
            was = typed_fact(value) or "empty"
            self.tell(f"Enter takes it, Esc drops it; it was: {was}")

    def _amend(self) -> None:
        record, key = self.record, self._editing
        typed = self.query_one(EntryLine).value
        if record is None or self._was_changed():
            return
        if self._theirs:
            self._say_theirs()
            return
        self._put_amended(record, key, typed)

    def action_take_mine(self) -> None:
        """Take the change over what came from elsewhere, which the drafts keep."""
        record, key, theirs = self.record, self._editing, self._theirs
        if record is None or not theirs:
            self.tell("nothing was changed elsewhere meanwhile", label="nothing")
            return
        if self._was_changed():
            return
        try:
            about = f"{_word(key)} of {record.title}, as replaced"
            keep_draft(self.desk.project.root, theirs, about)
        except Refused as refusal:
            self.tell(str(refusal), label="not taken")
            return
        self._put_amended(record, key, self.query_one(EntryLine).value)

    def _put_amended(self, record: Record, key: str, typed: str) -> None:
        """Write the fact as typed, or say why it is not taken."""
        fresh = amended(record, key, typed, self.desk.now())
        if not isinstance(fresh, str):
            fresh = self._names_nothing(record, fresh) or fresh
        if isinstance(fresh, str):
            self.tell(fresh, label="not taken")
            return
        self._edited = key
        self._stop_editing()
        if fresh == record:
            self.tell("it stays as it was")
            return
        job = self._job(record, fresh)
        self._sent = job, typed
        self.desk.write(job)

    def _give_back(self, typed: str, reason: str) -> None:
        """Open the fact that could not be amended again, as it was typed."""
        if not self._editing:
            self._begin(self._edited, typed)
            self.query_one(EntryLine).put(typed)
        if self._editing and self.record is not None:
            self._theirs = self._shown_now()
            self.show_keys()
        key = self.mapped_keys()(MINE)
        self.tell(f"{reason}; {key} takes yours, Esc drops it", label="not taken")

    def _was_changed(self) -> bool:
        """Say once what somebody else has made of the fact that is being amended."""
        key, now = self._editing, self._held(self._editing)
        if self._edits is None or self.record is None or not key:
            return False
        before, self._edits = self._held_of(self._edits, key), self.record
        if now == before:
            return False
        self._theirs = self._shown_now()
        self.show_keys()
        self._say_theirs()
        return True

    def _shown_now(self) -> str:
        """Give the fact that is being amended as it is by now."""
        now = self._held(self._editing)
        return (typed_fact(now) if now is not None else "") or "nothing"

    def _say_theirs(self) -> None:
        """Say what it is by now. Enter, pressed before it was read, takes nothing."""
        key = self.mapped_keys()(MINE)
        self.tell(
            f"by now it is “{self._theirs}”, changed elsewhere; {key} takes yours "
            "instead, Esc leaves it so",
            label="meanwhile",
        )

    def _names_nothing(self, before: Record, after: Record) -> str:
        """Say which record the change would name that is not there."""
        old = set(refs_in(before))
        for ref in refs_in(after):
            if ref not in old and self.desk.snapshot.find(ref) is None:
                return f"“{ref}” is no record here; accepted: a name, or an id"
        return ""

    def _job(self, before: Record, after: Record) -> Job:
        """Amend on what is there by then, unless just this was changed meanwhile."""
        return Job(
            f"amend: {after.title}",
            lambda project: amend_draft(project.draft(self.desk.now()), before, after),
            said=f"amended: {after.title}{self._old_in_title(before, after)}",
        )

    def _old_in_title(self, before: Record, after: Record) -> str:
        """Say that the title still has the value that was amended, if it has."""
        if after.title != before.title:
            return ""
        old = typed_fact(self._held_of(before, self._edited)).partition(" ")[0]
        words = after.title.replace(",", " ").split()
        return "; its title still has the old one" if old in words else ""

    def _stop_editing(self) -> None:
        self.keep_now("", f"{self._purpose} {self._editing}")
        self._editing, self._edits, self._theirs = "", None, ""
        self.query_one("#say", Row).relabel("amend ›")
        self.show_keys()
        self.query_one(EntryLine).put("")
        self._follow()

    def action_choose(self) -> None:
        """Amend or open what the arrow stands at, as Enter does."""
        self._enter()

    def action_undo(self) -> None:
        """Say what would be taken back; the key again takes it back."""
        meant = self.only_ours(GONE, self._own_file)
        announced, self._announced = self._announced, None
        if announced is None:
            self.desk.ask_undo(meant)
            return

        def same(act: Act) -> None:
            meant(act)
            if act != announced:
                raise Refused(f"the last entry is another one by now, “{act.subject}”")

        self.desk.undo(same)

    def _announce(self, found: news.ToUndo) -> None:
        """Say what the key pressed again takes back."""
        self._announced = found.act
        if found.act is None:
            self.tell(found.refusal, label="undo")
            return
        key = self.mapped_keys()(verbs.UNDO)
        when = f"{datetime.fromisoformat(found.act.at).astimezone():%d %b %H:%M}"
        self.tell(
            f"{key} again takes back “{found.act.subject}” of {when}; "
            "any other key keeps it",
            label="undo?",
        )

    def _keep_it(self) -> None:
        """Let go of what was announced: another key was pressed."""
        if self._announced is not None:
            self._announced = None
            self.tell("")

    def _own_file(self) -> tuple[str, ...]:
        stored = self.desk.project.snapshot.stored.get(self._record_id)
        return (stored.path,) if stored else ()

    def action_back(self) -> None:
        """Drop an edit, or go back."""
        if self._announced is not None:
            self._keep_it()
        elif self._editing:
            self._stop_editing()
            self.tell("")
        elif self.query_one(EntryLine).value:
            self.query_one(EntryLine).put("")
            self.tell("")
        else:
            self.dismiss()


def _word(key: str) -> str:
    return margin_word(key.partition(" ")[0])


def _fact_of(line: Line) -> str:
    """Give the name of the fact a row shows, and its row in a table, if in one."""
    if line.key.startswith("fact "):
        return line.key.removeprefix("fact ")
    return line.key.partition(" ")[0]  # the rows of prose are one
