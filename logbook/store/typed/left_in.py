"""The build a window was left in, by the terminal it was open in.

Who closes a window and opens it again in the same terminal goes on where he stood,
whatever another window has logged meanwhile. It is a convenience only: what cannot be
read or written is as if no window had been left there.
"""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from pathlib import Path

from logbook.store.disk.flushed import make_folders
from logbook.store.disk.own_places import state_folder


@dataclass(frozen=True, slots=True)
class Left:
    """The id of the build a window stood in, and when it was seen there last."""

    build: str
    at: datetime


def left_in(project: Path) -> Left | None:
    """Give where the last window of this terminal was left; None: not known."""
    place = _place(project)
    if place is None:
        return None
    try:
        build, _, at = place.read_text("utf-8").strip().partition(" ")
        left = Left(build, datetime.fromisoformat(at))
    except (OSError, ValueError):
        return None
    return left if left.at.tzinfo else None


def leave_in(project: Path, left: Left) -> None:
    """Let the next window of this terminal know where this one stands."""
    place = _place(project)
    if place is None:
        return
    with suppress(OSError):
        make_folders(place.parent)
        fresh = place.with_suffix(".new")
        fresh.write_text(f"{left.build} {left.at.isoformat()}\n", "utf-8")
        fresh.replace(place)


def _place(project: Path) -> Path | None:
    terminal = _terminal()
    if not terminal:
        return None
    return state_folder(project) / "left" / sha256(terminal.encode()).hexdigest()[:12]


def _terminal() -> str:
    """Name the terminal this program runs in; empty where it runs in none.

    A multiplexer tells its panes apart by a variable of their own.
    """
    names = [os.environ.get("TMUX_PANE", "")]
    for stream in (sys.__stdin__, sys.__stdout__):
        with suppress(OSError, ValueError, AttributeError):
            names.append(os.ttyname(stream.fileno()))  # type: ignore[union-attr]
            break
    return " ".join(filter(None, names))
