"""The newest photo, from the folder photos arrive in, linked to an entry."""

from __future__ import annotations

from pathlib import Path

from logbook.errors import BadInput, ChangedMeanwhile
from logbook.project import Project
from logbook.records.kinds.happenings import Entry
from logbook.records.making.drafts import Draft
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.store.photos.cleaned import take_in
from logbook.store.photos.inbox import item_of
from logbook.store.photos.linking import link_photo, linked_at
from logbook.store.photos.sorted_items import remember
from logbook.store.typed.user_settings import read_settings, settings_file

SORTS = {".jpg", ".jpeg", ".png"}


def newest_photo() -> Path:
    """Give the photo that arrived last.

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
        found.sort(key=lambda photo: photo.stat().st_mtime_ns)
    except OSError as error:
        raise BadInput(f"{folder}: {error.strerror}; accepted: a folder") from None
    if not found:
        raise BadInput(f"no JPEG or PNG in {folder}; accepted: a photo there")
    return found[-1]


def photo_job(desk: Desk, entry: Entry) -> Job:
    """Make the work that cleans the newest photo and links it to an entry.

    The folder is looked through when the work is done, beside the keys. In the inbox
    the photo no longer waits then. One that is linked already is refused: the key that
    was pressed once too often is no wish to have it twice.
    """
    files: dict[str, bytes] = {}
    found: list[Path] = []

    def make(project: Project) -> Draft:
        stored = project.snapshot.stored.get(entry.id)
        if stored is None or not isinstance(stored.record, Entry):
            raise ChangedMeanwhile(f"“{entry.title}” was taken away meanwhile")
        photo = newest_photo()
        found[:] = [photo]
        try:
            raw = photo.read_bytes()
        except OSError as error:
            raise BadInput(f"{photo}: {error.strerror}; accepted: a photo") from None
        draft = project.draft(desk.now())
        cleaned = take_in(raw, photo.name)
        if known := linked_at(project.snapshot, cleaned):
            raise BadInput(
                f"{photo.name} is at “{known.title}” already; accepted: a newer photo, "
                "or `logbook photo` to link it twice"
            )
        files.clear()
        files.update(link_photo(draft, stored.record, cleaned, "", project.root))
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
