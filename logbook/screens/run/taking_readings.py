"""Readings typed on a line: each read, asked about where it is in doubt, written."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from textual import on
from textual.timer import Timer
from textual.widgets import Input

from logbook.advice.gaps.held_to_gap import FAULTS
from logbook.errors import BadInput, NeedsAnswer
from logbook.quantity import Quantity
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled.asking import (
    AS_MEANT,
    AS_TYPED,
    Answer,
    which_number,
    which_of_slip,
)
from logbook.screens.run.kept_reading import KeptReading
from logbook.screens.run.measure_verbs import DEVIATION
from logbook.screens.run.read_again import (
    AGAIN,
    NEXT,
    TypedOver,
    can_be_of,
    of_which,
)
from logbook.screens.run.run_jobs import Manner, reading_job
from logbook.screens.run.run_rows import several_words, show_value
from logbook.screens.run.run_state import RunState
from logbook.screens.run.slots import (
    Slot,
    known_at,
    live_value,
    slip_at,
    unit_of,
    unit_read,
)
from logbook.screens.run.typed_reading import NoSize, Typed, read_typed
from logbook.screens.run.value_shown import ValueShown
from logbook.screens.run.walk import Walk

REST_S = 5.0
"""A run rests after this long without a key, and is given to git then."""


class TakingSheet(KeptReading):
    """A sheet whose line takes the readings of a run."""

    def __init__(self, desk: Desk, walk: Walk) -> None:
        """Take readings on this walk."""
        super().__init__(desk, walk)
        self.state = RunState(desk, walk)
        self._resting: Timer | None = None
        self._over: TypedOver[tuple[str, str, str]] | None = None

    def show_value(self) -> None:
        """Show the value that is typed, else the one read last."""
        unit = unit_read(self.desk.snapshot, self.walk.slot)
        typed = live_value(self.line.value, self.walk.slot, unit)
        show_value(self.query_one(ValueShown), self.state, typed)

    def _read(self, text: str) -> tuple[Typed, ...]:
        """Read a line; a bare number is in the unit of the size it is of.

        Raises:
            BadInput: it is no reading; the sentence says what is accepted.
        """
        slots, here, snapshot = self.walk.slots, self.walk.slot, self.desk.snapshot
        known = known_at(slots, here, unit_read(snapshot, here))
        said = read_typed(text, known)
        what = said[0].what.casefold()
        if not what or (here is not None and what == here.what.casefold()):
            return said
        there = next((one for one in slots if one.what.casefold() == what), None)
        known = replace(known, unit=unit_of(there, unit_read(snapshot, there)))
        return read_typed(text, known)

    def action_walk(self, by: int) -> None:
        """Go to another size; past the last one new ones are typed."""
        self.state.announced, self._over = "", None
        self.walk.go(by)
        if self.line.value:
            self.keep_here(self.typed_here)
        self.show()

    def place_of(self, slot: Slot) -> str:
        """Give the word by which the row of a size is told from the others."""
        return slot.place or slot.what

    def action_take(self) -> None:
        """Take the reading, as Enter does."""
        self._take()

    # -- typing ------------------------------------------------------------------

    @on(Input.Changed, "#line")
    def _typed(self) -> None:
        if not self.line.as_put:
            self.tell_of_typing()
        self.keep_here(self.typed_here)
        self.show_value()
        self._rest_soon()

    def _rest_soon(self) -> None:
        if self._resting is not None:
            self._resting.stop()
        self._resting = self.set_timer(REST_S, self.desk.rest)

    @on(Input.Submitted, "#line")
    def _take(self) -> None:
        text = self._with_unnamed(self.line.value)
        if not text.strip():
            self.action_walk(1)
            return
        try:
            said = self._read(text)
            if said[0].value is None:
                self.state.held = said[0].state or ""
                self.line.put("")
                self.show()
                return
            slots = self.walk.meant(said)
        except NeedsAnswer as unsure:
            self._ask_which(unsure)
        except NoSize as refusal:
            self._set_aside(text, str(refusal))
        except BadInput as refusal:
            self._refuse(text, str(refusal))
        else:
            self._put_settled(list(said), slots, text)

    def _with_unnamed(self, text: str) -> str:
        """Give a name with the numbers that were typed before it, else the line."""
        named = self._unnamed and text[:1].isalpha() and not any(map(str.isdigit, text))
        return " ".join((text, *self._unnamed)) if named else text

    def _set_aside(self, typed: str, why: str) -> None:
        """Keep numbers of no size, as a caliper types them, until they get a name."""
        self._unnamed.append(" ".join(typed.split()))
        said = " ".join(self._unnamed)
        self.line.put("")
        self.keep_here(said, at_once=True)
        if len(self._unnamed) > 1:
            why = f"“{said}” name no size yet; accepted: a name and a value, w 40.2"
        self.tell(f"{why}; or its name now, which these are then of", label="of what?")

    def _refuse(self, typed: str, why: str) -> None:
        """Say why not; the text stays, and what is typed next stands in its place."""
        typed = " ".join(typed.split())
        named = why if typed.partition(" ")[0] in why else f"“{typed}”: {why}"
        self.tell(named, label="not taken")
        self.line.select_all()

    def _put_settled(self, said: list[Typed], slots: Sequence[Slot], text: str) -> None:
        """Write a line once each reading that looks like a slip was asked about."""
        rows = enumerate(zip(said, slots, strict=True))
        slips = ((at, slip_at(self.desk.snapshot, *row)) for at, row in rows)
        found = next(((at, slip) for at, slip in slips if slip), None)
        if found is None:
            there = self._may_be_of(said, slots)
            if there is None:
                self._put(said, slots, text)
            else:
                self._ask_where(said, slots[0], there, text)
            return
        at, slip = found

        def answered(answer: Answer) -> None:
            if answer.words == AS_MEANT and slip.meant is not None:
                said[at] = replace(said[at], value=slip.meant)
            elif answer.words == AS_TYPED:
                said[at] = replace(said[at], confirmed=True)
            elif answer.typed_on:
                self._leave_doubted(slots[at], text, slip.question, slip.meant)
                return
            else:
                self.line.select_all()
                return
            if self._over is None:  # else it was another number that is doubted here
                self.state.settle(slots[at])
            self._put_settled(said, slots, text)

        self.ask(which_of_slip(slip), answered)

    def _leave_doubted(
        self, slot: Slot, text: str, why: str, meant: Quantity | None = None
    ) -> None:
        self.state.doubt(slot, text, why)
        self._over = TypedOver(slot.where, meant)
        self.line.put("")
        self.show()

    def _may_be_of(self, said: Sequence[Typed], slots: Sequence[Slot]) -> Slot | None:
        """Give the next size, where a number typed over a question may be of it."""
        first, over = said[0], self._over
        here, value = slots[0], first.value
        there = self.walk.behind(here)
        if over is None or there is None or value is None or len(said) > 1:
            return None
        if first.what or first.place or not over.is_open(here.where, value):
            return None
        free = not self.state.taken(there) and not self.state.taken(here)
        fits = can_be_of(self.desk.snapshot, there.drawn, value)
        return there if free and fits else None

    def _ask_where(
        self, said: Sequence[Typed], here: Slot, there: Slot, text: str
    ) -> None:
        """Ask whether a number was read again here, or is of the next size."""
        assert said[0].value is not None

        def answered(answer: Answer) -> None:
            if answer.words == AGAIN:
                self._put(said, [here], text)
            elif answer.words == NEXT:
                self.walk.stand_at(there)
                self._put(said, [there], text)
            else:
                self.line.select_all()

        names = self.place_of(here), self.place_of(there)
        self.ask(of_which(said[0].value, *names), answered)

    def _ask_which(self, unsure: NeedsAnswer) -> None:
        """Ask which of its meanings a number has; another number takes its place."""
        typed, slot, question = self.line.value, self.walk.slot, which_number(unsure)

        def answered(said: Answer) -> None:
            if said.words:
                head = typed.rpartition(" ")[0]
                self.line.put(f"{head} {said.words}".strip())
                self._take()
            elif said.typed_on and slot:
                self._leave_doubted(slot, typed, question.words)
            elif said.typed_on:
                self.line.put("")
            else:
                self.line.select_all()

        self.ask(question, answered)

    # -- writing -----------------------------------------------------------------

    def _put(self, said: Sequence[Typed], slots: Sequence[Slot], text: str) -> None:
        """Write every reading of a line; what is refused gives the line back once."""
        told: list[str] = []
        again = [slot for slot in slots if slot.where in self.state.doubted]
        filled = [slot for slot in again if not self.state.taken(slot)]
        for n, (typed, slot) in enumerate(zip(said, slots, strict=True)):
            off = self.put_one(typed, slot, "" if n else text)
            told += [off] if off else []
        self._unnamed.clear()
        self.line.put("")
        self._gave_way = ""
        self.keep_here("", at_once=True)
        if told and told[-1].endswith((*FAULTS.values(),)):
            told[-1] += f": {self.mapped_keys()(DEVIATION)} logs it"
        if len(slots) > 1:
            told.append(several_words(slots))
        if told:
            self.show()
            self.tell("; ".join(told), label="taken" if len(slots) > 1 else "")
            self._rest_soon()
        off = self.state.announced
        if filled:  # what was not taken stands in its place: go on where nothing does
            self.walk.go_to_unread()
            self.show()
        else:
            self.action_walk(1)
        self.state.announced = off

    def put_one(self, typed: Typed, slot: Slot, text: str) -> str:
        """Write one reading; say it where it is off its drawing."""
        state, taking = self.state, self.state.taking(slot)
        manner = Manner(state.held, state.instrument, state.warmth)
        reading, job = reading_job(self.desk, taking, typed, slot, manner, text)
        self.state.take(slot, reading)
        self.desk.write(job)
        fault = self.state.fault(slot, reading)
        self.state.announced = reading.id if fault else ""
        beside = self.state.stands_beside(slot, reading)
        told = [f"{slot.what} {reading.value} {fault}"] if fault else []
        told = [beside, *told] if beside else told
        if doubted := self.state.doubted.get(slot.where):
            at = self.place_of(slot)
            told.insert(0, f"{doubted[0]} not taken; {reading.value} stands at {at}")
        return "; ".join(told)
