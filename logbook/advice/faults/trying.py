"""Whether a cure was tried, and whether something shows that it cures."""

from __future__ import annotations

from collections.abc import Iterable

from logbook.advice.faults.gone import gone_because
from logbook.advice.faults.headline import headline
from logbook.advice.faults.shown import not_shown
from logbook.advice.faults.unrecorded import built_in_unrecorded
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import Blame, Source
from logbook.records.kinds.workshop import Piece
from logbook.records.states.pieces import piece_state
from logbook.records.states.tried import held_up, off_what_changed, tried_words
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot

Fault = Deviation | Failure

NOBODY = "nobody has made it yet"
UNUSED = "nothing on record shows it in use yet"
"""The same of what is bought."""
FAILED = "no piece made of it has held"


def cure_words(snapshot: Snapshot, cure: Revision, faults: Iterable[Fault] = ()) -> str:
    """Say tried, or untried and why; withdrawn where it was.

    The word is that of the revision itself (`tried.tried_words`). `faults` are those it
    cures: where nothing shows yet that it does, it is said what would (`not_shown`).
    """
    verdict = tried_words(snapshot, cure)
    if verdict == "untried":
        return f"untried: {_why_not(snapshot, cure)}"
    if verdict != "tried":
        return verdict
    for fault in faults:
        if missing := not_shown(snapshot, fault, cure):
            return f"tried, but {missing}"
    return "tried"


def is_unmade(words: str) -> bool:
    """Tell whether a cure is untried because there is no piece of it at all."""
    return words.endswith((NOBODY, UNUSED))


def entries_of(snapshot: Snapshot, erratum: Erratum) -> tuple[Fault, ...]:
    """Give the deviations and failures a known fault rests on."""
    found = (snapshot.find(ref) for ref in erratum.from_entries)
    return tuple(one for one in found if isinstance(one, Deviation | Failure))


# -- no piece that held ----------------------------------------------------------


def _why_not(snapshot: Snapshot, cure: Revision) -> str:
    pieces = [
        piece
        for piece in snapshot.mentions(cure, Piece)
        if snapshot.find(piece.revision) is cure
    ]
    if not pieces and (found := built_in_unrecorded(snapshot, cure)):
        _, step, build = found
        return (
            f"no piece of it is on record, but “{step.title}” was done in {build.title}"
        )
    if not pieces:
        part = part_of(snapshot, cure)
        return UNUSED if part and part.source is Source.BOUGHT else NOBODY
    failed = [
        failure
        for piece in pieces
        for failure in snapshot.mentions(piece, Failure)
        if snapshot.find(failure.piece) is piece
    ]
    own = [one for one in failed if one.met_by_others in {Blame.PIECE, Blame.MACHINE}]
    if len(pieces) == 1 and own and not held_up(snapshot, pieces[0], cure):
        return f"its only piece so far failed too: {headline(snapshot, own[-1])}"
    if failed or any(_off(snapshot, piece) for piece in pieces):
        return FAILED
    return "; ".join(_gone(snapshot, piece, cure) for piece in pieces)


def _off(snapshot: Snapshot, piece: Piece) -> bool:
    """Tell whether a piece differs by its drawing, or for no known reason."""
    return any(
        snapshot.find(one.piece) is piece
        and one.met_by_others in {Blame.DRAWING, Blame.UNKNOWN}
        for one in snapshot.mentions(piece, Deviation)
    )


def _gone(snapshot: Snapshot, piece: Piece, revision: Revision) -> str:
    """Say why a piece tells nothing: it was scrapped, for this reason, or is not here.

    A slip at the bench says nothing against the drawing.
    """
    if off_what_changed(snapshot, piece, revision):
        return f"{piece.title} came out off in the very size that was changed"
    state = piece_state(snapshot, piece).value
    why = gone_because(snapshot, piece)
    return f"{piece.title} is {state}" + (f": {why}" if why else "")
