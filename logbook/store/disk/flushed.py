"""What the disk must be told so that a file is really there, and one lock.

A file is on the disk after its content and then the folder that names it have
been flushed. The lock is advisory: it keeps our own programs apart.
"""

from __future__ import annotations

import contextlib
import errno
import os
import sys
import time
from collections.abc import Iterator
from pathlib import Path

from logbook.errors import Refused

if sys.platform != "win32":
    import fcntl

PATIENCE_S = 10.0
"""How long a save waits for another of our programs before it gives up, seconds."""

_REASONS = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "the disk quota is used up",
    errno.EROFS: "the disk is read-only",
    errno.EACCES: "permission was denied",
    errno.EPERM: "permission was denied",
    errno.ENAMETOOLONG: "its name is too long for this disk",
    errno.EFBIG: "it is larger than this disk allows",
    errno.EIO: "the disk reported an input/output error",
}


class HeldElsewhere(Refused):
    """Another of our programs holds the lock, and did not let go of it in time."""


def reason(error: OSError) -> str:
    """Say in a few words why the disk refused."""
    return _REASONS.get(error.errno or 0) or error.strerror or str(error)


def flush(descriptor: int) -> None:
    """Have the disk keep the file for good; returns when it does.

    On macOS fsync reaches only the drive's own cache; F_FULLFSYNC goes through,
    where the file system knows it.
    """
    if sys.platform == "darwin":
        try:
            fcntl.fcntl(descriptor, fcntl.F_FULLFSYNC)
        except OSError as error:
            if error.errno not in (errno.ENOTSUP, errno.EINVAL, errno.ENOTTY):
                raise
        else:
            return
    os.fsync(descriptor)


def flush_folder(folder: Path | str) -> None:
    """Have the disk keep the names in `folder` for good."""
    if sys.platform == "win32":
        return
    descriptor = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        flush(descriptor)
    except OSError as error:
        # Some network and FUSE file systems flush names by themselves and say so.
        if error.errno not in (errno.EINVAL, errno.ENOTSUP):
            raise
    finally:
        os.close(descriptor)


def make_folders(folder: Path) -> None:
    """Make `folder` and what is missing above it, each name kept for good."""
    missing = []
    while not folder.is_dir():
        missing.append(folder)
        folder = folder.parent
    for new in reversed(missing):
        with contextlib.suppress(FileExistsError):
            new.mkdir()
        flush_folder(new.parent)


@contextlib.contextmanager
def locked(path: Path, patience_s: float = PATIENCE_S) -> Iterator[int | None]:
    """Hold the lock file `path`, which stays behind empty.

    Gives its descriptor: a child that inherits it holds the lock too. None is given
    where the file system has no locks: what was read is still compared there before
    it is written over.

    Raises:
        HeldElsewhere: another program held it for `patience_s` seconds.
        Refused: it cannot be made.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        descriptor = os.open(path, os.O_RDWR | os.O_CREAT, 0o666)
    except OSError as error:
        raise Refused(
            f"the lock {path} could not be made: {reason(error)}; nothing was written"
        ) from error
    try:
        yield descriptor if _held(descriptor, path, patience_s) else None
    finally:
        os.close(descriptor)


def _held(descriptor: int, path: Path, patience_s: float) -> bool:
    if sys.platform == "win32":
        return False
    end = time.monotonic() + patience_s
    while True:
        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as error:
            if error.errno not in (errno.EWOULDBLOCK, errno.EACCES):
                return False
            if time.monotonic() >= end:
                raise HeldElsewhere(
                    f"another logbook program has held {path} for {patience_s:g} s; "
                    "nothing was written; wait for it or end it, then try again"
                ) from error
            time.sleep(0.01)
        else:
            return True
