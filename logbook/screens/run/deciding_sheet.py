"""What is decided on a row of a run: that it is a deviation, or that it is no size."""

from __future__ import annotations

from logbook.errors import Refused
from logbook.quantity import Absent
from logbook.records.kinds.happenings import Reading
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled.asking import Answer, blame_of, whose_fault_of
from logbook.screens.run.run_jobs import deviation_job
from logbook.screens.run.slots import Slot
from logbook.screens.run.stray_size import stray_at, stray_job
from logbook.screens.run.taking_readings import TakingSheet
from logbook.screens.run.walk import Walk


class DecidingSheet(TakingSheet):
    """A run on whose rows something is decided, and taken back."""

    def __init__(self, desk: Desk, walk: Walk) -> None:
        """Start with nothing decided."""
        super().__init__(desk, walk)
        self._deviations: list[news.Job] = []
        self._strays: list[news.Job] = []
        self._logged: set[str] = set()

    def decided(self, message: news.Written) -> bool:
        """Take in that a decision of this run is on disk; tell whether it is one."""
        stray = any(message.job is one for one in self._strays)
        ours = stray or any(message.job is one for one in self._deviations)
        if ours:
            self._logged.update(message.saved.paths)
        if stray:
            self.state.read_back()
            self.tell(message.job.told, label="on disk")
        return ours

    def undecided(self) -> None:
        """Let go of what was decided here: something was refused or taken back."""
        self._deviations.clear()
        self._strays.clear()

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

    def action_stray(self) -> None:
        """Ask what a size that no drawing gives was meant to be."""
        slot = self.walk.slot
        if slot is None or self._is_asked():
            return
        try:
            stray = stray_at(self.desk.snapshot, slot)
        except Refused as refusal:
            self.tell(str(refusal), label="nothing")
            return

        def answered(said: Answer) -> None:
            if said.words:
                job = stray_job(self.desk, stray, said.words)
                self._strays.append(job)
                self.desk.write(job)

        self.ask(stray.question, answered)

    def action_undo(self) -> None:
        """Take back the last reading of this run, or the deviation logged from it."""
        self.undo_only("nothing taken in this run yet", self._own_files)

    def _own_files(self) -> set[str]:
        stored = self.desk.project.snapshot.stored
        runs = {one.run for one in self.walk.takings.values()}
        return self._logged | {stored[run].path for run in runs if run in stored}
