"""What a window was in the middle of, so that the next one leads back there.

Each window keeps a small file of its own in the state folder, named by its process. One
of a window that has gone, however it went, is what was left off; the next window takes
it over. It is a convenience: what cannot be read or written is as if nothing had been
begun.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from logbook.store.disk.flushed import make_folders
from logbook.store.disk.own_places import state_folder
from logbook.store.typed.windows import is_open

MOST = 5
"""So many things left off are remembered; who leaves more has forgotten the first."""


@dataclass(frozen=True, slots=True)
class LeftOff:
    """What a window was in the middle of.

    `way` and `about` lead there, `what` says it in words of the screen. `purpose` is
    what a line of it is kept as, by which it is known however far it has come; `build`
    the id of the build it is of, and `at` when it was left there.
    """

    way: str
    about: Sequence[Any]
    purpose: str
    what: str
    build: str
    at: datetime


def note_left_off(project: Path, rows: Sequence[LeftOff]) -> None:
    """Let the next window know what this one is in the middle of; nothing: no more."""
    place = _place(project, os.getpid())
    with suppress(OSError):
        if not rows:
            place.unlink(missing_ok=True)
            return
        make_folders(place.parent)
        said = [{**asdict(one), "at": one.at.isoformat()} for one in rows[:MOST]]
        fresh = place.with_suffix(".new")
        fresh.write_text(json.dumps(said), "utf-8")
        fresh.replace(place)


def take_left_off(project: Path) -> tuple[LeftOff, ...]:
    """Take over what the window that went last was in the middle of, newest first.

    What others left stays for the windows opened after this one.
    """
    found = [(rows, place) for place in _of_gone(project) if (rows := _read(place))]
    if not found:
        return ()
    rows, place = max(found, key=lambda one: one[0][0].at)
    with suppress(OSError):
        place.unlink()
        return rows
    return ()


def _place(project: Path, process: int) -> Path:
    return state_folder(project) / "left-off" / f"{process}.json"


def _of_gone(project: Path) -> Iterator[Path]:
    """Give the files of windows that are open no more.

    One with the number of this process is of an earlier one: it has written none yet.
    """
    with suppress(OSError):
        for place in sorted(_place(project, 0).parent.glob("*.json")):
            if not place.stem.isdecimal():
                continue
            process = int(place.stem)
            if process == os.getpid() or not is_open(project, process):
                yield place


def _read(place: Path) -> tuple[LeftOff, ...]:
    """Give what a file says, newest first; nothing where it says nothing sensible."""
    with suppress(OSError, ValueError, TypeError, KeyError):
        rows = [
            LeftOff(
                str(row["way"]),
                (*row["about"],),
                str(row["purpose"]),
                str(row["what"]),
                str(row["build"]),
                datetime.fromisoformat(row["at"]),
            )
            for row in json.loads(place.read_text("utf-8"))
        ]
        if all(row.at.tzinfo for row in rows):
            return tuple(rows)
    return ()
