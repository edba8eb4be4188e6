"""Whether a revision was tried: a piece of it is here, or was counted, and held up."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.happenings import Deviation, Disposal, Failure
from logbook.records.kinds.words import Blame, State
from logbook.records.kinds.workshop import Piece
from logbook.records.sizes.definition import (
    OFF_DRAWING,
    WITHIN,
    Dimension,
    definition,
    dimension,
)
from logbook.records.sizes.limits_held import as_held
from logbook.records.sizes.verdict_word import judged
from logbook.records.states.counted import counted_and_held
from logbook.records.states.pieces import piece_state, readings_of
from logbook.records.states.read_now import differs, found_now
from logbook.records.states.wanted import wanted
from logbook.records.together.likeness import same_trouble
from logbook.records.together.revisions import is_withdrawn
from logbook.records.together.snapshot import Snapshot


def verdict_of(snapshot: Snapshot, revision: Revision) -> str:
    """Say tried, untried or withdrawn; tried means a piece of it was made and held.

    One that is not here, was scrapped, or failed by the drawing or for no known
    reason, tells nothing in its favour. Nor does one that failed, whoever's fault it
    was, as what the revision is to cure did. Pieces that were only counted as used tell
    the same, where it is known to which revision they were made.
    """
    if is_withdrawn(snapshot, revision):
        return "withdrawn"
    pieces = snapshot.mentions(revision, Piece)
    own = (piece for piece in pieces if snapshot.find(piece.revision) is revision)
    if any(held_up(snapshot, piece, revision) for piece in own):
        return "tried"
    return "tried" if counted_and_held(snapshot, revision) else "untried"


OFF = "tried, but no piece of it came out as drawn"
OFF_AND_NOT_HELD = "tried, but no piece that came out as drawn has held"


def tried_words(snapshot: Snapshot, revision: Revision) -> str:
    """Say how a revision stands; of one that was tried also whether it was as drawn.

    Pieces that hold up may all be off their drawing: what was drawn was made by nobody,
    or did not hold where it was.
    """
    said = verdict_of(snapshot, revision)
    if said != "tried":
        return said
    made = [
        piece
        for piece in snapshot.mentions(revision, Piece)
        if snapshot.find(piece.revision) is revision
    ]
    drawn = [one for one in made if not _off_drawing(snapshot, one, revision)]
    if any(held_up(snapshot, piece, revision) for piece in drawn):
        return said
    if not any(held_up(snapshot, piece, revision) for piece in made):
        return said
    read = any(readings_of(snapshot, piece) for piece in drawn)
    return OFF_AND_NOT_HELD if read else OFF


def _off_drawing(snapshot: Snapshot, piece: Piece, revision: Revision) -> bool:
    """Tell whether a piece is off a drawn size, by what was read or said of it."""
    told = [
        one
        for one in snapshot.mentions(piece, Deviation)
        if snapshot.find(one.piece) is piece
    ]
    blamed = (one for one in told if one.met_by_others is Blame.DRAWING)
    if any(not _within(snapshot, one, revision) for one in blamed):
        return True
    return any(
        _reads_off(snapshot, piece, drawn) or _said_off(snapshot, told, drawn)
        for drawn in definition(snapshot, revision)
        if not _made_last(snapshot, drawn)
    )


def _within(snapshot: Snapshot, told: Deviation, revision: Revision) -> bool:
    """Tell whether a piece is as drawn although its drawing is to blame.

    What it should have been is another size than the drawing has, or nobody knows it.
    """
    item = snapshot.find(told.characteristic, Characteristic)
    found, said = found_now(snapshot, told), wanted(snapshot, told, revision)
    if item is None or found is None or said is None:
        return False
    if said.drawn is None:
        return not said.as_drawn
    held = as_held(snapshot, dimension(snapshot, revision, item))
    as_it_is = judged(held, found, None) == WITHIN
    return as_it_is or (not held.has_limits and not differs(found, said.drawn))


def _made_last(snapshot: Snapshot, drawn: Dimension) -> bool:
    """Tell whether a size is made to suit a gap: it is not held to its drawing."""
    item = drawn.characteristic
    gaps = snapshot.mentions(item, Fit)
    return any(snapshot.find(gap.made_last) is item for gap in gaps)


def _said_off(snapshot: Snapshot, told: Sequence[Deviation], drawn: Dimension) -> bool:
    """Tell whether a size was said to be off that nobody has read on the piece since.

    Whoever's fault it was: what was drawn was not made.
    """
    item, held = drawn.characteristic, as_held(snapshot, drawn)
    said = [one for one in told if snapshot.find(one.characteristic) is item]
    if not said or (piece := snapshot.find(said[-1].piece, Piece)) is None:
        return False
    found, taken = said[-1].found, readings_of(snapshot, piece, item)
    if found is None or any(one.reading.at >= said[-1].when for one in taken):
        return False
    return judged(held, found, None) == OFF_DRAWING


def _reads_off(snapshot: Snapshot, piece: Piece, drawn: Dimension) -> bool:
    """Tell whether the last reading of a size at some place is outside its limits."""
    held = as_held(snapshot, drawn)
    taken = readings_of(snapshot, piece, drawn.characteristic)
    last = {one.reading.place: one.reading.value for one in taken}
    return any(judged(held, value, None) == OFF_DRAWING for value in last.values())


_TELLS_NOTHING = {State.ORDERED, State.SENT_OUT, State.SCRAPPED, State.LOST}


def held_up(snapshot: Snapshot, piece: Piece, revision: Revision) -> bool:
    """Tell whether a piece speaks for its revision: it is here and did not fail."""
    if piece_state(snapshot, piece) in _TELLS_NOTHING:
        return False
    if off_what_changed(snapshot, piece, revision):
        return False
    return not any(
        snapshot.find(failure.piece) is piece
        and (
            failure.met_by_others in {Blame.DRAWING, Blame.UNKNOWN}
            or _as_before(snapshot, failure, revision)
        )
        for failure in snapshot.mentions(piece, Failure)
    )


def off_what_changed(snapshot: Snapshot, piece: Piece, revision: Revision) -> bool:
    """Tell whether a piece came out off the very size that its revision changed.

    It shows nothing of the size that was meant to cure.
    """
    for change in revision.changes:
        item = snapshot.find(change.characteristic, Characteristic)
        taken = readings_of(snapshot, piece, item) if item else ()
        if item is None or not taken:
            continue
        drawn = as_held(snapshot, dimension(snapshot, revision, item))
        if judged(drawn, taken[-1].reading.value, None) == OFF_DRAWING:
            return True
    return False


def spoiled(snapshot: Snapshot, piece: Piece) -> bool:
    """Tell whether a piece was scrapped for a slip of the shop, not for its drawing.

    Sawn too short, dropped: it says nothing for its revision and nothing against it.
    """
    if piece_state(snapshot, piece) is not State.SCRAPPED:
        return False
    faults: tuple[Failure | Deviation | Disposal, ...] = (
        *snapshot.mentions(piece, Failure),
        *snapshot.mentions(piece, Deviation),
        *snapshot.mentions(piece, Disposal),
    )
    return not any(
        snapshot.find(fault.piece) is piece
        and fault.met_by_others in {Blame.DRAWING, Blame.UNKNOWN}
        for fault in faults
    )


def _as_before(snapshot: Snapshot, failure: Failure, revision: Revision) -> bool:
    """Tell whether a piece failed as what its revision is to cure did."""
    cured = (snapshot.find(ref) for ref in revision.because)
    names = [part.title for part in snapshot.all(Part)]
    return any(
        isinstance(one, Failure) and same_trouble(one.title, failure.title, names)
        for one in cured
    )
