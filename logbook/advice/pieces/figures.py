"""A shop's own figures: what a process there does to a size, by its own pieces.

Offset and scatter per operation (per bend, per cut), for each process, machine and
shop: what another builder's pieces came to says nothing of this one's machines, though
one record holds both. From five operations on they count, drawn toward the process
default while few. They say what to set at the machine next time; a published file or
nominal never changes by them. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from typing import NamedTuple

from logbook.advice.ground.drawn import nominal_as
from logbook.advice.ground.register import remembered
from logbook.advice.pieces.contours import contour_sign
from logbook.advice.pieces.readings import measured
from logbook.advice.pieces.usual import FigureKey, Usual, figure_key, usual_of
from logbook.errors import BadInput
from logbook.quantity import Quantity
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import Characteristic, Feature, Part, Revision
from logbook.records.kinds.happenings import Deviation
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Blame, Source
from logbook.records.kinds.workshop import Machine, Piece
from logbook.records.making.made_on import does
from logbook.records.states.pieces import pieces_of
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.whose_shop import builder_of, same_builder

_EACH = {
    "bend line position": "bend", "bend position": "bend", "length": "cut",
    "hole position": "hole",
}  # fmt: skip
"""What one operation of a process is called, by the feature it makes."""

FEWEST = 5
"""Operations on record from which the shop's own figures count."""
PRIOR = 4
"""Degrees of freedom that the process default is worth; common practice, no source."""


class Sample(NamedTuple):
    """How far a size of a made piece is off its nominal, over so many operations.

    Of a cut along a contour it is the kerf: an outside that is smaller counts as +.
    """

    key: FigureKey
    builder: str
    off: float
    operations: int
    piece: Piece
    what: Characteristic

    @property
    def keys(self) -> tuple[FigureKey, FigureKey]:
        """The figures it counts for: of its machine, and of all of its shop."""
        return self.key, self.key.of_all_machines


@dataclass(frozen=True, slots=True)
class Shop:
    """What one process of a builder's shop does, per operation.

    `offset` and `sd` are drawn toward the default; `mean` and `spread` are as
    found. `error` is the standard error of the offset.
    """

    process: str
    machine: str
    builder: str
    count: int
    mean: float
    spread: float
    offset: float
    sd: float
    error: float
    usual: Usual | None
    samples: tuple[Sample, ...]

    @property
    def each(self) -> str:
        """What one operation is called: bend, cut, hole, else size."""
        return _EACH.get(self.process.rpartition(", ")[2], "size")

    @property
    def counts(self) -> bool:
        """Whether there are enough to go by."""
        return self.count >= FEWEST and len(self.samples) >= 2


def features(snapshot: Snapshot, what: Characteristic) -> tuple[Feature, ...]:
    """Give the operations that make a dimension; the part's process where none is."""
    if what.made_by:
        return what.made_by
    part = snapshot.find(what.part, Part)
    if part is None or part.source is not Source.MADE or not part.process:
        return ()
    return (Feature(process=part.process[0]),)


def samples(snapshot: Snapshot, what: Characteristic) -> tuple[Sample, ...]:
    """Give how far each piece is off in one dimension that one process makes.

    Sizes made to suit say nothing about a process, nor does a piece that was
    said to be a thing of its own, or made before its machine was set anew.
    """
    made = features(snapshot, what)
    part = snapshot.find(what.part, Part)
    if len(made) != 1 or part is None or part.source is Source.BOUGHT:
        return ()
    gaps = snapshot.mentions(what, Fit)
    if any(snapshot.find(gap.made_last) is what for gap in gaps):
        return ()
    sign = contour_sign(made[0].process, what)
    if not sign:
        return ()
    pieces = remembered(snapshot, "pieces", (part,), partial(pieces_of, snapshot, part))
    own = _of_their_own(snapshot, what)
    found = (
        _sample(snapshot, what, made[0], piece, sign)
        for piece in pieces
        if piece.id not in own
    )
    return tuple([sample for sample in found if sample is not None])


def _sample(
    snapshot: Snapshot, what: Characteristic, made: Feature, piece: Piece, sign: int
) -> Sample | None:
    off = _off(snapshot, what, piece)
    machine, builder = made_on(snapshot, made, piece), builder_of(snapshot, piece)
    if off is None or _before_setting(snapshot, machine, piece, builder):
        return None
    return Sample(
        figure_key(made.process, machine, builder),
        builder,
        sign * off,
        max(1, made.count),
        piece,
        what,
    )


def made_on(snapshot: Snapshot, made: Feature, piece: Piece) -> Ref | None:
    """Give the machine an operation was done on, for one piece.

    What is said of the piece counts before what is planned for all, where that machine
    does the operation: a base folded elsewhere says nothing of the folder.
    """
    told = snapshot.find(piece.machine, Machine)
    if told is None or made.machine is None:
        return made.machine or piece.machine
    process = figure_key(made.process, None).process
    same = figure_key(told.process, None).process == process
    return told.ref if same or does(told, f"{made.process} {process}") else made.machine


def _off(snapshot: Snapshot, what: Characteristic, piece: Piece) -> float | None:
    """Give how far a piece was measured off what its revision draws."""
    read, _problems = measured(snapshot, piece, what)
    if read is None:
        return None
    nominal = nominal_as(snapshot, snapshot.find(piece.revision, Revision), what)
    drawn = _millimetres(nominal) if nominal else None
    if drawn is None:
        return None
    return math.fsum([place.value for place in read.places]) / len(read.places) - drawn


def _before_setting(
    snapshot: Snapshot, machine: Ref | None, piece: Piece, builder: str
) -> bool:
    """Tell whether a piece was made before its machine was set anew in its shop."""
    found = snapshot.find(machine, Machine)
    since = set_anew(found, builder) if found else None
    return since is not None and piece.when < since


def set_anew(machine: Machine, builder: str) -> datetime | None:
    """Give when a machine was set anew, as far as that tells of a builder's shop."""
    by = same_builder(machine.set_anew_by)
    return machine.set_anew if by in {"", same_builder(builder)} else None


def _of_their_own(snapshot: Snapshot, what: Characteristic) -> set[str]:
    """Give the pieces said to be off in a dimension by their drawing or themselves."""
    found: set[str] = set()
    for entry in snapshot.mentions(what, Deviation):
        told = entry.met_by_others in {Blame.DRAWING, Blame.PIECE}
        if told and snapshot.find(entry.characteristic) is what:
            of = map(snapshot.find, (entry.piece, *entry.about))
            found.update(one.id for one in of if one is not None)
    return found


def _millimetres(size: Quantity) -> float | None:
    try:
        return float(size.to("mm"))
    except BadInput:
        return None


class Figures:
    """The shop's figures; only those whose samples changed are summed again."""

    def __init__(self) -> None:
        """Begin with nothing on record."""
        self.shops: dict[FigureKey, Shop] = {}
        self._samples: dict[str, tuple[Sample, ...]] = {}
        self._groups: dict[FigureKey, set[str]] = {}

    def fold(self, fresh: Mapping[str, tuple[Sample, ...]]) -> set[FigureKey]:
        """Take in the samples of some dimensions; give the keys of what changed."""
        stale: set[FigureKey] = set()
        for what, samples_ in fresh.items():
            before = self._samples.get(what, ())
            if before == samples_:
                continue
            old, new = _keys(before), _keys(samples_)
            for key in old - new:
                self._groups[key].discard(what)
            for key in new:
                self._groups.setdefault(key, set()).add(what)
            self._samples[what] = samples_
            stale |= old | new
        for key in stale:
            self._sum(key)
        return stale

    def _sum(self, key: FigureKey) -> None:
        every = (one for what in self._groups[key] for one in self._samples[what])
        found = [one for one in every if key in one.keys]
        if found:
            found.sort(key=lambda one: (one.piece.when, one.piece.id, one.what.id))
            self.shops[key] = _summed(key, found)
        else:
            self.shops.pop(key, None)


def _keys(found: Sequence[Sample]) -> set[FigureKey]:
    return {key for sample in found for key in sample.keys}


def _summed(key: FigureKey, group: list[Sample]) -> Shop:
    known = usual_of(key.process)
    count = sum(sample.operations for sample in group)
    mean = math.fsum(sample.off for sample in group) / count
    freedom = len(group) - 1
    squares = math.fsum(
        (s.off - s.operations * mean) ** 2 / s.operations for s in group
    )
    spread = math.sqrt(squares / freedom) if freedom else 0.0
    offset, sd = mean, spread
    if known is not None:
        prior = PRIOR * known.sd**2
        sd = math.sqrt((prior + freedom * spread**2) / (PRIOR + freedom))
        weight = known.sd**2 / (known.sd**2 + sd**2 / count)
        offset = weight * mean + (1 - weight) * known.offset
    error = sd / math.sqrt(count)
    return Shop(
        key.process, key.machine, group[-1].builder, count, mean, spread, offset, sd,
        error, known, tuple(group),
    )  # fmt: skip
