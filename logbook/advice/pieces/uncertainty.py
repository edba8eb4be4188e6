"""How far a reading can be trusted: what is known of the instrument, else assumed.

Standard uncertainties in mm. The share that changes from reading to reading,
taken as the resolution, averages out over repeats; the rest of U does not.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial

from logbook.advice.ground.refusing import refused
from logbook.advice.ground.register import remembered
from logbook.errors import BadInput, Problem
from logbook.quantity import Absent, Quantity, quantity
from logbook.records.kinds.happenings import Reading, Run
from logbook.records.kinds.workshop import Instrument
from logbook.records.sizes.definition import Dimension
from logbook.records.together.snapshot import Snapshot
from logbook.shop.measuring.instruments import caliper_error

UNSAID = "nobody said how well it was read: judged by the reading alone"
_RECTANGLE = math.sqrt(12)
FINE = 0.1
"""Readings in steps up to this (mm) are taken as a caliper's."""
_FINEST = Fraction(1, 64)
"""The finest division of an inch rule (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Uncertainty:
    """Standard uncertainty of one reading, in mm.

    `steady` stays the same from reading to reading, `random` averages out;
    `scale` is the half width of the scale error, which two readings of one
    instrument share; `said` names what it is from, `assumed` where nobody said with
    what it was read, or how well that reads.
    """

    steady: float
    random: float
    scale: float
    instrument: Instrument | None
    said: str
    assumed: bool = False

    @property
    def standard(self) -> float:
        """The standard uncertainty of a single reading, scale aside."""
        return math.hypot(self.steady, self.random)


class Uncertainties:
    """The uncertainties of readings, one after the other.

    What is on record of an instrument and is no length is a problem of the
    instrument; the reading then counts as if nothing were known of it.
    """

    def __init__(self, snapshot: Snapshot, problems: list[Problem]) -> None:
        """Begin; problems met are added to those given."""
        self._snapshot = snapshot
        self._problems = problems
        self._always: dict[str, Uncertainty] = {}

    def of(self, reading: Reading, run: Run, size: float) -> Uncertainty:
        """Give the uncertainty of a reading of `size` mm."""
        named = reading.instrument or run.instrument
        if named is not None and named.id in self._always:
            return self._always[named.id]
        held = self._snapshot.find(reading.instrument, Instrument)
        held = held or self._snapshot.find(run.instrument, Instrument)
        if held is None or held.uncertainty is None:
            return _assumed(held, _step(reading.value))
        try:
            found = _stated(self._snapshot, held, held.uncertainty, reading, size)
        except BadInput as refusal:
            self._problems.append(refused(self._snapshot, held, "instrument", refusal))
            return _assumed(None, _step(reading.value))
        if held.resolution and held.scale_error is None:
            self._always[held.id] = found
        return found


def assumed_of(each: Iterable[Uncertainty]) -> frozenset[str]:
    """Give what was assumed of instruments, where that is so of every reading."""
    every = tuple(each)
    assumed = all(one.assumed for one in every)
    return frozenset(one.said for one in every) if assumed else frozenset()


def reading_judged_by(
    snapshot: Snapshot, reading: Reading, run: Run, held: Dimension | None
) -> Quantity | None:
    """Give the expanded uncertainty that a reading is judged by; None of one unsaid."""
    tool = snapshot.find(reading.instrument or run.instrument, Instrument)
    return judged_by(tool, reading.value, held)


def judged_by(
    tool: Instrument | None, value: Quantity | Absent, held: Dimension | None
) -> Quantity | None:
    """Give the expanded uncertainty (k = 2) a value read with this is judged by.

    That of the instrument; where nobody said it, none: the reading alone decides. A
    critical length is judged with a guard band, for which a caliper is assumed; not
    what is made to suit, since its gap allows for it.
    """
    if tool is not None and tool.uncertainty is not None:
        return tool.uncertainty
    length = isinstance(value, Quantity) and value.dimension == "length"
    if held is None or not is_banded(held) or not length or not held.has_limits:
        return None
    standard = _assumed(tool, _step(value)).standard
    return quantity(Fraction(f"{2 * standard:.9f}"), "mm", Fraction(1, 1000))


def is_banded(held: Dimension) -> bool:
    """Tell whether a size is judged with a guard band, whatever it was read with."""
    return held.characteristic.critical and not held.to_suit


def _stated(
    snapshot: Snapshot, held: Instrument, told: Quantity, reading: Reading, size: float
) -> Uncertainty:
    step = 0.0 if held.resolution else _step(reading.value)
    topic = f"uncertainty at a step of {step!r}" if step else "uncertainty"
    found = remembered(snapshot, topic, (held,), partial(_shared, held, told, step))
    if held.scale_error is None:
        return found
    return replace(found, scale=_scale(held.scale_error, size))


def _shared(held: Instrument, told: Quantity, step: float) -> Uncertainty:
    """Give the steady and the random share of U, and how it is said."""
    whole = float(told.to("mm")) / 2
    fine = float(held.resolution.to("mm")) if held.resolution else step
    random = min(whole, fine / _RECTANGLE)
    steady = math.sqrt(max(0.0, whole**2 - random**2))
    said = (
        f"{held.title}, U {told} (expanded, k = 2: about 95 % of its "
        "readings are nearer than that)"
    )
    return Uncertainty(steady, random, 0.0, held, said)


def _step(value: Quantity | Absent) -> float:
    assert isinstance(value, Quantity)
    factor = value.to("mm") / value.value if value.value else Fraction(1)
    step = value.step
    if "/" in value.text:
        # A fraction is written reduced: 1/4 in was read on a rule of 64ths too.
        step = min(step, _FINEST)
    return float(step * factor)


def _scale(error: Quantity, size: float) -> float:
    if error.unit == "%":
        return abs(size) * float(error.value) / 100
    return float(error.to("mm"))


def _assumed(held: Instrument | None, step: float) -> Uncertainty:
    name = f"the {held.title}" if held else "no instrument named"
    random = step / _RECTANGLE
    if step > FINE or not step:
        return Uncertainty(random, random, 0.0, held, f"{name}: half a step", True)
    column = "digital 0.01" if step < 0.015 else "vernier 0.05"
    try:
        limit = caliper_error(300, column, outside=True)
    except BadInput:
        limit = step
    said = f"{name}: taken as a 300 mm caliper (DIN 862, ±{limit:g} mm)"
    return Uncertainty(limit / math.sqrt(3), random, 0.0, held, said, True)
