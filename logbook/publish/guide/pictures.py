"""Photos from the bench in a guide, each with the revision it shows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from logbook.publish.release.released import Released
from logbook.records.kinds import happenings
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.states.statements import Form


@dataclass(frozen=True, slots=True)
class PhotoView:
    """A photo with its path from the project's folder, and its caption."""

    path: str
    caption: str


def photographed(released: Released) -> Iterable[happenings.Entry]:
    """Give the entries with photos; of faults only those this release has."""
    shown = {ref.id for fault in released.faults for ref in fault.from_entries}
    return (
        entry
        for entry in released.snapshot.entries
        if entry.photos
        and not isinstance(entry, happenings.Override)
        and (entry.id in shown or not isinstance(entry, Deviation | Failure))
    )


def photos(released: Released, entry: happenings.Entry) -> Iterator[PhotoView]:
    """Give the photos of an entry; one of another revision says so."""
    for photo in entry.photos:
        caption = photo.caption or entry.title
        shows = released.snapshot.find(photo.shows, Revision)
        if shows is not None:
            caption = f"{caption} ({_shown(released, shows)})"
        yield PhotoView(photo.path, caption)


def _shown(released: Released, shows: Revision) -> str:
    part = released.snapshot.find(shows.part, Part)
    held = released.revision(part) if part else None
    if held is None or held is shows:
        return f"shows {shows.title}"
    return f"shows {shows.title}; this release has {held.title}"


def other_photos(released: Released) -> Iterator[PhotoView]:
    """Give the photos that belong to no step of the release."""
    steps = {statement.of.id for statement in released.of(Form.STEP)}
    for entry in photographed(released):
        ref = getattr(entry, "step", None)
        step = released.snapshot.find(ref) if ref else None
        if step is None or step.id not in steps:
            yield from photos(released, entry)
