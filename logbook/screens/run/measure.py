"""Measuring one piece: a number, Enter, the next size; each on disk as it is typed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message

from logbook.records.kinds.workshop import Instrument
from logbook.screens.desk import news
from logbook.screens.desk.consequence import over_still
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.left_off import Midst
from logbook.screens.ruled import verbs
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.halves import Halves
from logbook.screens.ruled.listing import Listing
from logbook.screens.ruled.passage import Passage
from logbook.screens.ruled.rows import Row
from logbook.screens.run.instruments import NO_TOOL, Instruments
from logbook.screens.run.measure_verbs import (
    BACK_IN_RUN,
    BACK_ONE,
    DEVIATION,
    ON_ONE,
    ORDER,
    REST,
    ROOM,
    STRAY,
    TAKE,
    WITH,
)
from logbook.screens.run.room_told import RoomTold
from logbook.screens.run.run_rows import asked_at, rows_of_run
from logbook.screens.run.slot_known import said_of_slot
from logbook.screens.run.slots import Slot, Subject
from logbook.screens.run.value_shown import ValueShown
from logbook.screens.run.walk import PAST, Walk
from logbook.screens.run.warmth import kept_warmth


class Measure(RoomTold):
    """A measuring run of one piece."""

    CSS_PATH = Path(__file__).parent / "measure.tcss"
    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        TAKE, BACK_ONE, ON_ONE, DEVIATION, BACK_IN_RUN, REST, WITH, ROOM, ORDER, STRAY,
        *verbs.EVERYWHERE, verbs.BRING_BACK,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])

    def __init__(
        self, desk: Desk, subjects: Sequence[Subject], walk: Walk | None = None,
        *, first: str = "",
    ) -> None:  # fmt: skip
        """Measure these pieces; a run of its own is taken on each.

        It begins at the size called `first`, where there is one.
        """
        super().__init__(desk, walk or Walk(desk, subjects))
        self._first = first
        self._waits_over: dict[str, str] = {}
        self._told_open: list[tuple[Slot, str]] = []
        self._goes_on: tuple[Iterable[Sequence[str]], str] = (), ""

    @property
    def heading(self) -> str:
        """What is measured, and with what."""
        tool = self.state.instrument
        return f"{self.measured} · {tool.title if tool else NO_TOOL}"

    @property
    def heading_short(self) -> str:
        """What is measured; with what the key that changes it says."""
        return self.measured

    @property
    def measured(self) -> str:
        """The piece that is measured."""
        return f"measuring {next(iter(self.walk.takings), '')}"

    @property
    def purpose(self) -> str:
        """What the line of this run is kept as."""
        return f"line of {self.measured}"

    WAY = "go_on_measuring"

    @property
    def about_here(self) -> tuple[Any, ...]:
        """The piece, the runs begun on it, and the size it stands at."""
        [one] = [taking.subject for taking in self.walk.takings.values()]
        begun = self.walk.runs(), self.walk.stands_at, self.state.warmth.kept
        return one.part, one.number, one.title, *begun

    @property
    def in_the_middle(self) -> Midst:
        """The run, whether a reading is begun or not."""
        at = self.stands_at(self.walk.slot) if self.walk.slot else PAST
        return self._midst(f"{self.measured}, at {at}", self.typed_here)

    def stands_at(self, slot: Slot) -> str:
        """Say at which size the run stands, among those of this sheet."""
        return " ".join(filter(None, (slot.what, slot.place)))

    def go_on(
        self, runs: Iterable[Sequence[str]], at: str, warmth: Sequence[str]
    ) -> None:
        """Go on with runs that were interrupted, at the size they stood at."""
        self._goes_on = runs, at
        self.state.warmth = kept_warmth(*warmth)

    # -- the sheet ---------------------------------------------------------------

    def body(self) -> ComposeResult:
        """Lay out the figures, the strip, the list of sizes, the line."""
        yield ValueShown()
        yield Halves("type a size and its value: w 40.2")
        yield Row("room", id="room")
        yield Row("", id="question")
        yield Row("reads ›", EntryLine("", id="line"), id="say")

    def on_mount(self) -> None:
        """Start at the first size; git waits until the run rests."""
        super().on_mount()
        self.desk.hold_git()
        self.walk.begin()
        self.walk.go_to_size(self._first)
        runs, at = self._goes_on
        self.state.go_on(runs)
        self.walk.go_to(at)
        self.line.focus()
        self.offer_reading()
        self.show()

    def on_unmount(self) -> None:
        """Let git go on when the run is left, however that happens."""
        self.desk.let_git()

    def told(self, message: Message) -> None:
        """Follow what is saved, refused or taken back."""
        match message:
            case news.Looked() | news.Advised():
                self.walk.follow()
                self.show()
                if isinstance(message, news.Advised):
                    self._say_what_is_over(message)
            case news.Written():
                if self.decided(message):
                    self.show()
                else:
                    super().told(message)
                if message.also:
                    self.tell_more(message.also)
            case news.NotWritten() | news.Undone():
                self.undecided()
                self.state.read_back()
                self.show()
                super().told(message)
                if isinstance(message, news.NotWritten) and message.job.typed:
                    self.line.put(message.job.typed)
                    self.line.select_all()
            case _:
                super().told(message)

    def _say_what_is_over(self, message: news.Advised) -> None:
        """Say what waited for this run, after each reading: its figures move."""
        still = over_still(self._waits_over, message.told)
        self._waits_over = {**still, **message.over}
        if self._waits_over and not self.line.value:
            self.tell_more(" · ".join(self._waits_over.values()))

    def show(self) -> None:
        """Show the size the run stands at, and the list."""
        beside = self.query_one(Halves).beside
        rows = rows_of_run(self.state, self.desk.snapshot, self.label_of, beside=beside)
        self.query_one(Listing).show(rows, str(self.walk.at))
        self._show_beside()
        self.line.placeholder = asked_at(self.state)
        self.show_value()
        self.show_question()

    def _show_beside(self) -> None:
        """Say, where there is room beside the list, what is known of the size."""
        halves, slot = self.query_one(Halves), self.walk.slot
        halves.share(0, known=halves.beside)
        if halves.beside:
            said = said_of_slot(self.state, self.desk.snapshot, slot) if slot else ()
            self.query_one(Passage).show(said)

    def on_resize(self) -> None:
        """Lay the sheet out for the new width."""
        super().on_resize()
        if self.is_laid_out:
            self.show()

    def label_of(self, slot: Slot) -> str:
        """Give the margin word of a size."""
        return slot.what

    # -- walking and deciding ----------------------------------------------------

    def action_order(self) -> None:
        """Walk in drawing order, or most doubtful first."""
        self.walk.turn_round()
        first = self.walk.doubtful_first
        self.tell("most doubtful first" if first else "drawing order", label="order")
        self.show()

    def action_instrument(self) -> None:
        """Choose what is measured with from now on."""
        if self._is_asked():
            return
        if not self.desk.snapshot.all(Instrument):
            said = "none is on record; `logbook instrument` adds one"
            self.tell(said, label="with")
            return
        self.app.push_screen(
            Instruments(self.desk, self.state.instrument), self._take_in_hand
        )

    def _take_in_hand(self, chosen: str | None) -> None:
        """Measure with this one, or with none that is named; no choice changes none."""
        if not chosen:
            return
        self.state.instrument = self.desk.snapshot.by_id(chosen, Instrument)
        said = NO_TOOL
        if (tool := self.state.instrument) is not None:
            width = tool.uncertainty
            said = f"{tool.title}, ±{width}" if width else f"{tool.title}, doubt unsaid"
        self.tell(said, label="with")
        self.show_band()
        self.show()

    def action_back(self) -> None:
        """Rest the run and go back, once what was not taken in it has been told."""
        if self.question is not None:
            self.asked_enough()
            return
        self.keep_here(self.typed_here, at_once=True)
        still_open = self.state.left_open()
        if still_open and still_open != self._told_open:
            self._told_open = still_open
            said = (f"{self.place_of(slot)}: {text}" for slot, text in still_open)
            none = "not taken, nothing is on record there; Esc again leaves it so"
            self.tell(f"{', '.join(said)} {none}", label="open")
            return
        self.dismiss()
