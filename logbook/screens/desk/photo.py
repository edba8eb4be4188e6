"""The newest photo, from the folder photos arrive in, linked to an entry.

Where that one is linked already, the newest that is not is offered: it is taken by the
same key, pressed again.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from logbook.errors import BadInput
from logbook.project import Project
from logbook.records.kinds.happenings import Entry
from logbook.records.making.amends import as_by_now
from logbook.records.making.drafts import Draft
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.store.photos.cleaned import Photo as Cleaned
from logbook.store.photos.cleaned import take_in
from logbook.store.photos.inbox import item_of
from logbook.store.photos.linking import link_photo, linked_at
from logbook.store.photos.sorted_items import remember
from logbook.store.typed.user_settings import read_settings, settings_file

SORTS = {".jpg", ".jpeg", ".png"}


MOST_LOOKED_AT = 20
"""Photos looked at for one that is linked nowhere: each is cleaned for it."""


def photos() -> list[Path]:
    """Give the photos there are, the one that arrived last first; at least one.

    Raises:
        BadInput: no folder is set, or there is no photo in it.
    """
    said = read_settings().photos
    if not said:
        raise BadInput(
            "no folder of photos is set; accepted: "
            f'photos = "~/Pictures" in {settings_file()}'
        )
    folder = Path(said).expanduser()
    try:
        found = [p for p in folder.iterdir() if p.suffix.lower() in SORTS]
        found.sort(key=lambda photo: photo.stat().st_mtime_ns, reverse=True)
    except OSError as error:
        raise BadInput(f"{folder}: {error.strerror}; accepted: a folder") from None
    if not found:
        raise BadInput(f"no JPEG or PNG in {folder}; accepted: a photo there")
    return found


@dataclass
class NextPhoto:
    """The photo that is offered where the newest one is linked already."""

    key: str
    offered: Path | None = None


def photo_job(
    desk: Desk, entry: Entry, again: NextPhoto, chosen: Path | None = None
) -> Job:
    """Make the work that cleans the newest photo and links it to an entry.

    The folder is looked through when the work is done, beside the keys. In the inbox
    the photo no longer waits then. One that is linked already is refused: the key that
    was pressed once too often is no wish to have it twice. The next is then named in
    `again`, and may be `chosen`.
    """
    files: dict[str, bytes] = {}
    found: list[Path] = []

    def make(project: Project) -> Draft:
        here = as_by_now(project.snapshot, entry)
        there = [chosen] if chosen else photos()
        found[:] = there[:1]
        draft = project.draft(desk.now())
        cleaned = _cleaned(there[0])
        if known := linked_at(project.snapshot, cleaned):
            again.offered = _unlinked(project, there[1:MOST_LOOKED_AT])
            raise BadInput(_already(there[0], known, again))
        files.clear()
        files.update(link_photo(draft, here, cleaned, "", project.root))
        return draft

    def sorted_out() -> None:
        if item := item_of(found[0]):
            saved = desk.project.snapshot.stored[entry.id].sha256
            remember(desk.project.root, item.identity, entry.id, saved)

    return Job(
        f"photo: {entry.title}",
        make,
        files=files,
        after=sorted_out,
        said=lambda: f"photo {found[0].name} at “{entry.title}”",
    )


def _cleaned(photo: Path) -> Cleaned:
    try:
        raw = photo.read_bytes()
    except OSError as error:
        raise BadInput(f"{photo}: {error.strerror}; accepted: a photo") from None
    return take_in(raw, photo.name)


def _unlinked(project: Project, older: Sequence[Path]) -> Path | None:
    """Give the newest of these that is linked to no entry, if one is."""
    for photo in older:
        with suppress(BadInput):  # not one that can be read
            if linked_at(project.snapshot, _cleaned(photo)) is None:
                return photo
    return None


def _already(photo: Path, known: Entry, again: NextPhoto) -> str:
    """Say where a photo is already, and what may be linked instead of it."""
    said = f"{photo.name} is at “{known.title}” already; "
    if again.offered is None:
        return f"{said}accepted: a newer photo, or `logbook photo` to link it twice"
    when = datetime.fromtimestamp(again.offered.stat().st_mtime, UTC).astimezone()
    return (
        f"{said}{again.key} again links the one before it that is nowhere yet, "
        f"{again.offered.name} of {when:%d %b %H:%M}"
    )
