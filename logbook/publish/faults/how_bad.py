"""How bad a known fault is in words, and what is not to be used because of it."""

from __future__ import annotations

from logbook.advice.faults.fixing import releases_named
from logbook.advice.faults.stopping import not_until
from logbook.advice.faults.trying import entries_of
from logbook.records.kinds import design
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import Disposition, Severity, State
from logbook.records.kinds.workshop import Piece
from logbook.records.states.dispositions import disposition_of
from logbook.records.states.pieces import piece_state
from logbook.records.together.snapshot import Snapshot

SEVERITIES = {
    Severity.SAFETY: "somebody could get hurt",
    Severity.DAMAGE: "spoils a part, a tool or the work",
    Severity.FUNCTION: "does not do what it should",
    Severity.FIT: "cannot be put together as written",
    Severity.UNKNOWN: "nobody said what it does",
    Severity.DOCUMENT: "wrong or missing in the papers only",
}
_BECAME = {State.REWORKED: "reworked", State.SCRAPPED: "scrapped"}


def means(snapshot: Snapshot, erratum: Erratum) -> str:
    """Say how bad a fault is: what it does, or no more than that is on record."""
    does = SEVERITIES[erratum.severity]
    if erratum.severity is not Severity.UNKNOWN:
        return does
    entries = entries_of(snapshot, erratum)
    pieces = [snapshot.find(entry.piece, Piece) for entry in entries]
    for piece in filter(None, pieces):
        if became := _BECAME.get(piece_state(snapshot, piece)):
            return f"{piece.title} was {became}; nobody said more of it"
    done = {disposition_of(snapshot, one) for one in entries}
    if done == {Disposition.USE_AS_IS}:
        named = " and ".join(piece.title for piece in pieces if piece)
        return f"{named or 'the piece'} was used as it is; nobody said more of it"
    return does


def stop_words(
    snapshot: Snapshot,
    erratum: Erratum,
    part: design.Part | None,
    affected: tuple[str, ...],
    releases: tuple[str, ...],
) -> str:
    """Say what exactly is not to be used, and until when; empty where it may be."""
    until = not_until(snapshot, erratum)
    if not until:
        return ""
    what = f"the {part.title}" if part else "what you built"
    of = f" of {releases_named(releases)}" if releases else ""
    named = f" ({', '.join(affected)})" if affected else ""
    return f"Do not use {what}{of}{named} {until}."
