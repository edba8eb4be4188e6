"""Measuring one piece: a number, Enter, the next size; each on disk as it is typed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.timer import Timer
from textual.widgets import Input

from logbook.errors import BadInput, NeedsAnswer
from logbook.quantity import Absent, Quantity
from logbook.records.definition import Dimension
from logbook.records.happenings import Reading, Run
from logbook.records.verdict_word import judged
from logbook.records.workshop import Instrument
from logbook.screens import news, verbs
from logbook.screens.asked import AskingSheet
from logbook.screens.asking import (
    AS_MEANT,
    AS_TYPED,
    Answer,
    blame_of,
    which_number,
    which_of_slip,
    whose_fault_of,
)
from logbook.screens.desk import Desk
from logbook.screens.entry_line import EntryLine
from logbook.screens.listing import Line, Listing
from logbook.screens.measuring import (
    Manner,
    Slot,
    Subject,
    Taking,
    can_read,
    checked,
    deviation_job,
    deviation_on,
    earlier,
    had_words,
    known_at,
    live_value,
    most_doubtful_first,
    reading_job,
    slip_at,
    slots_of,
    to_suit,
    used_last,
)
from logbook.screens.news import Job
from logbook.screens.rows import LABEL_ROOM, Row
from logbook.screens.typed_reading import Typed, read_typed
from logbook.screens.value_shown import ValueShown

NO_TOOL = "no instrument"
REST_S = 5.0
"""A run rests after this long without a key, and is given to git then."""

TAKE = verbs.Verb(
    "take",
    "take, next",
    "enter",
    "Take the reading, go to the next; left 178.6 or @jig 178.6 names its place.",
)
BACK_ONE = verbs.Verb("walk(-1)", "back", "up", "Go back to the size before.")
ON_ONE = verbs.Verb("walk(1)", "on", "down", "Pass over this size.")
DEVIATION = verbs.Verb(
    "deviation", "deviation", "f6", "Log the reading off drawing as a deviation."
)
ORDER = verbs.Verb(
    "order",
    "order",
    "f4",
    "Walk in drawing order, or most doubtful first.",
    in_strip=False,
)
WITH = verbs.Verb(
    "instrument", "instrument", "f7", "Choose what is measured with.", in_strip=False
)
BACK_IN_RUN = replace(
    verbs.UNDO, purpose="Take back what was taken last, if it was taken in this run."
)
REST = verbs.Verb("back", "rest", "escape", "Rest the run and go back; git takes it.")


class Measure(AskingSheet):
    """A measuring run of one piece."""

    CSS_PATH = "measure.tcss"
    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        TAKE, BACK_ONE, ON_ONE, DEVIATION, BACK_IN_RUN, REST, WITH, ORDER,
        *verbs.EVERYWHERE,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])

    def __init__(self, desk: Desk, subjects: Sequence[Subject]) -> None:
        """Measure these pieces; a run of its own is taken on each."""
        super().__init__(desk)
        self._takings = {one.title: Taking(one) for one in subjects}
        self._slots: list[Slot] = []
        self._at = 0
        self._state = ""
        self._suits: dict[str, Dimension] = {}
        self._doubtful_first = False
        self._resting: Timer | None = None
        self._instrument = used_last(desk.snapshot)
        self._deviations: list[tuple[Job, str]] = []
        self._logged: set[str] = set()
        self._not_taken: dict[tuple[str, str, str], tuple[str, str]] = {}

    # -- what is walked ----------------------------------------------------------

    @property
    def heading(self) -> str:
        """What is measured, and with what."""
        tool = self._instrument
        return f"{self.measured} · {tool.title if tool else NO_TOOL}"

    @property
    def measured(self) -> str:
        """The piece that is measured."""
        return f"measuring {next(iter(self._takings), '')}"

    @property
    def slot(self) -> Slot | None:
        """The size the run stands at; none past the last, and on a new part."""
        return self._slots[self._at] if self._at < len(self._slots) else None

    def found_slots(self) -> list[Slot]:
        """Give the sizes to walk through, as the records have them now."""
        found: list[Slot] = []
        for taking in self._takings.values():
            found += slots_of(self.desk.snapshot, taking.subject)
        found = [self._suited(slot) for slot in found]
        if self._doubtful_first:
            found = most_doubtful_first(self.desk.snapshot, found)
        return found

    def _suited(self, slot: Slot) -> Slot:
        """Give a size made to suit its gap the limits that were wanted of it.

        Those the run began with stay: once it is read, the gap wants none any more.
        """
        if slot.drawn is None:
            return slot
        item = slot.drawn.characteristic.id
        advice = self.desk.advice.advice
        found = to_suit(self.desk.snapshot, advice, slot.drawn)
        if found is not slot.drawn:
            self._suits.setdefault(item, found)
        return replace(slot, drawn=self._suits.get(item, slot.drawn))

    def _refresh_slots(self) -> None:
        """Follow the records; sizes and places just typed stay in the list."""
        fresh = self.found_slots()
        known = {(s.piece, s.what.casefold(), s.place) for s in fresh}
        for slot in self._slots:
            if (slot.piece, slot.what.casefold(), slot.place) not in known and any(
                slot.takes(r) for r in self._takings[slot.piece].readings
            ):
                fresh.append(slot)
        here = self.slot
        self._slots = fresh
        if here is not None:
            self._stand_at(here.piece, here.what, here.place)

    def _stand_at(self, piece: str, what: str, place: str) -> None:
        wanted = (piece, what.casefold(), place)
        for at, slot in enumerate(self._slots):
            if (slot.piece, slot.what.casefold(), slot.place) == wanted:
                self._at = at
                return

    # -- the sheet ---------------------------------------------------------------

    def body(self) -> ComposeResult:
        """Lay out the figures, the strip, the list of sizes, the line."""
        yield ValueShown()
        yield Listing("type a size and its value: w 40.2", id="sizes")
        yield Row("", id="question")
        yield Row("reads ›", EntryLine("", id="line"), id="say")

    def on_mount(self) -> None:
        """Start at the first size; git waits until the run rests."""
        super().on_mount()
        self.desk.hold_git()
        self._slots = self.found_slots()
        self.line.focus()
        self.show()
        self.offer_kept(self.purpose)

    @property
    def purpose(self) -> str:
        """What the line of this run is kept as."""
        return f"line of {self.measured}"

    def on_unmount(self) -> None:
        """Let git go on when the run is left, however that happens."""
        self.desk.let_git()

    def told(self, message: Message) -> None:
        """Follow what is saved, refused or taken back."""
        match message:
            case news.Looked() | news.Advised():
                self._refresh_slots()
                self.show()
            case news.Written() if self._is_deviation(message.job):
                self._logged.update(message.saved.paths)
            case news.NotWritten() | news.Undone():
                self._deviations.clear()  # by now the records tell of what was written
                self._read_back()
                super().told(message)
                if isinstance(message, news.NotWritten) and message.job.typed:
                    self.line.put(message.job.typed)
                    self.line.select_all()
            case _:
                super().told(message)

    def _read_back(self) -> None:
        """Take the readings as they are on disk; stand where one is gone, to retype."""
        gone: Slot | None = None
        for taking in self._takings.values():
            stored = self.desk.snapshot.stored.get(taking.run)
            run = stored.record if stored else None
            before, kept = taking.readings, run.readings if isinstance(run, Run) else ()
            taking.readings = list(kept)
            for lost in (one for one in before if one not in kept):
                gone = next((s for s in self._slots if s.takes(lost)), gone)
        self._refresh_slots()
        if gone is not None:
            self._stand_at(gone.piece, gone.what, gone.place)
        self.show()

    def show(self) -> None:
        """Show the size the run stands at, and the list."""
        slot = self.slot
        self.query_one(Listing).show([*self._lines()], str(self._at))
        line = self.line
        line.placeholder = self._asks(slot)
        self._show_value(slot, live_value(line.value, slot, self._unit))
        self.show_question()

    def _asks(self, slot: Slot | None) -> str:
        state = f" {self._state}" if self._state else ""
        if slot is None:
            return f"a size and its value: w 40.2{state}"
        at = f" at {slot.place}" if slot.place else ""
        last, drawn = self._last_value(slot), slot.drawn.nominal if slot.drawn else None
        like = next((one.text.split()[0] for one in (last, drawn) if one), "178.6")
        return f"{slot.what}{at}{state}: {like}, or left {like} to name its place"

    @property
    def _unit(self) -> str:
        return self.desk.snapshot.project.unit

    def _show_value(self, slot: Slot | None, typed: Quantity | None) -> None:
        """Show what is typed, else what was read last."""
        shown = self.query_one(ValueShown)
        if slot is None and typed is None:
            slot = self._slot_read_last()
        if slot is None:
            shown.show_number("", typed)
            return
        value = typed or self._last_value(slot)
        beside = (
            f"at {slot.place}" if slot.place else "",
            self._not_with(value),
            slot.what if len(slot.what) > LABEL_ROOM else "",
        )
        said = self._judged(slot, value) if value else "not measured"
        when = "before" if value and not typed and not self._taken(slot) else ""
        shown.show(slot.what, slot.drawn, value, said, beside, when)

    def _not_with(self, value: Quantity | None) -> str:
        """Say that a value is of a kind the instrument named above does not read."""
        tool = self._instrument
        other = tool is not None and value is not None and not can_read(tool, value)
        return f"not with {tool.title}" if tool and other else ""

    def _slot_read_last(self) -> Slot | None:
        """Give the size that was read last in this run."""
        read = [
            (self._order_taken(taken[-1]), at)
            for at, slot in enumerate(self._slots)
            if (taken := self._taken(slot))
        ]
        return self._slots[max(read)[1]] if read else None

    def _judged(self, slot: Slot, read: Reading | Quantity) -> str:
        """Judge a reading by what it was taken with, a number by what is in hand."""
        if isinstance(read, Quantity):
            tool, value = self._instrument, read
            tool = tool if tool and can_read(tool, value) else None
            return _said(slot, value, tool)
        tool = self.desk.snapshot.find(read.instrument, Instrument)
        return _said(slot, read.value, tool)

    def _last(self, slot: Slot) -> Reading | None:
        taken = self._taken(slot)
        return taken[-1] if taken else earlier(self.desk.snapshot, slot)

    def _last_value(self, slot: Slot) -> Quantity | None:
        last = self._last(slot)
        return last.value if last and isinstance(last.value, Quantity) else None

    def _taken(self, slot: Slot) -> list[Reading]:
        return [r for r in self._takings[slot.piece].readings if slot.takes(r)]

    def _lines(self) -> Sequence[Line]:
        """Give a row for each size; names too long for the margin stand beside it."""
        names = [self.label_of(slot) for slot in self._slots]
        width = max((len(name) for name in names), default=0)
        rooms = (
            0 if width <= LABEL_ROOM else width,
            max((len(slot.place) for slot in self._slots), default=0),
        )
        return [
            *(self._line(at, slot, rooms) for at, slot in enumerate(self._slots)),
            Line(str(len(self._slots)), "+", "another: its name and value, w 40.2"),
        ]

    def label_of(self, slot: Slot) -> str:
        """Give the margin word of a size."""
        return slot.what

    def _line(self, at: int, slot: Slot, rooms: tuple[int, int]) -> Line:
        taken = self._taken(slot)
        before = earlier(self.desk.snapshot, slot)
        if taken:
            values = "  ".join(str(r.value) for r in taken)
            said = f"{values}  {self._judged(slot, taken[-1])}"
            if taken[-1].note:
                said = f"{values}  {taken[-1].note}"
        elif before is not None:
            said = f"({before.value} before)  not in this run yet"
        else:
            said = f"not measured{had_words(self.desk.snapshot, slot)}"
        if doubted := self._not_taken.get(_where(slot)):
            text, why = doubted
            said = f"{said}  {text} not taken" if taken else f"{text} not taken: {why}"
        name, place = self.label_of(slot), slot.place.ljust(rooms[1])
        if not rooms[0]:
            return Line(str(at), name, said, place)
        known = f"{name.ljust(rooms[0])}  {place}".rstrip()
        return Line(str(at), str(at + 1), said, known)

    # -- typing ------------------------------------------------------------------

    @on(Input.Changed, "#line")
    def _typed(self) -> None:
        if not self.line.as_put:
            self.tell("")
        self.keep_soon(self.line.value, self.purpose)
        self._show_value(
            self.slot,
            live_value(self.line.value, self.slot, self._unit),
        )
        self._rest_soon()

    def _rest_soon(self) -> None:
        if self._resting is not None:
            self._resting.stop()
        self._resting = self.set_timer(REST_S, self.desk.rest)

    @on(Input.Submitted, "#line")
    def _take(self) -> None:
        line = self.line
        if not line.value.strip():
            self.action_walk(1)
            return
        known = known_at(self._slots, self.slot, self._unit)
        try:
            said = read_typed(line.value, known)
            if said[0].value is None:
                self._state = said[0].state or ""
                line.put("")
                self.show()
                return
            slots = self._checked(said)
        except NeedsAnswer as unsure:
            self._ask_which(unsure)
        except BadInput as refusal:
            self._refuse(line.value, str(refusal))
        else:
            self._put_settled(list(said), slots, line.value)

    def _refuse(self, typed: str, why: str) -> None:
        """Say why not; the text stays, and what is typed next stands in its place."""
        typed = " ".join(typed.split())
        named = why if typed.partition(" ")[0] in why else f"“{typed}”: {why}"
        self.tell(named, label="not taken")
        self.line.select_all()

    def _checked(self, said: Sequence[Typed]) -> list[Slot]:
        """Give the size each reading is of, new ones put into the list.

        Raises:
            BadInput: one of them cannot be of its size; no new size is kept.
        """
        slots, at = list(self._slots), self._at
        try:
            found = [self._meant(typed) for typed in said]
            for typed, slot in zip(said, found, strict=True):
                checked(self.desk.snapshot, typed, slot)
        except BadInput:
            self._slots, self._at = slots, at
            raise
        return found

    def _put_settled(self, said: list[Typed], slots: Sequence[Slot], text: str) -> None:
        """Write a line once each reading that looks like a slip was asked about."""
        rows = enumerate(zip(said, slots, strict=True))
        slips = ((at, slip_at(self.desk.snapshot, *row)) for at, row in rows)
        found = next(((at, slip) for at, slip in slips if slip), None)
        if found is None:
            self._put(said, slots, text)
            return
        at, slip = found
        if self.typed_over:
            self._leave_doubted(slots[at], text, slip.question)
            self.action_walk(1)
            return

        def answered(answer: Answer) -> None:
            if answer.words == AS_MEANT:
                said[at] = replace(said[at], value=slip.meant)
            elif answer.words == AS_TYPED:
                said[at] = replace(said[at], confirmed=True)
            elif answer.typed_on:
                self._leave_doubted(slots[at], text, slip.question)
                return
            else:
                self.line.select_all()
                return
            self._not_taken.pop(_where(slots[at]), None)
            self._put_settled(said, slots, text)

        self.ask(which_of_slip(slip), answered)

    def _leave_doubted(self, slot: Slot, text: str, why: str) -> None:
        """Leave a number at its place, not taken: its row says so for this run."""
        self._not_taken[_where(slot)] = (text.strip(), why)
        self.line.put("")

    def _put(self, said: Sequence[Typed], slots: Sequence[Slot], text: str) -> None:
        """Write every reading of a line; what is refused gives the line back once."""
        told: list[str] = []
        for n, (typed, slot) in enumerate(zip(said, slots, strict=True)):
            off = self._put_one(typed, slot, "" if n else text)
            told += [off] if off else []
        self.line.put("")
        self.keep_now("", self.purpose)
        if told and told[-1].endswith((*_FAULTS.values(),)):
            told[-1] += f": {self.mapped_keys()(DEVIATION)} logs it"
        if len(slots) > 1:
            told.append(_several(slots))
        if told:
            self.show()
            self.tell("; ".join(told), label="taken" if len(slots) > 1 else "")
            self._rest_soon()
        self.action_walk(1)

    def _put_one(self, typed: Typed, slot: Slot, text: str) -> str:
        """Write one reading; say it where it is off its drawing."""
        taking = self._takings[slot.piece]
        manner = Manner(self._state, self._instrument)
        reading, job = reading_job(self.desk, taking, typed, slot, manner, text)
        taking.readings.append(reading)
        self.desk.write(job)
        verdict = _FAULTS.get(self._judged(slot, reading))
        told = [f"{slot.what} {reading.value} {verdict}"] if verdict else []
        if doubted := self._not_taken.get(_where(slot)):
            at = slot.place or slot.what
            told.insert(0, f"{doubted[0]} not taken; {reading.value} stands at {at}")
        return "; ".join(told)

    def _meant(self, typed: Typed) -> Slot:
        """Give the size that was typed, new ones put after the one it stands at."""
        here = self.slot
        piece = here.piece if here else next(iter(self._takings))
        what = typed.what or (here.what if here else "")
        place = typed.place or ("" if typed.what or here is None else here.place)
        for at, slot in enumerate(self._slots):
            known = (slot.piece, slot.what.casefold())
            if known == (piece, what.casefold()) and slot.place == place:
                self._at = at
                return slot
        same = [s for s in self._slots if s.what.casefold() == what.casefold()]
        slot = Slot(piece, what, place, same[0].drawn if same else None)
        at = min(self._at + 1, len(self._slots)) if same else len(self._slots)
        self._slots.insert(at, slot)
        self._at = at
        return slot

    # -- walking and deciding ----------------------------------------------------

    def action_take(self) -> None:
        """Take the reading, as Enter does."""
        self._take()

    def action_walk(self, by: int) -> None:
        """Go to another size; past the last one new ones are typed."""
        self._at = max(0, min(len(self._slots), self._at + by))
        self.show()

    def action_order(self) -> None:
        """Walk in drawing order, or most doubtful first."""
        self._doubtful_first = not self._doubtful_first
        self._slots = self.found_slots()
        self._at = 0
        self.tell(
            "most doubtful first" if self._doubtful_first else "drawing order",
            label="order",
        )
        self.show()

    def action_instrument(self) -> None:
        """Go to the next instrument of the shop; after the last, name none."""
        known = [None, *self.desk.snapshot.all(Instrument)]
        ids = [tool.id if tool else "" for tool in known]
        now = ids.index(self._instrument.id) if self._instrument else 0
        tool = self._instrument = known[(now + 1) % len(known)]
        said = NO_TOOL
        if len(known) == 1:
            said = "none is on record; `logbook instrument` adds one"
        elif tool is not None:
            width = tool.uncertainty
            said = f"{tool.title}, ±{width}" if width else f"{tool.title}, doubt unsaid"
        key = self.mapped_keys()(WITH)
        self.tell(f"{said}; {key} goes on to the next", label="with")
        self.show_band()
        self.show()

    def action_deviation(self) -> None:
        """Lead from the reading off drawing to its deviation."""
        found = self._off()
        if found is None:
            self.tell(
                "no reading of this run is off drawing or does not suit",
                label="nothing",
            )
            return
        slot, reading = found
        if self._is_logged(slot, reading):
            said = f"{slot.what} {reading.value} is logged already"
            self.tell(f"{said}; Enter on it at the bench opens it", label="nothing")
            return

        def answered(said: Answer) -> None:
            if said.words is not None:
                self._log_deviation(slot, reading, said.words)
                self.show()

        self.ask(whose_fault_of(f"{slot.what} {reading.value}"), answered)

    def _is_logged(self, slot: Slot, reading: Reading) -> bool:
        """Tell whether a deviation was made of this reading, or is being written."""
        subject = self._takings[slot.piece].subject
        known = deviation_on(self.desk.snapshot, subject, reading)
        return known is not None or reading.id in [id_ for _, id_ in self._deviations]

    def _is_deviation(self, job: Job) -> bool:
        return any(job is one for one, _ in self._deviations)

    def _off(self) -> tuple[Slot, Reading] | None:
        """Give the reading off drawing: here if it is one, else the last."""
        found = [
            (slot, reading)
            for slot in self._slots
            for reading in self._taken(slot)[-1:]
            if self._judged(slot, reading) in _FAULTS
        ]
        here = [one for one in found if one[0] is self.slot]
        newest = sorted(found, key=lambda one: self._order_taken(one[1]))
        open_yet = [one for one in newest if not self._is_logged(*one)]
        return next(iter([*here, *open_yet[::-1], *newest[::-1]]), None)

    def _order_taken(self, reading: Reading) -> int:
        every = [r.id for t in self._takings.values() for r in t.readings]
        return every.index(reading.id)

    def show_question(self) -> None:
        """Show the question, or take its row away."""
        row = self.query_one("#question", Row)
        row.display = self.question is not None
        if self.question is not None:
            row.say(self.question.shown(), "?")

    def _ask_which(self, unsure: NeedsAnswer) -> None:
        """Ask which of its meanings a number has; another number takes its place."""
        typed = self.line.value

        def answered(said: Answer) -> None:
            if said.words:
                self._answer_which(typed, said.words)
            elif said.typed_on and self.slot:
                self._leave_doubted(self.slot, typed, question.words)
            elif said.typed_on:
                self.line.put("")
            else:
                self.line.select_all()

        question = which_number(unsure)
        if self.typed_over and self.slot:
            self._leave_doubted(self.slot, typed, question.words)
            self.action_walk(1)
            return
        self.ask(question, answered)

    def _answer_which(self, typed: str, meant: str) -> None:
        head, number = typed.rsplit(" ", 1) if " " in typed else ("", typed)
        del number
        self.line.put(f"{head} {meant}".strip())
        self._take()

    def _log_deviation(self, slot: Slot, reading: Reading, words: str) -> None:
        if isinstance(reading.value, Absent):
            return
        subject = self._takings[slot.piece].subject
        job = deviation_job(self.desk, subject, reading, blame_of(words))
        self._deviations.append((job, reading.id))
        self.desk.write(job)
        self.tell(
            f"{slot.what} {reading.value}: {words or 'not known yet'}", label="logged"
        )

    def action_undo(self) -> None:
        """Take back the last reading of this run, or the deviation logged from it."""
        self.undo_only("nothing taken in this run yet", self._own_files)

    def _own_files(self) -> set[str]:
        stored = self.desk.project.snapshot.stored
        runs = {one.run for one in self._takings.values()}
        return self._logged | {stored[run].path for run in runs if run in stored}

    def action_back(self) -> None:
        """Rest the run and go back."""
        if self.question is not None:
            self.asked_enough()
            return
        self.keep_now(self.line.value, self.purpose)
        self.dismiss()


def _where(slot: Slot) -> tuple[str, str, str]:
    """Give what a place of a size is known by in this run."""
    return slot.piece, slot.what.casefold(), slot.place


def _said(slot: Slot, value: Quantity | Absent, tool: Instrument | None) -> str:
    """Judge a value; what is made to suit is held to its gap, not to a drawing."""
    said = judged(slot.drawn, value, tool.uncertainty if tool else None)
    suits = slot.drawn is not None and slot.drawn.to_suit
    return _SUITED.get(said, said) if suits else said


_FAULTS = {"off drawing": "is off drawing", "does not suit": "does not suit"}
"""Verdicts from which a deviation is led to, as a sentence has them."""

_SUITED = {"off drawing": "does not suit", "no limits drawn": "no limits yet"}


def _several(slots: Sequence[Slot]) -> str:
    """Say that several numbers are several readings, and where each was taken."""
    places = ", ".join(slot.place or "no place" for slot in slots)
    return (
        f"{len(slots)} readings of {slots[0].what}, none averaged, at: {places} "
        "(left 178.6 names a place)"
    )
