"""What was being typed, kept outside the repository until it is a record.

Drafts lie in the user's state folder, one folder a project, readable by the
user alone. A draft is a text file: its first line says what it was for, the
rest is what was typed, so that even a damaged one gives its text back.
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from logbook.errors import ChangedMeanwhile, NotFound, Refused
from logbook.records.written.text import digest
from logbook.store.disk.flushed import make_folders, reason
from logbook.store.disk.own_places import state_folder
from logbook.store.disk.save import Write, clean_up, save

NOT_KEPT = "what was typed could not be kept in"
_NAME = re.compile(r"(?P<id>[0-9]{8}T[0-9]{6}-[0-9a-f]{8})\.txt")


@dataclass(frozen=True, slots=True)
class Draft:
    """Something typed but not yet a record; `for_what` is one line, may be empty."""

    id: str
    when: datetime
    for_what: str
    text: str


def new_draft_id() -> str:
    """Give an id for a draft that is begun now; newer ones sort later."""
    return f"{datetime.now(UTC):%Y%m%dT%H%M%S}-{os.urandom(4).hex()}"


def keep_draft(
    project: Path,
    text: str,
    for_what: str = "",
    draft_id: str = "",
    ours: Callable[[Draft], bool] = lambda _: True,
) -> Draft:
    """Keep `text` for good, over the draft `draft_id` if one is given.

    `ours` tells of the draft that is there if it may be replaced.

    Raises:
        ChangedMeanwhile: somebody else has taken it over; it stays as it is.
        Refused: the state folder cannot be written.
    """
    made = draft_id or new_draft_id()
    folder = _folder(project)
    try:
        if not folder.is_dir():
            make_folders(folder)
            folder.parent.chmod(0o700)
        before = (folder / f"{made}.txt").read_bytes()
    except FileNotFoundError:
        before = None
    except OSError as error:
        raise Refused(f"{NOT_KEPT} {folder}: {reason(error)}") from error
    if before is not None and not ours(_draft(made, before)):
        raise ChangedMeanwhile(f"the draft {made} was taken over elsewhere")
    one_line = " ".join(for_what.split())
    data = f"{one_line}\n{text}".encode("utf-8", "surrogatepass")
    write = Write(f"{made}.txt", data, digest(before) if before is not None else None)
    save(folder, [write], lock=_lock(project))
    return _draft(made, data)


def drafts(project: Path) -> tuple[Draft, ...]:
    """List the drafts of `project`, the newest first."""
    folder = _folder(project)
    try:
        names = [entry.name for entry in folder.iterdir()]
    except OSError:
        return ()
    clean_up(folder, lock=_lock(project))
    found = []
    for name in sorted(names, reverse=True):
        if match := _NAME.fullmatch(name):
            try:
                data = (folder / name).read_bytes()
            except OSError:
                continue
            found.append(_draft(match["id"], data))
    return tuple(found)


def take_back(project: Path, draft_id: str) -> Draft:
    """Give a draft again; it stays until it is deleted.

    Raises:
        NotFound: no draft has that id.
    """
    for draft in drafts(project):
        if draft.id == draft_id:
            return draft
    raise NotFound(f"no draft {draft_id} in {_folder(project)}")


def delete_draft(project: Path, draft_id: str) -> None:
    """Delete a draft, once it has become a record or is not wanted.

    Raises:
        NotFound: no draft has that id.
        Refused: the state folder cannot be written.
    """
    draft = take_back(project, draft_id)
    folder = _folder(project)
    before = digest((folder / f"{draft.id}.txt").read_bytes())
    save(folder, [Write(f"{draft.id}.txt", None, before)], lock=_lock(project))


def _folder(project: Path) -> Path:
    return state_folder(project) / "drafts"


def _lock(project: Path) -> Path:
    return state_folder(project) / "drafts.lock"


def _draft(draft_id: str, data: bytes) -> Draft:
    try:
        whole = data.decode("utf-8", "surrogatepass")
    except UnicodeDecodeError:
        whole = data.decode("utf-8", "replace")
    for_what, _, text = whole.partition("\n")
    try:
        when = datetime.strptime(draft_id[:15], "%Y%m%dT%H%M%S").replace(tzinfo=UTC)
    except ValueError:
        when = datetime.fromtimestamp(0, UTC)
    return Draft(draft_id, when, for_what, text)
