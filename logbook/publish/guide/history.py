"""What changed from revision to revision, and which faults a release is without."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from logbook.advice.changes.fitting import fits_words
from logbook.advice.faults.applies import FIXED, standing
from logbook.advice.faults.fixing import fixed_here
from logbook.advice.faults.headline import reason
from logbook.advice.faults.known import known_faults
from logbook.advice.faults.older_pieces import older_pieces
from logbook.publish.faults.withdrawn import standing_of
from logbook.publish.release.released import Released
from logbook.records.kinds.design import Part, Revision
from logbook.records.together.revisions import is_withdrawn, revisions_of, shown_label
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class RevisionView:
    """A revision with its verdict for those who hold an earlier one."""

    part: str
    label: str
    changed: str
    remake: str
    mates: str
    verdict: str
    here: str


@dataclass(frozen=True, slots=True)
class Corrected:
    """A fault of earlier drawings, with the revision here that is without it."""

    title: str
    now: str


def corrected(released: Released) -> Iterator[Corrected]:
    """Give the faults of earlier drawings that no revision in the release has."""
    snapshot = released.snapshot
    for fault in known_faults(snapshot):
        for held in released.revisions:
            if standing(snapshot, fault, held).startswith(FIXED):
                now = fixed_here(snapshot, fault, held)
                yield Corrected(title=fault.title, now=now)


def history(released: Released) -> Iterator[RevisionView]:
    """Give the revisions that changed something or were withdrawn, newest first."""
    for part in released.parts:
        revision = released.revision(part)
        line = revisions_of(released.snapshot, part)
        if revision not in line:
            continue
        for one in reversed(line):
            kept = one.changed or is_withdrawn(released.snapshot, one)
            if one is line[0] and not kept:
                continue
            newer = line.index(one) > line.index(revision)
            here = "this release" if one is revision else ""
            words = "newer than this release" if newer else here
            yield _revision_view(released.snapshot, part, one, words)


def _revision_view(
    snapshot: Snapshot, part: Part, one: Revision, here: str
) -> RevisionView:
    said = reason(snapshot, one)
    why = f" (because {said})" if one.changed and said else said
    return RevisionView(
        part=part.title,
        label=shown_label(one),
        changed=f"{one.changed}{why}",
        remake=older_pieces(snapshot, one),
        mates=fits_words(snapshot, one),
        verdict=standing_of(snapshot, one),
        here=here,
    )
