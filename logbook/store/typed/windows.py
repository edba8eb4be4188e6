"""The windows open on a project on this machine: which run, and in which build each is.

A window holds the lock on a small file of its own in the state folder for as long as it
lives, so one that has gone is known by that, however it went and whichever process has
its number by now. Where the file system has no locks the number alone tells.
"""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from logbook.store.disk.flushed import make_folders
from logbook.store.disk.own_places import state_folder

if sys.platform != "win32":
    import fcntl


@dataclass(frozen=True, slots=True)
class Other:
    """Another window that is open: its process, and the build it stands in."""

    process: int
    build: str


class Window:
    """A process, this one, as one of the windows of a project."""

    def __init__(self, project: Path) -> None:
        """Be open on the project in this folder until `close`; refused: alone."""
        self._folder = _folder(project)
        self._file: int | None = None
        self._said = ""
        with suppress(OSError):
            make_folders(self._folder)
            place = self._folder / str(os.getpid())
            self._file = os.open(place, os.O_RDWR | os.O_CREAT, 0o600)
            _lock(self._file)

    def stand_in(self, build: str) -> None:
        """Let the others know in which build this window is."""
        if self._file is None or build == self._said:
            return
        with suppress(OSError):
            data = build.encode("utf-8", "replace")
            os.pwrite(self._file, data, 0)
            os.ftruncate(self._file, len(data))
            self._said = build

    def others(self) -> tuple[Other, ...]:
        """Give the other windows that are open now, by the number of the process."""
        found = []
        with suppress(OSError):
            names = {place.name for place in self._folder.iterdir()}
            numbers = {int(name) for name in names if name.isdecimal()}
            for process in sorted(numbers - {os.getpid()}):
                place = self._folder / str(process)
                if _held(place, process):
                    found.append(Other(process, place.read_text("utf-8", "replace")))
                elif not _alive(process):
                    place.unlink()
        return tuple(found)

    def close(self) -> None:
        """Be open no more."""
        if self._file is not None:
            with suppress(OSError):
                (self._folder / str(os.getpid())).unlink()
            os.close(self._file)
            self._file = None


def is_open(project: Path, process: int) -> bool:
    """Tell whether a process is a window of a project that is open, this one too."""
    return process == os.getpid() or _held(_folder(project) / str(process), process)


def _folder(project: Path) -> Path:
    return state_folder(project) / "windows"


def _lock(file: int) -> bool:
    """Take the lock on a file, and tell whether this process has it now."""
    if sys.platform == "win32":
        return False
    with suppress(OSError):
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        return True
    return False


def _held(place: Path, process: int) -> bool:
    """Tell whether the file of a process is held by it; without one, if it runs."""
    if not _alive(process):
        return False
    try:
        file = os.open(place, os.O_RDWR)
    except OSError:
        return True
    try:
        return not _lock(file)
    finally:
        os.close(file)


def _alive(process: int) -> bool:
    try:
        os.kill(process, 0)
    except (ProcessLookupError, OverflowError):
        return False
    except OSError:
        return True
    return True
