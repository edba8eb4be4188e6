"""The shop's own figures: what a process here does to a size, by its own pieces.

Offset and scatter per operation (per bend, per cut), for each process and
machine. From five operations on they count, drawn toward the process default
while few. They say what to set at the machine next time; a published file or
nominal never changes by them. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction
from functools import lru_cache

from logbook.advice.advice import Advice
from logbook.advice.drawn import drawn_as
from logbook.advice.readings import measured
from logbook.errors import BadInput
from logbook.quantity import Quantity
from logbook.records.ids import Ref
from logbook.records.model import (
    Characteristic,
    Deviation,
    Feature,
    Fit,
    Machine,
    Part,
    Piece,
    Revision,
)
from logbook.records.snapshot import Snapshot
from logbook.records.state import pieces_of
from logbook.records.words import Blame, Grade, Source
from logbook.shop.answers import Result
from logbook.shop.process import process_rows
from logbook.shop.statistics import grubbs, mean_interval, student
from logbook.shop.tables import Row

FEWEST = 5
"""Operations on record from which the shop's own figures count."""
RECENT = 100
"""Newest pieces of a process that are looked at for drift and for outliers."""
PRIOR = 4
"""Degrees of freedom that the process default is worth; common practice, no source."""

_EACH = {
    "bend line position": "bend", "bend position": "bend", "length": "cut",
    "hole position": "hole",
}  # fmt: skip
"""What one operation of a process is called, by the feature it makes."""

_PROCESSES = (
    ("laser", "laser cutting, thin sheet", "size"),
    ("line bend", "line bending of acrylic", "bend position"),
    ("fold", "hand folding", "bend line position"),
    ("bend", "hand folding", "bend line position"),
    ("brak", "hand folding", "bend line position"),
    ("saw", "hacksaw and file", "length"),
    ("fil", "hacksaw and file", "length"),
    ("cut", "hacksaw and file", "length"),
    ("pillar", "pillar drilling", "hole position"),
    ("drill", "hand drilling", "hole position"),
    ("resin", "resin printing", "size"),
    ("print", "filament printing", "outside size"),
)


@dataclass(frozen=True, slots=True)
class Usual:
    """What a process usually does to a size: its published default, or a guess."""

    process: str
    offset: float
    scatter: float
    source: str

    @property
    def sd(self) -> float:
        """Standard deviation; the scatter is ± about 95 %."""
        return self.scatter / 2


@dataclass(frozen=True, slots=True)
class Sample:
    """How far a made size is off its nominal, over so many operations.

    `when` is the instant its piece was put on record.
    """

    process: str
    machine: str
    off: float
    count: int
    piece: Ref
    what: Ref
    blamed: bool
    when: datetime


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


@lru_cache(maxsize=1024)
def usual(word: str) -> Usual | None:
    """Give the default of a process as a bench calls it, None where none is known."""
    plain = word.lower()
    wanted = next(((p, f) for key, p, f in _PROCESSES if key in plain), (word, ""))
    try:
        row = process_rows(*wanted)[0]
    except BadInput:
        return None
    if row.text("unit") != "mm":
        return None
    return _usual(row)


def _usual(row: Row) -> Usual:
    high, feature = row.number("scatter_high"), row.text("feature")
    return Usual(f"{row.label}, {feature}", row.number("offset"), high, row.source)


def figure_key(process: str, machine: Ref | None) -> str:
    """Give the key of the figures of a process on a machine."""
    found = usual(process)
    return (
        f"{found.process if found else process.lower()}|{machine.id if machine else ''}"
    )


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
    said to be a thing of its own.
    """
    made = features(snapshot, what)
    part = snapshot.find(what.part, Part)
    if len(made) != 1 or part is None or part.source is Source.BOUGHT:
        return ()
    mentions = snapshot.mentions(what)
    if any(isinstance(m, Fit) and snapshot.find(m.made_last) is what for m in mentions):
        return ()
    found = (_sample(snapshot, what, made[0], p) for p in pieces_of(snapshot, part))
    return tuple(sample for sample in found if sample is not None)


def _sample(
    snapshot: Snapshot, what: Characteristic, made: Feature, piece: Piece
) -> Sample | None:
    drawn = drawn_as(snapshot, snapshot.find(piece.revision, Revision), what)
    read, _problems = measured(snapshot, piece, what)
    blames = {
        record.met_by_others
        for record in snapshot.mentions(piece)
        if isinstance(record, Deviation)
        and snapshot.find(record.characteristic) is what
    }
    if read is None or drawn.nominal is None or blames & {Blame.DRAWING, Blame.PIECE}:
        return None
    nominal = _millimetres(drawn.nominal)
    if nominal is None:
        return None
    middle = math.fsum(place.value for place in read.places) / len(read.places)
    machine = made.machine or piece.machine
    return Sample(
        figure_key(made.process, machine),
        machine.id if machine else "",
        middle - nominal,
        max(1, made.count),
        piece.ref,
        what.ref,
        Blame.MACHINE in blames,
        piece.when,
    )


def _millimetres(size: Quantity) -> float | None:
    try:
        return float(size.to("mm"))
    except BadInput:
        return None


def shop_figures(found: Sequence[Sample]) -> dict[str, Shop]:
    """Sum samples up, by process and machine, and by process over all machines."""
    groups: dict[str, list[Sample]] = {}
    for sample in sorted(found, key=lambda one: (one.when, one.piece.id, one.what.id)):
        process = sample.process.partition("|")[0]
        for key in dict.fromkeys((sample.process, f"{process}|")):
            groups.setdefault(key, []).append(sample)
    return {key: _summed(key, group) for key, group in groups.items()}


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


def usual_of(process: str) -> Usual | None:
    """Give the default that a process and feature name, as a figure is called."""
    name, _, feature = process.rpartition(", ")
    try:
        row = process_rows(name or process, feature if name else "")[0]
    except BadInput:
        return None
    return _usual(row) if row.text("unit") == "mm" else None


# -- said ------------------------------------------------------------------------


def figure_advice(snapshot: Snapshot, figures: Mapping[str, Shop]) -> Iterator[Advice]:
    """Say what each process does here and what to set next time."""
    alone = {len(shop.samples): key for key, shop in figures.items() if shop.machine}
    for key in sorted(figures):
        shop = figures[key]
        one = alone.get(len(shop.samples), "")
        if shop.machine or not one.startswith(key):
            yield _advice(snapshot, key, shop)


def _advice(snapshot: Snapshot, key: str, shop: Shop) -> Advice:
    machine = snapshot.find(Ref("", shop.machine), Machine) if shop.machine else None
    where = f"{shop.process}{f' on the {machine.title}' if machine else ''}"
    many = f"{shop.count} {shop.each}{'s' if shop.count > 1 else ''} on record"
    said = f"{where}: {shop.mean:+.2f} mm at each {shop.each}, {many}"
    if shop.counts:
        said += f"; set {-shop.mean:+.2f} mm at the machine next time"
    else:
        said += f", too few to go by; from {FEWEST} on it counts"
    return Advice(
        key=f"figure {key}",
        topic="figures",
        grade=Grade.REMARK,
        about=machine.ref if machine else shop.samples[0].what,
        statement=said,
        numbers=tuple(_numbers(shop)),
        inputs=tuple(dict.fromkeys(s.piece for s in shop.samples)),
        formula="offset = Σ off / Σ operations; scatter² and offset drawn toward the "
        f"default, which is worth {PRIOR} degrees of freedom",
        sources=(shop.usual.source,) if shop.usual else (),
        assumed=tuple(_said_of(shop)),
        changes=("another piece of that process, measured",),
    )


def _numbers(shop: Shop) -> Iterator[Result]:
    yield Result("offset", shop.mean, "mm", 2, f"at each {shop.each}, as found")
    yield Result("operations", shop.count, "", 0, f"{shop.each}s on record")
    if len(shop.samples) > 1:
        yield Result("scatter", 2 * shop.spread, "mm", 2, "±, about 95 %, as found")
        low, high = mean_interval(shop.mean, shop.spread, len(shop.samples))
        yield Result("offset_low", low, "mm", 2, "95 % interval of the offset")
        yield Result("offset_high", high, "mm", 2, "95 % interval of the offset")
    yield Result("used_offset", shop.offset, "mm", 2, "drawn toward the default")
    yield Result("used_scatter", 2 * shop.sd, "mm", 2, "±, drawn toward the default")


def _said_of(shop: Shop) -> Iterator[str]:
    yield "found as the machine was set; it never changes a published file or nominal"
    each = [sample.off / sample.count for sample in shop.samples[-RECENT:]]
    trend = _trend(each)
    if trend:
        yield trend
    if len(each) >= FEWEST and max(each) > min(each):
        outlier = grubbs([Fraction(repr(one)) for one in each])
        if outlier.stands_apart:
            yield f"{float(outlier.reading):+.2f} mm stands apart (Grubbs, 5 %)"


def _trend(each: Sequence[float]) -> str:
    """Say whether the offset drifts from piece to piece (slope, t-test at 95 %)."""
    count = len(each)
    if count < FEWEST:
        return ""
    middle, mean = (count - 1) / 2, math.fsum(each) / count
    across = math.fsum((n - middle) ** 2 for n in range(count))
    slope = math.fsum((n - middle) * y for n, y in enumerate(each)) / across
    left = math.fsum((y - mean - slope * (n - middle)) ** 2 for n, y in enumerate(each))
    error = math.sqrt(left / (count - 2) / across)
    if abs(slope) <= student(count - 2, 0.95) * error or not slope:
        return ""
    return f"it drifts by {slope:+.3f} mm from piece to piece"
