"""Whether a piece is what its revision draws: one row for each dimension.

A dimension that is made to suit a gap is not rejected by its drawn size: the gap
decides. A test piece is held to what its drawing gives and to no general tolerance:
how far it is off is what it was made to tell.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from logbook.advice.ground.lengths import shown_in
from logbook.advice.pieces.judging import Judged, Rule, Word, judged
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.happenings import Deviation, Disposal, Failure
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.workshop import Piece
from logbook.records.sizes.definition import Dimension, definition
from logbook.records.sizes.limits_held import as_held
from logbook.records.states.dispositions import answered_in, of_all
from logbook.records.states.pieces import is_on_hand
from logbook.records.states.practice import is_practice
from logbook.records.together.references import part_of
from logbook.records.together.revisions import current_revision
from logbook.records.together.snapshot import Snapshot

UNDECIDED = "nobody has decided"


@dataclass(frozen=True, slots=True)
class Row:
    """One dimension of one piece; `number` counts the drawing's dimensions from 1.

    `faults` are the deviations about it, `decided` what was decided on them.
    """

    number: int
    piece: Ref
    drawn: Dimension
    found: Judged
    word: Word
    results: str
    faults: tuple[Ref, ...]
    decided: str

    @property
    def undecided(self) -> bool:
        """Whether it is off its drawing and nobody said what to do about it."""
        return self.word is Word.REJECT and not self.decided


@dataclass(frozen=True, slots=True)
class Inspected:
    """A piece with its rows; `faults` are those of it nobody has decided on."""

    piece: Piece
    revision: Revision | None
    rows: tuple[Row, ...]
    faults: tuple[Ref, ...]
    there: bool
    inputs: tuple[Ref, ...] = field(default=())

    def of(self, word: Word) -> tuple[Row, ...]:
        """Give the rows of which this is said."""
        return tuple(row for row in self.rows if row.word is word)

    @property
    def unmeasured(self) -> tuple[Row, ...]:
        """Rows that the drawing limits, or calls critical, and nobody measured."""
        return tuple(row for row in self.of(Word.UNMEASURED) if _wanted(row.drawn))

    @property
    def word(self) -> Word:
        """Say the worst of its rows; without any limits drawn, that."""
        for word in (Word.REJECT, Word.CLOSE):
            if self.of(word):
                return word
        if self.unmeasured:
            return Word.UNMEASURED
        return Word.ACCEPT if self.of(Word.ACCEPT) else Word.NO_LIMITS


def _wanted(drawn: Dimension) -> bool:
    """Tell whether it is to be measured: a general tolerance does not ask for that."""
    limited = drawn.has_limits and not drawn.general
    return limited or drawn.characteristic.critical


# -- a piece ---------------------------------------------------------------------


def inspected(snapshot: Snapshot, piece: Piece, rule: Rule | None = None) -> Inspected:
    """Judge each dimension of a piece as its own revision draws it."""
    revision = _revision(snapshot, piece)
    rows = rows_of(snapshot, piece, rule)
    faults = tuple(
        fault.ref
        for fault in faults_of(snapshot, piece)
        if not _answer(snapshot, fault)
    )
    inputs = [piece.ref, *((revision.ref,) if revision else ())]
    for row in rows:
        inputs += [row.drawn.characteristic.ref, *row.found.runs, *row.faults]
    there = is_on_hand(snapshot, piece)
    return Inspected(piece, revision, rows, faults, there, tuple(dict.fromkeys(inputs)))


def rows_of(
    snapshot: Snapshot, piece: Piece, rule: Rule | None = None
) -> tuple[Row, ...]:
    """Give a row for each dimension of a piece."""
    revision = _revision(snapshot, piece)
    drawn = _held(snapshot, revision) if revision else ()
    faults = faults_of(snapshot, piece) if drawn else ()
    suited = _made_last(snapshot) if drawn else frozenset()
    rows = []
    for number, one in enumerate(drawn, 1):
        found = judged(snapshot, piece, one, rule or Rule())
        about = [
            fault
            for fault in faults
            if isinstance(fault, Deviation)
            and snapshot.find(fault.characteristic) is one.characteristic
        ]
        rows.append(
            Row(
                number,
                piece.ref,
                one,
                found,
                _word(found, one, suited),
                _results(found),
                tuple(fault.ref for fault in about),
                _decided(snapshot, piece, found, about),
            )
        )
    return tuple(rows)


def _held(snapshot: Snapshot, revision: Revision) -> tuple[Dimension, ...]:
    """Give the dimensions of a revision with the limits a piece of it is held to."""
    drawn = definition(snapshot, revision)
    part = snapshot.find(revision.part, Part)
    if part is None or is_practice(snapshot, part):
        return drawn
    return tuple(as_held(snapshot, one) for one in drawn)


def _revision(snapshot: Snapshot, piece: Piece) -> Revision | None:
    """Give the revision a piece was made to, else the current one of its part."""
    revision = snapshot.find(piece.revision, Revision)
    part = part_of(snapshot, piece) if revision is None else None
    return current_revision(snapshot, part) if part else revision


def _made_last(snapshot: Snapshot) -> frozenset[str]:
    """Give the ids of dimensions that are made to suit a gap with limits."""
    found = set()
    for fit in snapshot.all(Fit):
        last = snapshot.find(fit.made_last, Characteristic)
        if last is not None and (fit.lower_limit or fit.upper_limit):
            found.add(last.id)
    return frozenset(found)


def _word(found: Judged, drawn: Dimension, suited: frozenset[str]) -> Word:
    off = found.word in {Word.REJECT, Word.CLOSE}
    suits = off and drawn.characteristic.id in suited
    return Word.SUIT if suits or (drawn.to_suit and found.spots) else found.word


def _decided(
    snapshot: Snapshot, piece: Piece, found: Judged, about: Sequence[Deviation]
) -> str:
    answers = (_answer(snapshot, fault) for fault in reversed(about))
    decided = next((said for said in answers if said), "")
    if found.word is Word.REJECT and not decided:
        return _disposed(snapshot, piece, found)
    return decided


def faults_of(snapshot: Snapshot, piece: Piece) -> tuple[Deviation | Failure, ...]:
    """Give the deviations and failures of a piece, in order."""
    return tuple(
        record
        for record in snapshot.mentions(piece)
        if isinstance(record, Deviation | Failure)
        and snapshot.find(record.piece) is piece
    )


def _answer(snapshot: Snapshot, fault: Deviation | Failure) -> str:
    """Give what was decided on a fault: by itself, or by a disposal that answers it."""
    said = fault.disposition.value if fault.disposition else ""
    for record in snapshot.mentions(fault):
        if isinstance(record, Disposal) and any(
            snapshot.find(ref) is fault for ref in answered_in(record)
        ):
            said = record.disposition.value
    return said


def _disposed(snapshot: Snapshot, piece: Piece, found: Judged) -> str:
    """Give what was decided on the whole piece since it was last measured."""
    taken = [snapshot.find(ref) for ref in found.runs]
    last = max((one.when for one in taken if one), default=None)
    said = ""
    for record in snapshot.mentions(piece):
        if (
            isinstance(record, Disposal)
            and snapshot.find(record.piece) is piece
            and of_all(record)
            and (last is None or record.when >= last)
        ):
            said = record.disposition.value
    return said


def _results(found: Judged) -> str:
    """Say what was read: the value, or the least and the greatest of the places."""
    if not found.spots:
        return ""
    values = sorted(spot.value for spot in found.spots)
    tool = found.tool
    fine = tool.resolution if tool else None
    if found.unit == "mm":
        step = float(fine.to("mm")) if fine and fine.dimension == "length" else None
        shown = shown_in("mm", step)
        ends = [shown(float(value)) for value in (values[0], values[-1])]
    else:
        ends = [f"{float(v):.6g} {found.unit}" for v in (values[0], values[-1])]
    low, high = ends
    if low == high:
        return low
    number = low.removesuffix(f" {found.unit}")
    return f"{number} to {high}"
