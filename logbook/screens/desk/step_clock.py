"""The clock on a step as the screens see it: in memory at once, on disk behind it.

Each key is a sign of work. The file is written when the clock is started, paused
or stopped, and now and then while it runs, so that a crash costs nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime, timedelta
from pathlib import Path
from threading import Lock
from time import monotonic

from logbook.errors import ChangedMeanwhile, LogbookError
from logbook.quantity import parse_quantity
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import Entry, Work
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.making.drafts import Draft
from logbook.records.states.hours import shown_minutes
from logbook.records.together.snapshot import Snapshot
from logbook.store.typed import work_clock
from logbook.store.typed.work_clock import Clock

SIGN_EVERY_S = 20.0
"""Signs nearer together than this are written down once."""

LONGEST_SUBJECT = 16
"""Signs of what the clock runs on that the band has room for."""


class StepClock:
    """The one clock of a project, as this app knows it."""

    def __init__(
        self,
        run: Callable[[Callable[[], None]], None],
        refuse: Callable[[str], None],
        idle_minutes: int,
    ) -> None:
        """Write in the thread `run` gives, tell a refusal through `refuse`."""
        self._run, self._refuse = run, refuse
        self.idle = timedelta(minutes=idle_minutes)
        self.on: Clock | None = None
        self._root: Path | None = None
        self._lock = Lock()
        self._signed = 0.0
        self._told = False

    def load(self, root: Path, snapshot: Snapshot) -> None:
        """Read the clock another screen, or an earlier one, has started."""
        self._root = root
        try:
            self.on = work_clock.read_clock(root)
        except LogbookError as refusal:
            self._refuse(str(refusal))
            return
        if self.on is not None and _logged(snapshot, self.on):
            self.put(None)

    def put(self, clock: Clock | None) -> None:
        """Let this be the clock from now on; the disk follows."""
        self.on = clock
        self._run(lambda: self._write(clock))

    def settle(self, clock: Clock) -> None:
        """Take a clock off the disk once its time is on record; a newer one stays."""
        with self._lock:
            if self._root is not None:
                held = work_clock.read_clock(self._root)
                if held is not None and held.began == clock.began:
                    work_clock.keep_clock(self._root, None)

    def again(self) -> None:
        """Take the clock up again that could not be logged."""
        if self.on is None and self._root is not None:
            self.on = work_clock.read_clock(self._root)

    def sign(self, now: datetime) -> None:
        """Take a key as a sign of work."""
        if self.on is None or not self.on.runs:
            return
        self.on = work_clock.signed(self.on, now, self.idle)
        if monotonic() - self._signed > SIGN_EVERY_S:
            self._signed = monotonic()
            self.put(self.on)

    def _write(self, clock: Clock | None) -> None:
        if self._root is None:
            return
        with self._lock:
            try:
                work_clock.keep_clock(self._root, clock)
                self._told = False
            except ChangedMeanwhile:
                return
            except LogbookError as refusal:
                if not self._told:
                    self._told = True
                    self._refuse(f"the clock is not kept on disk: {refusal}")

    def minutes(self, now: datetime, entries: Sequence[Entry] = ()) -> tuple[int, int]:
        """Give minutes counted and left out, up to now; entries are signs too."""
        if self.on is None:
            return 0, 0
        signs = [one.when for one in entries if one.when > self.on.began]
        return work_clock.minutes(self.on, now, self.idle, signs)

    def words(self, now: datetime) -> str:
        """Say how the clock stands, as short as the band needs it."""
        if self.on is None:
            return ""
        counted, _ = self.minutes(now)
        paused = "" if self.on.runs else " paused"
        subject = self.on.subject
        if len(subject) > LONGEST_SUBJECT:
            subject = f"{subject[: LONGEST_SUBJECT - 1].rstrip()}…"
        return f"clock{paused} {shown_minutes(counted)} on {subject}"


def work_draft(draft: Draft, clock: Clock, minutes: int) -> Draft:
    """Draft the time a clock counted as work on its step."""
    stored = draft.snapshot.stored.get(clock.step)
    step = stored.record if stored and isinstance(stored.record, Step) else None
    time = parse_quantity(f"{minutes} min")
    draft.add(
        Work(
            id=new_id(),
            title=f"{shown_minutes(minutes)} on {clock.subject}",
            when=draft.when,
            build=draft.build().ref,
            step=step.ref if step else None,
            part=step.makes if step else None,
            time=time,
            began=clock.began.replace(microsecond=0),
        )
    )
    return draft


def _logged(snapshot: Snapshot, clock: Clock) -> bool:
    """Tell whether a clock was stopped and logged, but stayed on disk by a crash."""
    began = clock.began.replace(microsecond=0)
    return any(
        work.began == began and _same(work.step, clock.step)
        for work in snapshot.all(Work)
    )


def _same(step: Ref | None, identity: str) -> bool:
    return (step.id if step else "") == identity
