"""Measuring one piece: a number, Enter, the next size; each on disk as it is typed."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message

from logbook.quantity import Absent
from logbook.records.happenings import Reading
from logbook.records.workshop import Instrument
from logbook.screens.desk import news
from logbook.screens.desk.consequence import over_still
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled import verbs
from logbook.screens.ruled.asking import (
    Answer,
    blame_of,
    whose_fault_of,
)
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.listing import Listing
from logbook.screens.ruled.rows import Row
from logbook.screens.run.instruments import NO_TOOL, Instruments
from logbook.screens.run.measure_verbs import (
    BACK_IN_RUN,
    BACK_ONE,
    DEVIATION,
    ON_ONE,
    ORDER,
    REST,
    TAKE,
    WITH,
)
from logbook.screens.run.run_jobs import deviation_job
from logbook.screens.run.run_rows import asked_at, rows_of_run
from logbook.screens.run.slots import Slot, Subject
from logbook.screens.run.taking_readings import TakingSheet
from logbook.screens.run.value_shown import ValueShown
from logbook.screens.run.walk import Walk


class Measure(TakingSheet):
    """A measuring run of one piece."""

    CSS_PATH = Path(__file__).parent / "measure.tcss"
    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        TAKE, BACK_ONE, ON_ONE, DEVIATION, BACK_IN_RUN, REST, WITH, ORDER,
        *verbs.EVERYWHERE,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])

    def __init__(
        self, desk: Desk, subjects: Sequence[Subject], walk: Walk | None = None
    ) -> None:
        """Measure these pieces; a run of its own is taken on each."""
        super().__init__(desk, walk or Walk(desk, subjects))
        self._deviations: list[news.Job] = []
        self._logged: set[str] = set()
        self._over: dict[str, str] = {}

    @property
    def heading(self) -> str:
        """What is measured, and with what."""
        tool = self.state.instrument
        return f"{self.measured} · {tool.title if tool else NO_TOOL}"

    @property
    def measured(self) -> str:
        """The piece that is measured."""
        return f"measuring {next(iter(self.walk.takings), '')}"

    @property
    def purpose(self) -> str:
        """What the line of this run is kept as."""
        return f"line of {self.measured}"

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
        self.walk.begin()
        self.line.focus()
        self.show()
        self.offer_kept(self.purpose)

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
            case news.Written() if any(message.job is one for one in self._deviations):
                self._logged.update(message.saved.paths)
            case news.NotWritten() | news.Undone():
                self._deviations.clear()
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
        self._over = {**over_still(self._over, message.told), **message.over}
        if self._over and not self.line.value:
            self.tell_more(" · ".join(self._over.values()))

    def show(self) -> None:
        """Show the size the run stands at, and the list."""
        rows = rows_of_run(self.state, self.desk.snapshot, self.label_of)
        self.query_one(Listing).show(rows, str(self.walk.at))
        self.line.placeholder = asked_at(self.state)
        self.show_value()
        self.show_question()

    def label_of(self, slot: Slot) -> str:
        """Give the margin word of a size."""
        return slot.what

    def show_question(self) -> None:
        """Show the question, or take its row away."""
        row = self.query_one("#question", Row)
        row.display = self.question is not None
        if self.question is not None:
            row.say(self.question.shown(), "?")

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
        stored = self.desk.snapshot.stored.get(chosen)
        tool = stored.record if stored else None
        self.state.instrument = tool if isinstance(tool, Instrument) else None
        said = NO_TOOL
        if (tool := self.state.instrument) is not None:
            width = tool.uncertainty
            said = f"{tool.title}, ±{width}" if width else f"{tool.title}, doubt unsaid"
        self.tell(said, label="with")
        self.show_band()
        self.show()

    def action_deviation(self) -> None:
        """Lead from the reading off drawing to its deviation."""
        found = self.state.off()
        if found is None:
            self.tell(
                "no reading of this run is off drawing or does not suit",
                label="nothing",
            )
            return
        slot, reading = found
        if self.state.is_logged(slot, reading):
            said = f"{slot.what} {reading.value} is logged already"
            self.tell(f"{said}; Enter on it at the bench opens it", label="nothing")
            return

        def answered(said: Answer) -> None:
            if said.words is not None:
                self._log_deviation(slot, reading, said.words)
                self.show()

        self.ask(whose_fault_of(f"{slot.what} {reading.value}"), answered)

    def _log_deviation(self, slot: Slot, reading: Reading, words: str) -> None:
        if isinstance(reading.value, Absent):
            return
        subject = self.state.taking(slot).subject
        job = deviation_job(self.desk, subject, reading, blame_of(words))
        self._deviations.append(job)
        self.state.logging.add(reading.id)
        self.desk.write(job)
        self.tell(
            f"{slot.what} {reading.value}: {words or 'not known yet'}", label="logged"
        )

    def action_undo(self) -> None:
        """Take back the last reading of this run, or the deviation logged from it."""
        self.undo_only("nothing taken in this run yet", self._own_files)

    def _own_files(self) -> set[str]:
        stored = self.desk.project.snapshot.stored
        runs = {one.run for one in self.walk.takings.values()}
        return self._logged | {stored[run].path for run in runs if run in stored}

    def action_back(self) -> None:
        """Rest the run and go back."""
        if self.question is not None:
            self.asked_enough()
            return
        self.keep_now(self.line.value, self.purpose)
        self.dismiss()
