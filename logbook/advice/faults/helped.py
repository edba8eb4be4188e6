"""Whether what was named as a cure was tried and has held, in the words said before it.

A cure typed beside a failure is what somebody means to do. It helped where a piece of
the revision that brings it was made and held up, where it is on record as done to a
piece that has not failed since or was said to be still good afterwards, or where its
own words say so (“a rubber strip fixed it”). Work done before the words of the cure
were amended is no trial of the new ones. Where a piece of that revision was made,
nobody can say that it was not tried: its words may be others.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from logbook.advice.faults.came_back import again_as, came_back
from logbook.advice.faults.done_in import (
    done_at_step,
    done_in,
    done_to,
    told_done,
    works_told,
)
from logbook.advice.faults.drafted import Fault, cured_by, fault_from
from logbook.advice.faults.headline import headline, said_with
from logbook.advice.faults.held_words import says_held, was_tried
from logbook.advice.faults.same_fault import sameness
from logbook.advice.faults.trying import cure_words, entries_of, is_unmade
from logbook.advice.gaps.came_out import suits
from logbook.records.kinds.design import Characteristic, Revision
from logbook.records.kinds.happenings import Deviation, Failure, Status
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import Disposition, ErratumStatus, State
from logbook.records.kinds.workshop import Piece
from logbook.records.states.dispositions import disposition_of
from logbook.records.states.pieces import pieces_of, readings_of
from logbook.records.together.names import folded
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot

HELPED = "what helped"
NOT_TRIED = "cure named, not tried yet"
NOT_KNOWN = "cure named, not known to hold"
FAILED_OTHERWISE = "cure done, and its piece failed otherwise"
LABELS = (HELPED, NOT_TRIED, NOT_KNOWN, FAILED_OTHERWISE)
"""What stands before a cure, but for what came back after it."""

_REWORKED = {Disposition.REWORK, Disposition.REPAIR}
_UNTOUCHED = {Disposition.USE_AS_IS, Disposition.SCRAP, Disposition.RETURN}


def helped(snapshot: Snapshot, entry: Fault) -> str:
    """Give the words that stand before the cure of an entry."""
    if back := _back(snapshot, entry):
        return back
    cure = cured_by(snapshot, entry)
    tried = cure_words(snapshot, cure, (entry,)) if cure else ""
    shown = _reworked(snapshot, entry) or _held_with_it(snapshot, entry)
    if tried == "tried" or shown or _said_to(entry):
        return HELPED
    if cure is not None and (made := _made_to(snapshot, cure)):
        since = [one for piece in made for one in _failures(snapshot, piece)]
        if not any(_is_back(snapshot, entry, one) for one in since):
            failed = all(_failures(snapshot, piece) for piece in made)
            so = failed and _in_revision(snapshot, entry, cure)
            return FAILED_OTHERWISE if so else NOT_KNOWN
    if _done_somewhere(snapshot, entry, cure):
        return NOT_KNOWN
    done = disposition_of(snapshot, entry)
    elsewhere = done in _UNTOUCHED or _other_work(snapshot, entry)
    undone = elsewhere and not _in_revision(snapshot, entry, cure)
    untried = (
        (is_unmade(tried) or undone)
        and not _suits_its_gap(snapshot, entry)
        and not was_tried(entry.cure)
    )
    return NOT_TRIED if untried else NOT_KNOWN


def _said_to(entry: Fault) -> bool:
    """Tell whether a cure says itself that it helped: “a rubber strip fixed it”.

    Or whether its line says so behind it: “glued it again, it holds”.
    """
    if not entry.cure:
        return False
    behind = folded(entry.title).partition(folded(entry.cure))[2]
    return says_held(entry.cure) or says_held(behind)


def _suits_its_gap(snapshot: Snapshot, entry: Fault) -> bool:
    """Tell whether the size a deviation found is made to suit a gap, and does.

    Then what was found is what came of making it so: nobody can say it was not tried.
    """
    if not isinstance(entry, Deviation):
        return False
    piece = snapshot.find(entry.piece, Piece)
    item = snapshot.find(entry.characteristic, Characteristic)
    return piece is not None and item is not None and suits(snapshot, piece, item) == ""


def _made_to(snapshot: Snapshot, cure: Revision) -> list[Piece]:
    pieces = snapshot.mentions(cure, Piece)
    return [one for one in pieces if snapshot.find(one.revision) is cure]


def _failures(snapshot: Snapshot, piece: Piece) -> list[Failure]:
    found = snapshot.mentions(piece, Failure)
    return [one for one in found if snapshot.find(one.piece) is piece]


def _is_back(snapshot: Snapshot, entry: Fault, failure: Failure) -> bool:
    """Tell whether a failure is an entry's fault come back."""
    return sameness(snapshot, fault_from(snapshot, entry), failure).holds


def _done_somewhere(snapshot: Snapshot, entry: Fault, cure: Revision | None) -> bool:
    """Tell whether what was named is on record as done, to whatever piece, or told.

    A cure of one part may be work on another: of the part whose revision cures it.
    """
    if not entry.cure:
        return False
    if told_done(entry.cure, entry.title):
        return True
    named = (part_of(snapshot, one) for one in (entry, cure) if one is not None)
    parts = {part.id: part for part in named if part is not None}
    trouble = headline(snapshot, entry)
    return any(
        done_at_step(snapshot, entry.cure, trouble, part, entry.when)
        or any(
            done_to(snapshot, entry.cure, trouble, piece)
            for piece in pieces_of(snapshot, part)
        )
        for part in parts.values()
    )


def _in_revision(snapshot: Snapshot, entry: Fault, cure: Revision | None) -> bool:
    """Tell whether the revision that is to cure did what was named, and not another."""
    if cure is None or not entry.cure:
        return cure is not None
    return done_in(snapshot, entry.cure, headline(snapshot, entry), (cure,))


def helped_with(snapshot: Snapshot, erratum: Erratum, cure: Revision | None) -> str:
    """Give the words before what a known fault says to do; `cure` fixes it now.

    What its author wrote later and otherwise is not what was seen to help before.
    """
    if erratum.status is ErratumStatus.VERIFIED:
        return HELPED
    entries = entries_of(snapshot, erratum)
    tried = cure_words(snapshot, cure, entries) if cure else ""
    said = {helped(snapshot, entry) for entry in entries}
    back = said - {*LABELS}
    if back and cure is None:
        return min(back)
    if tried == "tried":
        return HELPED
    if HELPED in said and cure is None and not _written_otherwise(erratum, entries):
        return HELPED
    if any(told_done(erratum.do_this, one.title) for one in entries):
        return NOT_KNOWN
    if FAILED_OTHERWISE in said and not _written_otherwise(erratum, entries):
        return FAILED_OTHERWISE
    untried = is_unmade(tried) and NOT_KNOWN not in said
    return NOT_TRIED if untried or said == {NOT_TRIED} else NOT_KNOWN


def _written_otherwise(erratum: Erratum, entries: Iterable[Fault]) -> bool:
    """Tell whether an instruction is in the words of no entry's cure."""
    do = folded(erratum.do_this)
    cures = [folded(one.cure) for one in entries if one.cure]
    return bool(do and cures) and not any(one in do or do in one for one in cures)


def back_after(snapshot: Snapshot, entry: Fault) -> Failure | None:
    """Give in what an entry came back after its cure; not where that was good since."""
    again = came_back(snapshot, entry)
    return None if again is None or any(_good_since(snapshot, again)) else again


def _back(snapshot: Snapshot, entry: Fault) -> str:
    """Say that it came back after its cure."""
    again = back_after(snapshot, entry)
    if again is None:
        return ""
    said = again_as(snapshot, entry, again).said
    return f"tried, and {said} (“{headline(snapshot, again)}”)"


def _reworked(snapshot: Snapshot, entry: Fault) -> bool:
    """Tell whether its piece was reworked so, and has not failed since."""
    piece = snapshot.find(entry.piece, Piece)
    if piece is None or disposition_of(snapshot, entry) not in _REWORKED:
        return False
    again = any(one.when > entry.when for one in _failures(snapshot, piece))
    return not again and _done_as_named(snapshot, entry, piece)


def mended_so(snapshot: Snapshot, erratum: Erratum) -> Piece | None:
    """Give a piece that was reworked as the cure of a known fault says, and held."""
    for entry in entries_of(snapshot, erratum):
        if entry.cure and _reworked(snapshot, entry):
            return snapshot.find(entry.piece, Piece)
    return None


def _held_with_it(snapshot: Snapshot, entry: Fault) -> bool:
    """Tell whether a piece that has the cure was said to be still good since."""
    good = _good_since(snapshot, entry)
    return any(_done_as_named(snapshot, entry, piece) for piece in good)


def _good_since(snapshot: Snapshot, entry: Fault) -> Iterator[Piece]:
    """Give the pieces of its part that were said to be still good since."""
    part = part_of(snapshot, entry)
    for piece in pieces_of(snapshot, part) if part else ():
        if any(
            one.state is State.CONFIRMED
            and one.when > entry.when
            and snapshot.find(one.of) is piece
            for one in snapshot.mentions(piece, Status)
        ):
            yield piece


def _done_as_named(snapshot: Snapshot, entry: Fault, piece: Piece) -> bool:
    """Tell whether a piece had the cure, as far as is on record.

    The line that tells of the fault tells of it, the work on the piece or its settings
    do, or a later revision it was made to did it.
    """
    if not entry.cure:
        return True
    own = snapshot.find(entry.piece) is piece
    if own and folded(entry.cure) in folded(entry.title):
        return True
    trouble = headline(snapshot, entry)
    made = snapshot.find(piece.revision, Revision)
    later = made is not None and not own and made.when > entry.when
    return done_to(snapshot, entry.cure, trouble, piece) or (
        later and made is not None and done_in(snapshot, entry.cure, trouble, (made,))
    )


def _other_work(snapshot: Snapshot, entry: Fault) -> bool:
    """Tell whether what was done to its piece is told, and is not what the cure says.

    A size that still reads as it was found tells that nothing was done to it.
    """
    piece = snapshot.find(entry.piece, Piece)
    if piece is None or disposition_of(snapshot, entry) not in _REWORKED:
        return False
    if _done_as_named(snapshot, entry, piece):
        return False
    told = any(works_told(snapshot, piece)) or bool(said_with(snapshot, entry))
    return told or (isinstance(entry, Deviation) and _reads_so(snapshot, entry, piece))


def _reads_so(snapshot: Snapshot, entry: Deviation, piece: Piece) -> bool:
    """Tell whether the newest word on the size of a piece is what was found."""
    item = snapshot.find(entry.characteristic, Characteristic)
    taken = readings_of(snapshot, piece, item) if item else ()
    return entry.found is not None and not any(
        one.reading.at > entry.when for one in taken
    )
