"""The durable save: one or several files in one step, each old or new, never half.

Lock, compare with what was read, write beside, flush, rename in the order
given, flush the folders, return. Whoever calls orders the files so that every
beginning of that order is valid by itself. What is in the files is not known
here.
"""

from __future__ import annotations

import contextlib
import errno
import os
import re
import stat
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path, PurePosixPath

from logbook.errors import BadInput, ChangedMeanwhile, Refused
from logbook.records.written.text import digest
from logbook.store.disk.flushed import (
    PATIENCE_S,
    flush,
    flush_folder,
    locked,
    make_folders,
    reason,
)

TEMPORARY = ".saving-*.tmp"
"""What a git ignore file must name so that a save cut short is never committed."""

_TEMPORARY = re.compile(r"\.saving-[0-9a-f]{16}\.tmp")


@dataclass(frozen=True, slots=True)
class Write:
    """One file of a save.

    `path` is relative to the root, with `/`. `data` None removes the file.
    `before` is the SHA-256 of what was read, in hex; None: there is no file yet.
    """

    path: str
    data: bytes | None
    before: str | None


@dataclass(frozen=True, slots=True)
class _Ready:
    """A write that was compared: where it goes, and what stood there by stat."""

    write: Write
    target: Path
    found: os.stat_result | None
    temporary: Path | None = None


def is_temporary(name: str) -> bool:
    """Tell whether a file of this name was left over by a save cut short."""
    return bool(_TEMPORARY.fullmatch(name))


def save(
    root: Path, writes: Sequence[Write], *, lock: Path, patience_s: float = PATIENCE_S
) -> tuple[str | None, ...]:
    """Save `writes` below `root` for good, in their order; give the new digests.

    When it returns, all of it is on the disk.

    Raises:
        ChangedMeanwhile: a file is not what was read; nothing was written.
        Refused: the disk is full, read-only or locked; the sentence says how
            far the save came, which is a beginning of `writes`.
        BadInput: a path leads outside `root`.
    """
    with locked(lock, patience_s):
        ready = [_compared(root, write) for write in writes]
        ready = _written_beside(ready)
        try:
            for one in ready:
                _still_the_same(one)
            _put_in_place(ready)
        finally:
            _drop_temporaries(ready)
    return tuple(None if w.data is None else digest(w.data) for w in writes)


def append(root: Path, path: str, data: bytes, before: str, *, lock: Path) -> str:
    """Add `data` at the end of a file for good; give its new digest.

    The whole file is written anew: a plain append cut short would leave half a
    line, and the time goes into the flush either way.

    Raises:
        ChangedMeanwhile: the file is not the one whose digest is `before`.
        Refused: as in `save`.
    """
    old = _read(_inside(root, path))
    if old is None or digest(old) != before:
        raise _changed(path, missing=old is None)
    save(root, [Write(path, old + data, before)], lock=lock)
    return digest(old + data)


def clean_up(root: Path, *, lock: Path) -> tuple[str, ...]:
    """Remove what a save cut short left below `root`; give the paths removed.

    Temporary files exist only while the lock is held, so with the lock in hand
    every one is a left-over. While another program saves, nothing is done.
    """
    removed: list[str] = []
    with contextlib.suppress(Refused), locked(lock, patience_s=0) as held:
        for folder, folders, names in os.walk(root) if held is not None else ():
            folders[:] = [name for name in folders if name != ".git"]
            for name in filter(is_temporary, names):
                left = Path(folder, name)
                with contextlib.suppress(OSError):
                    left.unlink()
                    removed.append(left.relative_to(root).as_posix())
    return tuple(sorted(removed))


def _inside(root: Path, path: str) -> Path:
    """Give the place of `path`, which no `..` and no link may lead out of `root`."""
    parts = PurePosixPath(path).parts
    if not parts or path.startswith("/") or ".." in parts or "\0" in path:
        raise BadInput(
            f"“{path}” is not a place for a record; accepted: a path inside {root}"
        )
    place = root
    for part in parts:
        place = place / part
        if place.is_symlink():
            raise Refused(
                f"“{path}” was not written: {place} is a link to elsewhere; "
                "accepted: files and folders that are really there"
            )
    return place


def _read(target: Path) -> bytes | None:
    try:
        descriptor = os.open(target, os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0))
    except (FileNotFoundError, NotADirectoryError):
        return None
    with os.fdopen(descriptor, "rb") as file:
        return file.read()


def _compared(root: Path, write: Write) -> _Ready:
    try:
        target = _inside(root, write.path)
        old = _read(target)
        found = target.lstat() if old is not None else None
    except OSError as error:
        raise _refused(write.path, error, 0) from error
    if old is None and write.before is not None:
        raise _changed(write.path, missing=True)
    if old is not None and digest(old) != write.before:
        raise _changed(write.path, new=write.before is None)
    return _Ready(write, target, found)


def _still_the_same(one: _Ready) -> None:
    """Look a last time, as close to the rename as can be: editors take no lock."""
    try:
        now = one.target.lstat()
    except FileNotFoundError:
        now = None
    if _trace(now) != _trace(one.found):
        raise _changed(one.write.path, missing=now is None, new=one.found is None)


def _trace(found: os.stat_result | None) -> tuple[int, int, int] | None:
    return found and (found.st_ino, found.st_size, found.st_mtime_ns)


def _written_beside(ready: Sequence[_Ready]) -> list[_Ready]:
    done: list[_Ready] = []
    one = None
    try:
        for one in ready:
            if one.write.data is None:
                done.append(one)
                continue
            make_folders(one.target.parent)
            name = f".saving-{os.urandom(8).hex()}.tmp"
            one = replace(one, temporary=one.target.parent / name)  # noqa: PLW2901
            done.append(one)
            _write_one(one)
    except OSError as error:
        _drop_temporaries(done)
        raise _refused(one.write.path if one else "", error, 0) from error
    return done


def _write_one(one: _Ready) -> None:
    assert one.temporary is not None
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    descriptor = os.open(one.temporary, flags, 0o666)
    try:
        if one.found is not None and hasattr(os, "fchmod"):
            os.fchmod(descriptor, stat.S_IMODE(one.found.st_mode))
        rest = memoryview(one.write.data or b"")
        while rest:
            rest = rest[os.write(descriptor, rest) :]
        flush(descriptor)
    finally:
        os.close(descriptor)


def _put_in_place(ready: Sequence[_Ready]) -> None:
    """Rename in order; a folder is flushed before the next one is touched."""
    for number, one in enumerate(ready):
        try:
            if one.temporary is not None:
                one.temporary.replace(one.target)
            else:
                one.target.unlink(missing_ok=True)
            after = ready[number + 1].target.parent if number + 1 < len(ready) else None
            if after != one.target.parent:
                flush_folder(one.target.parent)
        except OSError as error:
            if number:
                with contextlib.suppress(OSError):
                    flush_folder(ready[number - 1].target.parent)
            raise _refused(one.write.path, error, number) from error


def _drop_temporaries(ready: Sequence[_Ready]) -> None:
    for one in ready:
        if one.temporary is not None:
            with contextlib.suppress(OSError):
                one.temporary.unlink()


def _changed(
    path: str, *, missing: bool = False, new: bool = False
) -> ChangedMeanwhile:
    if missing:
        return ChangedMeanwhile(f"{path} was removed since it was read; nothing saved")
    if new:
        return ChangedMeanwhile(f"{path} is there already; nothing was overwritten")
    return ChangedMeanwhile(
        f"{path} was changed by someone else since it was read; nothing was overwritten"
    )


def _refused(path: str, error: OSError, done: int) -> Refused:
    so_far = f"the {done} before it were saved" if done else "nothing was written"
    if error.errno in (errno.ENOTDIR, errno.EEXIST, errno.EISDIR):
        why = "something else of that name is in the way"
    else:
        why = reason(error)
    return Refused(f"{path} could not be saved: {why}; {so_far}")
