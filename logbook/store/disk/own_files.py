"""Small files of a project in the user's state folder: never in the repository.

Each is replaced whole and for good, or refused; two programs that write one at
the same moment are told, and neither half overwrites the other.
"""

from __future__ import annotations

from pathlib import Path

from logbook.errors import Refused
from logbook.records.written.text import digest
from logbook.store.disk.flushed import make_folders, reason
from logbook.store.disk.own_places import state_folder
from logbook.store.disk.save import Write, save


def own_file(project: Path, name: str) -> bytes | None:
    """Give the content of the file `name`; None where there is none.

    Raises:
        Refused: it is there and cannot be read.
    """
    place = state_folder(project) / name
    try:
        return place.read_bytes()
    except (FileNotFoundError, NotADirectoryError):
        return None
    except OSError as error:
        raise Refused(f"{place} cannot be read: {reason(error)}") from error


def keep_own_file(
    project: Path, name: str, data: bytes | None, before: bytes | None
) -> None:
    """Put `data` in place of `before`, what was read; None removes the file.

    Raises:
        ChangedMeanwhile: another program wrote it since.
        Refused: the state folder cannot be written.
    """
    folder = state_folder(project)
    try:
        if not folder.is_dir():
            make_folders(folder)
            folder.chmod(0o700)
    except OSError as error:
        raise Refused(f"{folder} cannot be made: {reason(error)}") from error
    write = Write(name, data, digest(before) if before is not None else None)
    save(folder, [write], lock=folder / "own.lock")
