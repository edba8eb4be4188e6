"""The clock on a step: started, paused, stopped; what it says outlives the terminal.

It lies on disk from its start on, in the user's state folder. Time counts as
long as there are signs of work, a key or an entry; after the last sign it counts
on for a while and then no more, so that a forgotten clock does no harm.

A project has one clock, and its file is the truth for all windows: each changes what
is on disk at that moment, and only if that is the clock it means. A window that logs
it claims it first, so that no time is logged twice.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import asdict, dataclass, replace
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from logbook.errors import ChangedMeanwhile, Refused
from logbook.store.disk.own_files import keep_own_file, own_file

FILE = "clock.json"
TRIES = 20
"""Times a change is tried anew because another window wrote at the same moment."""


@dataclass(frozen=True, slots=True)
class Clock:
    """A clock that was started; `since` is empty while it is paused.

    `subject` is what it counts for in words, `step` and `build` are ids. `counted`
    and `left_out` hold seconds up to `since`, `seen` is the last sign of work. The
    instant it began is what it is known by; `window` is the one it was started in,
    `claimed` the one that is logging it.
    """

    subject: str
    build: str
    began: datetime
    seen: datetime
    since: datetime | None
    step: str = ""
    counted: float = 0.0
    left_out: float = 0.0
    window: str = ""
    claimed: str = ""

    def is_same(self, other: Clock | None) -> bool:
        """Tell whether this is the same clock, however far it is."""
        return other is not None and self.began == other.began

    @property
    def runs(self) -> bool:
        """Tell whether it counts, as far as it knows."""
        return self.since is not None


def started(
    subject: str, build: str, now: datetime, step: str = "", window: str = ""
) -> Clock:
    """Start a clock in a window."""
    return Clock(subject, build, now, now, now, step, window=window)


def signed(clock: Clock, now: datetime, idle: timedelta) -> Clock:
    """Take a sign of work; where it comes late, what lies between is left out."""
    if clock.since is None or now <= clock.seen:
        return clock
    if now - clock.seen <= idle:
        return replace(clock, seen=now)
    closed = _closed(clock, now, idle)
    return replace(closed, since=now, seen=now)


def _closed(clock: Clock, now: datetime, idle: timedelta) -> Clock:
    """End the stretch that runs: it counts up to a while after its last sign."""
    if clock.since is None:
        return clock
    until = max(clock.since, min(now, clock.seen + idle))
    return replace(
        clock,
        since=None,
        counted=clock.counted + (until - clock.since).total_seconds(),
        left_out=clock.left_out + max(0.0, (now - until).total_seconds()),
    )


def paused(
    clock: Clock, now: datetime, idle: timedelta, signs: Iterable[datetime] = ()
) -> Clock:
    """Pause it; what pauses it is no sign that work went on until then.

    `signs` are instants of entries, which count as signs of work too.
    """
    return _closed(_with_signs(clock, now, idle, signs), now, idle)


def _with_signs(
    clock: Clock, now: datetime, idle: timedelta, signs: Iterable[datetime]
) -> Clock:
    for sign in sorted(signs):
        if sign <= now:
            clock = signed(clock, sign, idle)
    return clock


def claimed_by(clock: Clock, window: str) -> Clock:
    """Note the window that logs it; none: it is logged nowhere."""
    return replace(clock, claimed=window)


def resumed(clock: Clock, now: datetime) -> Clock:
    """Let a paused clock go on."""
    return clock if clock.runs else replace(clock, since=now, seen=now)


def idles(clock: Clock, now: datetime, idle: timedelta) -> bool:
    """Tell whether it runs, but no longer counts, because nothing is done."""
    return clock.runs and now - clock.seen > idle


def minutes(
    clock: Clock, now: datetime, idle: timedelta, signs: Iterable[datetime] = ()
) -> tuple[int, int]:
    """Give whole minutes counted, and those left out because nothing was done.

    `signs` are instants of entries, which count as signs of work too.
    """
    closed = paused(clock, now, idle, signs)
    return round(closed.counted / 60), round(closed.left_out / 60)


# -- on disk ---------------------------------------------------------------------


def read_clock(project: Path) -> Clock | None:
    """Give the clock of a project, if one was started.

    Raises:
        Refused: its file is there and cannot be read.
    """
    return _read(project)[0]


def _read(project: Path) -> tuple[Clock | None, bytes | None]:
    data = own_file(project, FILE)
    if data is None:
        return None, None
    try:
        return clock_of(json.loads(data)), data
    except (ValueError, TypeError, KeyError, AttributeError) as error:
        raise Refused(
            f"{FILE} in the state folder is not what a clock was ({error}); "
            "accepted: the file removed, the hours typed by hand"
        ) from None


def clock_of(facts: Mapping[str, Any]) -> Clock:
    """Give the clock of the facts that were written of it.

    Raises:
        ValueError, TypeError, KeyError, AttributeError: they are of no clock.
    """
    said = dict(facts)
    for name in ("began", "seen", "since"):
        said[name] = datetime.fromisoformat(said[name]) if said[name] else None
    return Clock(**said)


def facts_of(clock: Clock) -> dict[str, Any]:
    """Give the facts of a clock as JSON keeps them; instants are ISO 8601 texts."""
    plain = asdict(clock).items()
    return {
        name: one.isoformat() if isinstance(one, datetime) else one
        for name, one in plain
    }


def change_clock(
    project: Path, change: Callable[[Clock | None], Clock | None]
) -> Clock | None:
    """Put in place of the clock on disk what `change` makes of it; give that.

    Raises:
        Refused: the file cannot be read or written; or `change` refuses.
    """
    for last in range(TRIES, 0, -1):
        held, before = _read(project)
        wanted = change(held)
        data = _written(wanted) if wanted else None
        if data == before:
            break
        try:
            keep_own_file(project, FILE, data, before)
            break
        except ChangedMeanwhile:
            if last == 1:
                raise
    return wanted


def _written(clock: Clock) -> bytes:
    return json.dumps(facts_of(clock), indent=1).encode()
