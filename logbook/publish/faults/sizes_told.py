"""Which size the drawing has and which was found, of what a known fault rests on."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.faults.drafted import affected_revision
from logbook.advice.faults.trying import entries_of
from logbook.publish.parts.gaps import made_to_suit, rule_words
from logbook.records.kinds import design, happenings
from logbook.records.kinds.made_public import Erratum
from logbook.records.sizes.definition import WITHIN, dimension
from logbook.records.sizes.limits_held import held_words, limits_held
from logbook.records.states.read_now import found_now, found_words
from logbook.records.states.wanted import Wanted, wanted
from logbook.records.together.snapshot import Snapshot


def sizes_told(snapshot: Snapshot, erratum: Erratum) -> Iterator[str]:
    """Say which size the drawing has and which was found, and whether that is within.

    Of what is made to suit it is the rule: this build's size is nobody else's.
    """
    for entry in entries_of(snapshot, erratum):
        if not isinstance(entry, happenings.Deviation) or not (
            entry.wanted and entry.found
        ):
            continue
        item = snapshot.find(entry.characteristic, design.Characteristic)
        if item is not None and (gap := made_to_suit(snapshot, item)):
            yield f"{item.title} is made to suit: {rule_words(snapshot, gap)}"
            continue
        said = wanted(snapshot, entry, affected_revision(snapshot, entry))
        within = _within(snapshot, entry, item) if item else ""
        if said is not None:
            has = _has(said, item.title if item else "")
            yield f"{has}, found was {found_words(snapshot, entry)}{within}"


def _has(said: Wanted, what: str) -> str:
    """Say what the drawing has, and what it should have where that is another size."""
    if said.as_drawn:
        return f"the drawing has {what} {said.said}".replace("  ", " ")
    if said.drawn is None:
        named = f"the {what}" if what else "it"
        return f"{named} should be {said.said} (no drawn size on record)"
    of = f" ({said.revision.title})" if said.revision else ""
    return f"the drawing{of} has {what} {said.drawn}, it should be {said.said}"


def _within(
    snapshot: Snapshot, entry: happenings.Deviation, item: design.Characteristic
) -> str:
    """Say that what was found is inside the limits that hold, where it is."""
    revision = affected_revision(snapshot, entry)
    drawn = dimension(snapshot, revision, item)
    held = limits_held(snapshot.project, drawn)
    found = found_now(snapshot, entry)
    if found is None or drawn.nominal is None:
        return ""
    same = found.dimension == drawn.nominal.dimension
    if not same or held.verdict(found) != WITHIN:
        return ""
    words = held_words(snapshot.project, drawn)
    return f", which is inside the limits that hold: {words}"
