"""Which revisions have a known fault, and how who holds a piece can tell it."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.advice.faults.applies import has_it, standing
from logbook.advice.faults.drafted import affected_revision
from logbook.advice.faults.telling import BOUGHT_AS, MADE_FROM, how_to_tell, made_from
from logbook.advice.faults.trying import entries_of
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Erratum
from logbook.records.together.references import part_of
from logbook.records.together.revisions import revisions_of
from logbook.records.together.snapshot import Snapshot


def having(snapshot: Snapshot, erratum: Erratum) -> tuple[Revision, ...]:
    """Give the revisions that have it, oldest first of each part that is affected.

    Those that are named, and those it came back in.
    """
    named = [snapshot.find(ref, Revision) for ref in erratum.revisions]
    parts = {
        id(part): part for one in named if one and (part := part_of(snapshot, one))
    }
    lines = (revisions_of(snapshot, part) for part in parts.values())
    return tuple(
        one
        for line in lines
        for one in line
        if one in named or has_it(standing(snapshot, erratum, one))
    )


def tell_now(snapshot: Snapshot, erratum: Erratum) -> str:
    """Say how to tell, as its author wrote, or as worked out from what is on record.

    An author's own words are left as they are; where it came back since, that revision
    is named behind them. What was worked out once and stands in the record as it was
    then is worked out again.
    """
    found, entries = having(snapshot, erratum), entries_of(snapshot, erratum)
    said = erratum.how_to_tell
    if entries and (not said or _worked_out(said, found)):
        revision = affected_revision(snapshot, entries[0])
        return how_to_tell(snapshot, entries[0], revision, found)
    named = {ref.id for ref in erratum.revisions}
    by_file = MADE_FROM in said
    more = [
        made_from(snapshot, one, found)
        for one in found
        if one.id not in named or (by_file and one.title not in said)
    ]
    return "; or ".join(filter(None, (said, *more)))


def _worked_out(said: str, found: Sequence[Revision]) -> bool:
    """Tell whether words are those that are drafted for one of these revisions."""
    made = [f"{how} {one.title}" for how in (MADE_FROM, BOUGHT_AS) for one in found]
    whole = {f"{BOUGHT_AS} {one.part.name}" for one in found}
    clauses = said.split("; ")
    return any(one in whole or one.startswith(tuple(made)) for one in clauses)
