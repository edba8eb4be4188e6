"""The clock on a step as a window or a verb sees it: one for all of a project.

Its file is the truth. What a window does to it is seen there at once and brought to
the disk behind it, as a change of what is on disk by then; what other windows did is
looked at now and then, and before anything is written by it. Each key is a sign of
work; the file is written when the clock is started, paused or stopped, and now and
then while it runs, so that a crash costs nothing.
"""

from __future__ import annotations

import os
from collections import deque
from collections.abc import Callable, Sequence
from contextlib import suppress
from datetime import datetime, timedelta
from pathlib import Path
from threading import Lock
from time import monotonic

from logbook.errors import LogbookError
from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.ids import new_id
from logbook.records.states.hours import shown_minutes
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.clock_logged import is_logged
from logbook.store.typed import work_clock
from logbook.store.typed.windows import is_open
from logbook.store.typed.work_clock import Clock

SIGN_EVERY_S = 20.0
"""Signs nearer together than this are written down once."""

LONGEST_SUBJECT = 16
"""Signs of what the clock runs on that the band has room for."""

Change = Callable[[Clock], Clock | None]
"""What is done to a clock: what it is then, or None where it goes."""


class StepClock:
    """The one clock of a project, as this window sees it."""

    def __init__(
        self,
        run: Callable[[Callable[[], object]], None],
        tell: Callable[[str], None],
        idle_minutes: int,
    ) -> None:
        """Write in the thread `run` gives, tell what does not go through `tell`."""
        self._run, self._tell = run, tell
        self.idle = timedelta(minutes=idle_minutes)
        self.on: Clock | None = None
        self.window = f"{os.getpid()}-{new_id()}"
        self.root: Path | None = None
        self._due: deque[Callable[[Clock | None], Clock | None]] = deque()
        self._noting, self._at_disk = Lock(), Lock()
        self._leaving: Clock | None = None
        self._signed = 0.0
        self._told = False

    def load(self, root: Path, snapshot: Snapshot) -> None:
        """Read the clock another window, or an earlier one, has started."""
        self.root = root
        self.look()
        on = self.on
        if on is not None and is_logged(snapshot, on):
            self.change(on, lambda _: None)

    # -- what is on disk ---------------------------------------------------------

    def look(self) -> Clock | None:
        """Bring what is due to the disk, and see what is there by now; give it."""
        if self.root is None:
            return None
        with self._at_disk:
            try:
                held = self._brought(self.root)
                self._told = False
            except LogbookError as refusal:
                if not self._told:
                    self._told = True
                    self._tell(f"the clock is not kept on disk: {refusal}")
                return None
        self._show(held)
        return held

    def _brought(self, root: Path) -> Clock | None:
        """Do what is due to the file; what is refused stays due."""
        while self._due:
            work_clock.change_clock(root, self._due[0])
            with self._noting:
                self._due.popleft()
        return work_clock.read_clock(root)

    def _show(self, held: Clock | None) -> None:
        """See the clock that is on disk, unless something was done to it meanwhile."""
        with self._noting:
            if self._due:
                return
            on = self.on
            if held is None or self.is_leaving(held) or self._is_claimed(held):
                self.on = None
            elif on is not None and on.runs and held.is_same(on):
                self.on = work_clock.signed(held, on.seen, self.idle)
            else:
                self.on = held

    def _is_claimed(self, held: Clock) -> bool:
        """Tell whether another window that is open is logging a clock."""
        return held.claimed not in ("", self.window) and self._is_open(held.claimed)

    def _is_open(self, window: str) -> bool:
        process = window.partition("-")[0]
        root = self.root
        return root is not None and process.isdecimal() and is_open(root, int(process))

    def is_of_other_window(self, clock: Clock) -> bool:
        """Tell whether it was started in another window, and that is still open."""
        return clock.window not in ("", self.window) and self._is_open(clock.window)

    # -- done at a key -----------------------------------------------------------

    def start(self, clock: Clock) -> None:
        """Start a clock where none is on disk by then; else that is told."""

        def begin(held: Clock | None) -> Clock | None:
            if held is None or held.is_same(clock):
                return clock
            self._tell(
                f"not started: the clock was started on “{held.subject}” meanwhile, "
                "in another window"
            )
            return held

        self._do(begin, clock)

    def change(self, clock: Clock, by: Change) -> None:
        """Do something to this clock; where it is gone from the disk, nothing."""
        self._do(_only(clock, by), by(clock))

    def _do(
        self, change: Callable[[Clock | None], Clock | None], seen: Clock | None
    ) -> None:
        with self._noting:
            self.on = seen
            self._due.append(change)
        self._run(self.look)

    def pause(self, clock: Clock, now: datetime, entries: Sequence[Entry]) -> None:
        """Pause a clock; entries logged elsewhere meanwhile are signs of work too."""
        signs = self._signs(clock, entries)
        self.change(clock, lambda held: work_clock.paused(held, now, self.idle, signs))

    def sign(self, now: datetime) -> None:
        """Take a key as a sign of work."""
        on = self.on
        if on is None or not on.runs:
            return
        due = monotonic() - self._signed > SIGN_EVERY_S and not self._due
        if due:
            self._signed = monotonic()
            self.change(on, lambda held: work_clock.signed(held, now, self.idle))
        else:
            self.on = work_clock.signed(on, now, self.idle)

    def leave_to_log(self, clock: Clock) -> None:
        """Show this clock no more: what it counted is about to be logged."""
        with self._noting:
            self._leaving, self.on = clock, None

    def being_logged(self) -> Clock | None:
        """Give the clock this window is about to log by itself, as it is on disk."""
        leaving = self._leaving
        if leaving is None or self.root is None:
            return None
        held = None
        with suppress(LogbookError):  # it is on record by then, whatever this says
            held = work_clock.read_clock(self.root)
        ours = held is not None and held.claimed == self.window
        return held if ours and leaving.is_same(held) else None

    def is_leaving(self, clock: Clock) -> bool:
        """Tell whether what a clock counted is about to be logged by itself."""
        return clock.is_same(self._leaving)

    # -- done in the thread that logs it --------------------------------------------

    def claim(self, clock: Clock, snapshot: Snapshot) -> Clock | None:
        """Claim a clock to log it, as it is by now; None where it is not to be logged.

        It is gone where another window stopped it, logs it, or has logged it.

        Raises:
            Refused: its file cannot be read or written.
        """
        if self.root is None:
            return None
        over = is_logged(snapshot, clock)
        with self._at_disk:
            self._brought(self.root)
            change = (lambda _: None) if over else self._claimed
            held = work_clock.change_clock(self.root, _only(clock, change))
        ours = held is not None and clock.is_same(held) and not self._is_claimed(held)
        return held if ours else None

    def _claimed(self, held: Clock) -> Clock:
        if self._is_claimed(held):
            return held
        return work_clock.claimed_by(held, self.window)

    def settle(self, clock: Clock, then: Clock | None = None) -> None:
        """Take a clock off the disk once its time is on record; `then` follows it."""
        if self.root is None:
            return

        def end(held: Clock) -> Clock | None:
            return then if held.claimed == self.window else held

        with self._at_disk:
            held = work_clock.change_clock(self.root, _only(clock, end))
            self._leaving = None
        self._show(held)

    def again(self) -> None:
        """Take the clock up again that could not be logged."""
        with self._noting:
            self._leaving = None
            self._due.append(self._let_go)
        self.look()

    def _let_go(self, held: Clock | None) -> Clock | None:
        ours = held is not None and held.claimed == self.window
        return work_clock.claimed_by(held, "") if held and ours else held

    def go_on(self, clock: Clock) -> None:
        """Let a clock go on whose time was taken back, where no other is there."""
        free = work_clock.claimed_by(clock, "")
        self._do(lambda held: held or free, self.on or free)

    # -- how it stands -------------------------------------------------------------

    def minutes(self, now: datetime, entries: Sequence[Entry] = ()) -> tuple[int, int]:
        """Give minutes counted and left out, up to now; entries are signs too."""
        return self.minutes_of(self.on, now, entries) if self.on else (0, 0)

    def minutes_of(
        self, clock: Clock, now: datetime, entries: Sequence[Entry]
    ) -> tuple[int, int]:
        """Give those of a clock: only the entries of its build are signs."""
        return work_clock.minutes(clock, now, self.idle, self._signs(clock, entries))

    def _signs(self, clock: Clock, entries: Sequence[Entry]) -> list[datetime]:
        return [
            one.when
            for one in entries
            if one.when > clock.began
            and (one.build is None or clock.build in ("", one.build.id))
        ]

    def words(self, now: datetime, build: str = "", *, short: bool = False) -> str:
        """Say how it stands, as short as the band needs it; on what, unless `short`.

        `build` is the one it counts for, where that is not the one shown.
        """
        if self.on is None:
            return ""
        counted = shown_minutes(self.minutes(now)[0])
        of = f" in {build}" if build else ""
        on = "" if short else f" on {_cut(self.on.subject)}"
        if work_clock.idles(self.on, now, self.idle):
            return f"clock{of}{on} paused, {counted} counted"
        return f"clock{'' if self.on.runs else ' paused'}{of} {counted}{on}"


def _cut(subject: str) -> str:
    if len(subject) <= LONGEST_SUBJECT:
        return subject
    return f"{subject[: LONGEST_SUBJECT - 1].rstrip()}…"


def _only(clock: Clock, by: Change) -> Callable[[Clock | None], Clock | None]:
    """Change what is on disk only if it is this clock."""
    return lambda held: by(held) if held is not None and held.is_same(clock) else held
