"""Clocks that ended, by the act that put on record what they counted.

Whoever takes that act back, in a window or in the shell, lets the clock go on as it
was. A file of the state folder has the last few; one that cannot be read or written
costs no more than that: the clock does not go on.
"""

from __future__ import annotations

import json
from contextlib import suppress
from pathlib import Path
from typing import Any

from logbook.errors import LogbookError
from logbook.store.disk.own_files import keep_own_file, own_file
from logbook.store.typed.work_clock import Clock, clock_of, facts_of

FILE = "ended-clocks.json"
KEPT = 20
"""Clocks kept: older acts are hardly ever taken back."""


def note_ended(project: Path, act: str, clock: Clock) -> None:
    """Note that a clock ended by an act, known by its instant."""
    with suppress(LogbookError):
        acts, before = _read(project)
        acts.pop(act, None)  # the newest stands last
        acts[act] = facts_of(clock)
        kept = dict([*acts.items()][-KEPT:])
        keep_own_file(project, FILE, json.dumps(kept, indent=1).encode(), before)


def ended_by(project: Path, act: str) -> Clock | None:
    """Give the clock that ended by an act, None where none did."""
    with suppress(LogbookError, ValueError, TypeError, KeyError, AttributeError):
        acts, _ = _read(project)
        return clock_of(acts[act])
    return None


def _read(project: Path) -> tuple[dict[str, Any], bytes | None]:
    data = own_file(project, FILE)
    with suppress(ValueError):
        said = json.loads(data or b"{}")
        if isinstance(said, dict):
            return said, data
    return {}, data
