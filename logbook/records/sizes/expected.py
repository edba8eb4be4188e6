"""What a value of a size is expected to be like, and what it cannot be.

`must_suit` refuses what can be no value of a size: one of another kind, or below
nothing. What may be a slip of the hand is seen in `slips`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from logbook.errors import BadInput
from logbook.quantity import Absent, Quantity, quantity
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import Reading, Run
from logbook.records.sizes.definition import Dimension
from logbook.records.together.references import refers
from logbook.records.together.snapshot import Snapshot

SMALLEST = Fraction(1)
"""Below this (mm) what was only read before may really be ten times as much."""
BELOW_NOTHING = frozenset({"length", "mass", "time", "area", "volume"})
"""Kinds that no made thing has less than nothing of."""


@dataclass(frozen=True, slots=True)
class Expected:
    """What is known of a size before it is read.

    `size` shows its kind, and how big it is; `drawn` tells that the drawing gives it,
    else it was only read before. `lower` and `upper` are the limits it is held to.
    Where `sizeable` is False nothing is known but its kind.
    """

    name: str
    size: Quantity
    drawn: bool = True
    lower: Quantity | None = None
    upper: Quantity | None = None
    sizeable: bool = True

    def near(self, values: Iterable[Quantity | Absent]) -> bool:
        """Tell whether all values are within a quarter of the size, in its unit.

        Then none is a misfit or a slip, whatever else is known. In whole numbers, which
        are cheaper than fractions: nearly all readings end here.
        """
        unit = self.size.unit
        meant, parts = self.size.value.as_integer_ratio()
        room = abs(meant)
        for value in values:
            if isinstance(value, Absent) or value.unit != unit:
                return False
            top, bottom = value.value.as_integer_ratio()
            if 4 * abs(top * parts - meant * bottom) > room * bottom:
                return False
        return True

    @property
    def said(self) -> str:
        """Say where the size is from: is drawn 180 mm, was read 180.2 mm before."""
        return f"is drawn {self.size}" if self.drawn else f"was read {self.size} before"


def expected_of(snapshot: Snapshot, drawn: Dimension) -> Expected | None:
    """Give what a size is expected to be: as drawn, else as it was read before.

    None where it was neither drawn nor read.
    """
    item = drawn.characteristic
    low, high = drawn.lower, drawn.upper
    size = drawn.nominal or (item.nominal if drawn.to_suit else None)
    if size is not None:
        return Expected(drawn.name, size, lower=low, upper=high)
    if low is not None and high is not None and low.dimension == high.dimension:
        middle = quantity((low.to(high.unit) + high.value) / 2, high.unit)
        return Expected(drawn.name, middle, lower=low, upper=high)
    limit = low or high
    if limit is not None:
        return Expected(drawn.name, limit, lower=low, upper=high, sizeable=False)
    return _as_read(drawn.name, [*read_before(snapshot, item)])


def read_before(snapshot: Snapshot, item: Characteristic) -> Iterator[Quantity]:
    """Give what a size was read as, on any piece, oldest first."""
    for reading in readings_of_size(snapshot, item):
        if isinstance(reading.value, Quantity) and not reading.value.metal:
            yield reading.value


def readings_of_size(snapshot: Snapshot, item: Characteristic) -> Iterator[Reading]:
    """Give the readings of a size, on any piece, oldest first."""
    for run in snapshot.mentions(item, Run):
        for reading in run.readings:
            if refers(snapshot, reading.what, item):
                yield reading


def _as_read(name: str, values: list[Quantity]) -> Expected | None:
    """Give the middle one of the readings of that kind of which there are most."""
    kinds = [one.dimension for one in values]
    if not kinds:
        return None
    kind = max(dict.fromkeys(kinds), key=kinds.count)
    alike = [one for one in values if one.dimension == kind]
    unit = alike[0].unit
    alike.sort(key=lambda one: one.to(unit))
    least, middle, most = alike[0], alike[(len(alike) - 1) // 2], alike[-1]
    steady = 0 < most.to(unit) <= 2 * least.to(unit)
    several = len(alike) > 1  # what one reading says of heat or current is no size
    sure = least.to("mm") >= SMALLEST if kind == "length" else several
    return Expected(name, middle, drawn=False, sizeable=steady and sure)


def must_suit(value: Quantity | Absent, expected: Expected | None) -> None:
    """Refuse a value that cannot be of this size.

    Raises:
        BadInput: it measures something else, or is negative where none can be.
    """
    refusal = misfit(value, expected)
    if refusal is not None:
        found, accepted = refusal
        raise BadInput(f"{found}; accepted: {accepted}")


def misfit(
    value: Quantity | Absent, expected: Expected | None
) -> tuple[str, str] | None:
    """Say why a value cannot be of this size, and what can; None where it can be."""
    if expected is None or isinstance(value, Absent) or expected.size.metal:
        return None
    size = expected.size
    if value.dimension != size.dimension:
        found = f"“{value}” is {a_kind(value.dimension)}; {expected.name} "
        return found + expected.said, a_kind(size.dimension)
    if value.value < 0 < size.value and expected.drawn and _never_negative(size):
        found = f"“{value}” is negative; {expected.name} {expected.said}"
        return found, "a number above 0"
    return None


def _never_negative(size: Quantity) -> bool:
    return size.dimension in BELOW_NOTHING


def a_kind(dimension: str) -> str:
    """Give the name of a kind with its article: a length, an angle."""
    return f"{'an' if dimension[:1] in 'aeiou' else 'a'} {dimension}"
