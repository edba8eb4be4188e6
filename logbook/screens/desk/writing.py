"""Writing behind the screens: one save at a time, in the order of the keys.

What is to be written is drafted on the records as they are when its turn comes. What
is taken back waits for its turn among the saves.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from datetime import datetime

from textual.message import Message

from logbook.advice.changes.released_sizes import released_otherwise
from logbook.advice.changes.withdrawn_parts import about_withdrawn
from logbook.advice.faults.warned_of import warned_of
from logbook.advice.joints.old_screw import old_screws
from logbook.errors import ChangedMeanwhile, LogbookError, Refused
from logbook.project import Choose, Saved
from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.workshop import Build
from logbook.screens.desk.behind import Behind
from logbook.screens.desk.clock_ending import ClockEnding
from logbook.screens.desk.lanes import Lane
from logbook.screens.desk.long_work import LongWork
from logbook.screens.desk.news import (
    Job,
    Kept,
    NotWritten,
    ToTakeBack,
    ToUndo,
    Undone,
    Written,
)
from logbook.screens.desk.standing_in import StandingIn
from logbook.screens.desk.step_clock import StepClock
from logbook.screens.desk.taking_back import Doings, Shown, TakingBack, ToConfirm
from logbook.store.acts.last import Act
from logbook.store.acts.taken_back import UNDO
from logbook.store.disk.flushed import locked

_PATIENCE_S = 2.0
"""So long a window waits for the draft of another; then it drafts all the same."""


class Writing:
    """What is written and taken back on one desk."""

    def __init__(
        self,
        behind: Behind,
        changed: Callable[[], None],
        clock: StepClock,
        standing_in: StandingIn,
    ) -> None:
        """Write for this desk; tell when records changed.

        Whose the build is that it is `standing_in` is asked before the first entry.
        Its clock ends with the step it is on; refused work takes it up again.
        """
        self._behind = behind
        self._changed, self._clock, self._standing_in = changed, clock, standing_in
        self._ending = ClockEnding(clock)
        self._lane = Lane()
        self._jobs: deque[tuple[Job, Shown]] = deque()
        self._turns: deque[Callable[[], None]] = deque()
        self._doings = Doings()
        self.wrote: deque[str] = deque(maxlen=20)

    @property
    def pending(self) -> tuple[str, ...]:
        """The lines that are still being written."""
        return tuple(job.typed for job, _ in self._jobs if job.typed)

    @property
    def at_rest(self) -> bool:
        """Tell whether all that was to be written or taken back is done."""
        return not self._turns

    def _in_turn(self, work: Callable[[], None]) -> None:
        """Do something to the records after what was to be done before it."""
        self._turns.append(work)

        def take_turn() -> None:
            try:
                work()
            finally:
                self._turns.popleft()

        def save() -> None:
            self._lane.do(take_turn)
            self._changed()

        self._behind.run(save, "save")

    # -- writing -----------------------------------------------------------------

    def write(self, job: Job) -> None:
        """Write a job after those before it; `Written` or `NotWritten` follows."""
        self._jobs.append((job, self._behind.shown))
        self._in_turn(self._write_next)

    def _write_next(self) -> None:
        behind = self._behind
        with behind.door:
            job, here = self._jobs[0]
            try:
                saved, also = self._saved(job, here)
            except LogbookError as refusal:
                self._jobs.popleft()
                self._clock.again()
                behind.post(NotWritten(job, str(refusal)))
                return
            self._jobs.popleft()
            self.wrote += [
                one.id for one in saved.records if isinstance(one, Entry | Build)
            ]
            self._finish(job)
            behind.prepare(behind.project.snapshot, behind.here)
        behind.index_soon(saved.paths)
        behind.post(Written(job, saved, also))

    def _finish(self, job: Job) -> None:
        """Do what comes after a job; what is refused there is told, the job stands."""
        try:
            if job.after is not None:
                job.after()
        except LogbookError as refusal:
            self._behind.post(Kept(str(refusal)))

    def _saved(self, job: Job, here: Shown) -> tuple[Saved, str]:
        """Save; what somebody else changed meanwhile is read and drafted upon once.

        What another window has put on record by now is read first, and no window drafts
        meanwhile: of a part that both name, one is made. What was done besides is said.
        """
        with self._alone():
            self._behind.take_in_changes(by_turns=False)
            try:
                return self._save_once(job, here)
            except ChangedMeanwhile:
                self._behind.project.reload()
                return self._save_once(job, here)

    @contextmanager
    def _alone(self) -> Iterator[None]:
        """Have the other windows wait with their drafts, if they can for a moment."""
        with ExitStack() as held:
            with suppress(Refused):
                lock = self._behind.project.own("drafting.lock")
                held.enter_context(locked(lock, _PATIENCE_S))
            yield

    def _save_once(self, job: Job, here: Shown) -> tuple[Saved, str]:
        project, now = self._behind.project, self._behind.now()
        with self._behind.works.doing(LongWork(job.subject)) as work:
            draft = job.make(project)
            work.check()
        careful = (
            *released_otherwise(draft),
            *old_screws(draft),
            *about_withdrawn(draft),
        )
        otherwise = [f"careful: {said}" for said in careful]
        faults = [one.says for one in warned_of(draft)]
        self._standing_in.refuse_others(draft)
        ended = self._ending.drafted(draft, now, self._behind.arranged[0])
        saved = project.save(draft, job.subject, now, job.files, here.id)
        self._doings.note(now, saved.records, here)
        self._ending.saved(now, ended)
        self._standing_in.logged()
        also = [ended.said] if ended and ended.said else []
        return saved, " · ".join((*faults, *also, *otherwise))

    # -- taking back -------------------------------------------------------------

    def take_back(self, named: Act | None, ask: Callable[[Message], object]) -> None:
        """Take back what was done here last in the build shown; `Undone` follows.

        What was not done in this window is told through `ask` first, as `ToTakeBack`,
        unless it was `named` already.
        """
        here = self._behind.shown

        def take_back() -> None:
            wish = TakingBack(self._behind.project, self._doings, here, named)
            try:
                self._undo(wish.choose, here)
            except ToConfirm as doubt:
                ask(ToTakeBack(doubt.act))

        self._in_turn(take_back)

    def undo(self, choose: Choose) -> None:
        """Take back the act that is chosen; `Undone` follows."""
        here = self._behind.shown
        self._in_turn(lambda: self._undo(choose, here))

    def bring_back(self) -> None:
        """Bring back what was taken back here last; `Undone` follows."""
        here = self._behind.shown
        self._in_turn(lambda: self._redo(here))

    def _undo(self, choose: Choose, here: Shown) -> None:
        def undo(now: datetime) -> tuple[Act, str]:
            act = self._behind.project.undo(now, choose)
            self._doings.note_taken_back(now, act, here)
            return act, self._ending.undone(act)

        self._reverse(undo)

    def _redo(self, here: Shown) -> None:
        def redo(now: datetime) -> tuple[Act, str]:
            doings = self._doings
            act = self._behind.project.redo(
                now, lambda undoings: doings.to_bring_back(undoings, here)
            )
            doings.note_brought_back(now, act)
            return act, self._ending.brought_back(act, now)

        self._reverse(redo, brought=True)

    def _reverse(
        self, turn: Callable[[datetime], tuple[Act, str]], *, brought: bool = False
    ) -> None:
        """Take an act back, or bring it back; `turn` says what the clock does then."""
        behind = self._behind
        with behind.door:
            try:
                behind.take_in_changes()
                act, clock = turn(behind.now())
            except ToConfirm:
                raise
            except LogbookError as refusal:
                behind.post(Undone(refusal=str(refusal), brought=brought))
                return
            behind.prepare(behind.project.snapshot, behind.here)
        behind.index_soon(touched.path for touched in act.files)
        said = "; ".join(filter(None, (act.subject.removeprefix(UNDO), clock)))
        behind.post(Undone(said, brought=brought))

    def ask_undo(self, choose: Choose) -> None:
        """Ask what an undo would take back; `ToUndo` follows."""
        self._in_turn(lambda: self._ask_undo(choose))

    def _ask_undo(self, choose: Choose) -> None:
        behind = self._behind
        with behind.door:
            try:
                act = behind.project.undoable(choose)
                if act is None:
                    raise Refused("there is nothing to undo in this clone")
            except LogbookError as refusal:
                behind.post(ToUndo(refusal=str(refusal)))
                return
        behind.post(ToUndo(act))
