"""Whether what somebody holds is the newest, and what is said where nobody knows it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from logbook.advice.faults.fixing import releases_named
from logbook.advice.faults.holding import Held, Standing
from logbook.advice.faults.older_pieces import piece_again
from logbook.records.kinds.design import Part
from logbook.records.kinds.made_public import Release
from logbook.records.together.revisions import (
    is_withdrawn,
    line_to,
    revisions_in,
    revisions_of,
)
from logbook.records.together.snapshot import Snapshot


def newer_words(snapshot: Snapshot, held: Held) -> str:
    """Say that there is a newer revision than what is held; empty where none is."""
    line = [
        one
        for part in {one.part.id: one.part for one in held.revisions}.values()
        if (found := snapshot.find(part, Part))
        for one in revisions_of(snapshot, found)
        if not is_withdrawn(snapshot, one)
    ]
    if not line or line[-1] in held.revisions:
        return ""
    now, old = line[-1], held.revisions[-1]
    if now.part.id != old.part.id:
        return ""
    labels = [
        release.label
        for release in snapshot.all(Release)
        if now in revisions_in(snapshot, release)
    ]
    where = f", {releases_named(labels)}" if labels else ", no release yet"
    changed = f" ({now.changed.rstrip('. ')})" if now.changed else ""
    again = piece_again(snapshot, old, now)
    beside = "" if old in line_to(snapshot, now) else f", without what {old.title} has"
    return (
        f"{held.because} is {old.title}; newer: {now.title}{changed}{beside}{where}; "
        f"make yours again? {again}"
    )


def unknown_words(path: str) -> str:
    """Say of a file that is on no record that nothing is known of it."""
    return (
        f"{path}: no revision and no release on record holds this content, so nothing "
        "is known of it, good or bad"
    )


def clear_words(
    snapshot: Snapshot, held: Iterable[Held], found: Iterable[Standing]
) -> Iterator[str]:
    """Say of each thing held that it is the newest and nothing is known against it."""
    told = {id(one.held) for one in found}
    for thing in held:
        if id(thing) not in told and not newer_words(snapshot, thing):
            names = " or ".join(revision.title for revision in thing.revisions)
            named = thing.because == names
            what = names if named else f"{thing.because} is {names}"
            yield f"{what}: the newest in this record, with no known fault in it"
