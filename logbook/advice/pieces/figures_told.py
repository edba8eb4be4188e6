"""What is said of the shop's own figures, and what to set at the machine next time."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from functools import partial

from logbook.advice.ground.advice import Advice
from logbook.advice.ground.register import View
from logbook.advice.pieces.contours import is_contour
from logbook.advice.pieces.figures import FEWEST, PRIOR, Shop, set_anew
from logbook.advice.pieces.usual import FigureKey, figure_key
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Grade
from logbook.records.kinds.workshop import Machine
from logbook.records.together.whose_shop import NOT_ON_RECORD, several_shops
from logbook.shop.answers import Result
from logbook.shop.measuring.outliers import grubbs
from logbook.shop.measuring.statistics import mean_interval, student

RECENT = 100
"""Newest pieces of a process that are looked at for drift and for outliers."""


def figure_advice(view: View, figures: Mapping[FigureKey, Shop]) -> Iterator[Advice]:
    """Say what each process does in each shop and what to set next time.

    What all machines of a process do is said where it is not that of one alone, whose
    shop it is where several are on record.
    """
    alone = {
        (key.of_all_machines, len(shop.samples))
        for key, shop in figures.items()
        if shop.machine
    }
    for key, shop in sorted(figures.items()):
        if shop.machine or (key, len(shop.samples)) not in alone:
            yield view.remembered(f"figure {key}", (), partial(_advice, view, key))


def _advice(view: View, key: FigureKey) -> Advice:
    shop: Shop = view.figure(key)
    machine = view.find(Ref("", shop.machine), Machine) if shop.machine else None
    here = () if machine else _machines_here(view, key)
    where = f"{shop.process}{f' on the {machine.title}' if machine else ''}"
    if here:  # what stands in the table of defaults is no machine of this shop
        where = f"{here[0].process} ({', '.join(one.title for one in here)})"
    if several_shops(view):
        where += f" ({shop.builder or NOT_ON_RECORD})"
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
        about=machine.ref if machine else shop.samples[0].what.ref,
        statement=said,
        numbers=tuple(_numbers(shop)),
        inputs=tuple(dict.fromkeys(s.piece.ref for s in shop.samples)),
        formula="offset = Σ off / Σ operations; scatter² and offset drawn toward the "
        f"default, which is worth {PRIOR} degrees of freedom",
        sources=(shop.usual.source,) if shop.usual else (),
        assumed=(*_unsaid_machine(here, shop), *_since(machine, shop), *_said_of(shop)),
        changes=("another piece of that process, measured",),
    )


def _machines_here(view: View, key: FigureKey) -> tuple[Machine, ...]:
    """Give the machines on record that do a process, where no piece names its own."""
    if not key.process:
        return ()
    return tuple(
        one
        for one in view.all(Machine)
        if one.process and figure_key(one.process, None).process == key.process
    )


def _unsaid_machine(here: Sequence[Machine], shop: Shop) -> Iterator[str]:
    """Say that no piece names its machine, and toward whose default it is drawn."""
    if here:
        name = here[0].title
        yield f"nobody said on which machine; a line says it: … on the {name}"
    if here and shop.usual:
        yield f"the default is that of {shop.usual.process}"


def _since(machine: Machine | None, shop: Shop) -> Iterator[str]:
    """Say from when on the pieces count, where the machine was set anew."""
    if machine is not None and set_anew(machine, shop.builder):
        yield (
            f"only pieces since the {machine.title} was set anew on "
            f"{machine.set_anew:%Y-%m-%d}"
        )


def _numbers(shop: Shop) -> Iterator[Result]:
    yield Result("offset", shop.mean, "mm", 2, f"at each {shop.each}, as found")
    yield Result("operations", shop.count, "", 0, f"{shop.each}s on record")
    if len(shop.samples) > 1:
        yield Result(
            "scatter",
            2 * shop.spread,
            "mm",
            2,
            f"±, about 95 % of single {shop.each}s, as found",
        )
        low, high = mean_interval(shop.mean, shop.spread, len(shop.samples))
        yield Result("offset_low", low, "mm", 2, "95 % interval of the mean offset")
        yield Result("offset_high", high, "mm", 2, "95 % interval of the mean offset")
    yield Result("used_offset", shop.offset, "mm", 2, "drawn toward the default")
    yield Result("used_scatter", 2 * shop.sd, "mm", 2, _next_one(shop))


def _next_one(shop: Shop) -> str:
    """Say what the used scatter is of, and how it comes nearer to the found one."""
    said = f"±, about 95 % of single {shop.each}s to come, not of the mean"
    if shop.usual is None:
        return said
    have = PRIOR + max(0, len(shop.samples) - 1)
    return (
        f"{said}; drawn toward ±{2 * shop.usual.sd:.2f} mm of the default, which "
        f"still has {PRIOR} of {have} parts of the say"
    )


def _said_of(shop: Shop) -> Iterator[str]:
    yield "found as the machine was set; it never changes a published file or nominal"
    if is_contour(shop.process):
        yield "a kerf: + makes an opening larger and an outside smaller by as much"
    each = [sample.off / sample.operations for sample in shop.samples[-RECENT:]]
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
