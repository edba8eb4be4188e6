"""The shop's own figures: what a process here does to a size, by its own pieces.

Offset and scatter per operation (per bend, per cut), for each process and
machine. From five operations on they count, drawn toward the process default
while few. They say what to set at the machine next time; a published file or
nominal never changes by them. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import partial

from logbook.advice.contours import contour_sign
from logbook.advice.drawn import drawn_as
from logbook.advice.readings import measured
from logbook.advice.register import remembered
from logbook.advice.usual import Usual, figure_key, usual_of
from logbook.errors import BadInput
from logbook.quantity import Quantity
from logbook.records.assembling import Fit
from logbook.records.design import Characteristic, Feature, Part, Revision
from logbook.records.happenings import Deviation
from logbook.records.ids import Ref
from logbook.records.pieces import pieces_of
from logbook.records.snapshot import Snapshot
from logbook.records.words import Blame, Source
from logbook.records.workshop import Machine, Piece

_EACH = {
    "bend line position": "bend", "bend position": "bend", "length": "cut",
    "hole position": "hole",
}  # fmt: skip
"""What one operation of a process is called, by the feature it makes."""

FEWEST = 5
"""Operations on record from which the shop's own figures count."""
PRIOR = 4
"""Degrees of freedom that the process default is worth; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Sample:
    """How far a made size is off its nominal, over so many operations.

    Of a cut along a contour it is the kerf: an outside that is smaller counts as +.
    `when` is the instant its piece was put on record.
    """

    process: str
    machine: str
    off: float
    count: int
    piece: Ref
    what: Ref
    when: datetime

    @property
    def keys(self) -> tuple[str, str]:
        """The figures it counts for: of its machine, and of all machines."""
        return self.process, f"{self.process.partition('|')[0]}|"


@dataclass(frozen=True, slots=True)
class Shop:
    """What one process of this shop does, per operation.

    `offset` and `sd` are drawn toward the default; `mean` and `spread` are as
    found. `error` is the standard error of the offset.
    """

    process: str
    machine: str
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
    pieces = remembered(snapshot, "pieces", (part,), partial(pieces_of, snapshot, part))
    found = (_sample(snapshot, what, made[0], piece) for piece in pieces)
    return tuple(sample for sample in found if sample is not None)


def _sample(
    snapshot: Snapshot, what: Characteristic, made: Feature, piece: Piece
) -> Sample | None:
    drawn = drawn_as(snapshot, snapshot.find(piece.revision, Revision), what)
    read, _problems = measured(snapshot, piece, what)
    blames = _blames(snapshot, piece).get(what.id, set())
    if read is None or drawn.nominal is None or blames & {Blame.DRAWING, Blame.PIECE}:
        return None
    nominal = _millimetres(drawn.nominal)
    sign = contour_sign(made.process, what)
    if nominal is None or not sign:
        return None
    middle = math.fsum(place.value for place in read.places) / len(read.places)
    machine = made.machine or piece.machine
    if _before_setting(snapshot, machine, piece):
        return None
    return Sample(
        figure_key(made.process, machine),
        machine.id if machine else "",
        sign * (middle - nominal),
        max(1, made.count),
        piece.ref,
        what.ref,
        piece.when,
    )


def _before_setting(snapshot: Snapshot, machine: Ref | None, piece: Piece) -> bool:
    """Tell whether a piece was made before its machine was set anew."""
    found = snapshot.find(machine, Machine)
    return found is not None and bool(found.set_anew and piece.when < found.set_anew)


def _blames(snapshot: Snapshot, piece: Piece) -> Mapping[str, set[Blame]]:
    """Give whose fact the deviations of a piece are, by the dimension's id."""

    def work() -> Mapping[str, set[Blame]]:
        found: dict[str, set[Blame]] = {}
        for record in snapshot.mentions(piece, Deviation):
            what = snapshot.find(record.characteristic)
            if what is not None:
                found.setdefault(what.id, set()).add(record.met_by_others)
        return found

    return remembered(snapshot, "blames", (piece,), work)


def _millimetres(size: Quantity) -> float | None:
    try:
        return float(size.to("mm"))
    except BadInput:
        return None


class Figures:
    """The shop's figures; only those whose samples changed are summed again."""

    def __init__(self) -> None:
        """Begin with nothing on record."""
        self.shops: dict[str, Shop] = {}
        self._samples: dict[str, tuple[Sample, ...]] = {}
        self._groups: dict[str, set[str]] = {}

    def fold(self, fresh: Mapping[str, tuple[Sample, ...]]) -> set[str]:
        """Take in the samples of some dimensions; give the keys of what changed."""
        stale: set[str] = set()
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

    def _sum(self, key: str) -> None:
        every = (one for what in self._groups[key] for one in self._samples[what])
        found = [one for one in every if key in one.keys]
        if found:
            found.sort(key=lambda one: (one.when, one.piece.id, one.what.id))
            self.shops[key] = _summed(key, found)
        else:
            self.shops.pop(key, None)


def _keys(found: Sequence[Sample]) -> set[str]:
    return {key for sample in found for key in sample.keys}


def _summed(key: str, group: list[Sample]) -> Shop:
    process, _, machine = key.partition("|")
    known = usual_of(process)
    count = sum(sample.count for sample in group)
    mean = math.fsum(sample.off for sample in group) / count
    freedom = len(group) - 1
    squares = math.fsum((s.off - s.count * mean) ** 2 / s.count for s in group)
    spread = math.sqrt(squares / freedom) if freedom else 0.0
    offset, sd = mean, spread
    if known is not None:
        prior = PRIOR * known.sd**2
        sd = math.sqrt((prior + freedom * spread**2) / (PRIOR + freedom))
        weight = known.sd**2 / (known.sd**2 + sd**2 / count)
        offset = weight * mean + (1 - weight) * known.offset
    error = sd / math.sqrt(count)
    return Shop(
        process, machine, count, mean, spread, offset, sd, error, known, tuple(group)
    )
