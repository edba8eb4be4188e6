"""Linking a cleaned photo to an entry: its record changed, its files to be saved."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from logbook.records.kinds.happenings import Entry, Photo
from logbook.records.making.drafts import Draft
from logbook.records.together.references import part_of
from logbook.records.together.revisions import current_revision
from logbook.records.together.snapshot import Snapshot
from logbook.store.photos.cleaned import Photo as Cleaned

FOLDER = "as-built/photos"


def linked_at(snapshot: Snapshot, cleaned: Cleaned) -> Entry | None:
    """Give the entry this very photo is linked to already."""
    path = f"{FOLDER}/{cleaned.name}"
    linked = (
        one for one in snapshot.entries if any(p.path == path for p in one.photos)
    )
    return next(linked, None)


def link_photo(
    draft: Draft, entry: Entry, cleaned: Cleaned, caption: str, root: Path
) -> dict[str, bytes]:
    """Amend the entry in the draft; give the files below `root` not there yet."""
    part = part_of(draft.snapshot, entry)
    shows = current_revision(draft.snapshot, part) if part else None
    photo = Photo(
        path=f"{FOLDER}/{cleaned.name}",
        caption=caption,
        shows=shows.ref if shows else None,
        taken=cleaned.taken if cleaned.taken and cleaned.taken.tzinfo else None,
    )
    draft.amend(replace(entry, photos=(*entry.photos, photo)))
    files = {
        f"{FOLDER}/{cleaned.name}": cleaned.data,
        f"{FOLDER}/{cleaned.thumbnail_name}": cleaned.thumbnail,
    }
    return {path: data for path, data in files.items() if not (root / path).exists()}
