"""What a known fault rests on: where it was found, how often, and what it shows."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.faults.apart_told import apart_words
from logbook.advice.faults.failing import returned
from logbook.advice.faults.headline import headline
from logbook.records.kinds import happenings, workshop
from logbook.records.kinds.made_public import Erratum
from logbook.records.making.not_met import not_met_in
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import whole_title


def evidence(snapshot: Snapshot, erratum: Erratum) -> Iterator[str]:
    """Say when and in which build it was found, and in how many that could have it."""
    builds = set()
    named = (snapshot.find(ref) for ref in erratum.from_entries)
    entries = [one for one in named if isinstance(one, happenings.Entry)]
    again = [one for one in returned(snapshot, erratum) if one not in entries]
    for entry in (*entries, *again):
        build = snapshot.find(entry.build, workshop.Build)
        where = f", {build.title}" if build else ""
        builds |= {build.id} if build else set()
        told = whole_title(entry)
        if isinstance(entry, happenings.Deviation | happenings.Failure):
            told = headline(snapshot, entry)
        what = "" if told == whole_title(erratum) else f": {told}"
        found = "found again on" if entry in again else "found on"
        yield f"{found} {entry.when:%Y-%m-%d}{where}{what}"
    spared = not_met_in(snapshot, erratum)
    for said in spared:
        build = snapshot.find(said.build, workshop.Build)
        where = f" in {build.title}" if build else ""
        yield f"did not occur{where} ({said.when:%Y-%m-%d})"
    made = _builds_that_made(snapshot, erratum)
    made |= {said.build.id for said in spared if said.build}
    if made:
        seen = len(builds & made)
        only = "seen in" if seen else "not seen in"
        several = f"seen in {seen} of {len(made)} builds"
        where = several if len(made) > 1 else f"{only} the only build"
        yield f"{where} that made an affected revision"


def what_differs(snapshot: Snapshot, erratum: Erratum) -> Iterator[str]:
    """Say what sets the builds apart that met a fault, by each failure of it."""
    named = (snapshot.find(ref) for ref in erratum.from_entries)
    failures = [one for one in named if isinstance(one, happenings.Failure)]
    said = (apart_words(snapshot, failure) for failure in failures)
    yield from dict.fromkeys(filter(None, said))


def photos(snapshot: Snapshot, erratum: Erratum) -> Iterator[tuple[str, str]]:
    """Give path and caption of what its entries show, and where it came back."""
    named = [snapshot.find(ref) for ref in erratum.from_entries]
    again = [one for one in returned(snapshot, erratum) if one not in named]
    for entry in (*named, *again):
        if isinstance(entry, happenings.Entry):
            for photo in entry.photos:
                yield photo.path, photo.caption or entry.title


def _builds_that_made(snapshot: Snapshot, erratum: Erratum) -> set[str]:
    affected = {ref.id for ref in erratum.revisions}
    pieces = snapshot.all(workshop.Piece)
    made = (p for p in pieces if p.revision and p.revision.id in affected)
    found = (snapshot.find(piece.build, workshop.Build) for piece in made)
    return {build.id for build in found if build}
