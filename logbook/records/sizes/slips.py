"""Values that look like a slip of the hand: what was meant, and what is so after all.

A slip is a value that would be what is expected with its decimal mark moved, its first
figure there, in inches instead of millimetres; or so far from what is drawn, as 0 is
from any length, that nothing can be told of what was meant. It is only asked about,
never put right unasked, and never where a part that really came out so would read the
same.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from logbook.quantity import Absent, Quantity, quantity
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import Deviation, Reading
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Blame
from logbook.records.sizes.definition import Dimension
from logbook.records.sizes.expected import (
    BELOW_NOTHING,
    Expected,
    expected_of,
    readings_of_size,
)
from logbook.records.together.snapshot import Snapshot
from logbook.units import INCH_MM

NEAR_LIMITS = Fraction(3, 100)
"""So near to the drawn size, as a share of it, comes what was meant; a value may be
off by as much as its limits are apart as well. Common practice, no source."""
NEAR_FREE = Fraction(1, 10)
"""The same where no limits are known."""
NO_WORK = 5
"""Times as far as its limits are apart no work is off that was meant for them.
Common practice, no source."""
FAR_MM = Fraction(5)
"""Less than half of what is drawn or more than twice as much is far from it, where it
is off by more than this. Common practice, no source."""

_TIMES = {
    Fraction(10): "ten times", Fraction(1, 10): "a tenth of",
    Fraction(100): "a hundred times", Fraction(1, 100): "a hundredth of",
    Fraction(1000): "a thousand times", Fraction(1, 1000): "a thousandth of",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Slip:
    """A value that is a slip away from what is expected, and what was meant.

    Nothing is known of that where the value is only far from what is drawn.
    """

    value: Quantity
    meant: Quantity | None
    why: str

    @property
    def question(self) -> str:
        """Ask whether the other was meant, or whether it is so."""
        return f"“{self.value}” {self.why}: {self.meant or 'is it so'}?"


def slip_of(value: Quantity | Absent, expected: Expected | None) -> Slip | None:
    """Give the slip a value looks like; None where it may well be so.

    What is within its limits, or off them by what work can be off, is no slip.
    """
    if expected is None or not expected.sizeable or isinstance(value, Absent):
        return None
    size = expected.size
    if value.metal or size.metal or value.dimension != size.dimension:
        return None
    wanted = size.to(value.unit)
    if not wanted or _may_be(value, wanted, expected):
        return None
    return next(_slips(value, wanted, expected), None)


def _may_be(value: Quantity, wanted: Fraction, expected: Expected) -> bool:
    """Tell whether work can come out so."""
    off = abs(value.value - wanted)
    if 4 * off <= abs(wanted):
        return True
    low, high = _limit(expected.lower, value), _limit(expected.upper, value)
    if low is None or high is None:
        return False
    return low <= value.value <= high or off <= NO_WORK * (high - low)


def _limit(limit: Quantity | None, value: Quantity) -> Fraction | None:
    same = limit is not None and limit.dimension == value.dimension
    return limit.to(value.unit) if limit is not None and same else None


def _slips(value: Quantity, wanted: Fraction, expected: Expected) -> Iterator[Slip]:
    low, high = _limit(expected.lower, value), _limit(expected.upper, value)
    close = abs(wanted) * NEAR_LIMITS
    room = abs(wanted) * NEAR_FREE
    if low is not None and high is not None:
        room = max(close, high - low)
    before = "what is drawn" if expected.drawn else "what was read before"
    shown = f"{before}, {expected.size}"
    if not value.value:
        if value.dimension in BELOW_NOTHING:
            yield Slip(value, None, f"is nothing at all beside {shown}")
        return
    if not expected.drawn and value.value < 0 and abs(value.value + wanted) <= room:
        yield Slip(value, -value, f"is negative, where {expected.size} was read before")
    for times, words in _TIMES.items():
        if abs(value.value / times - wanted) <= room:
            meant = quantity(value.value / times, value.unit, value.step / times)
            yield Slip(value, meant, f"is {words} {shown}")
    if value.dimension == "length":
        yield from _inches(value, wanted, close, shown)
        yield from _first_lost(value, wanted, close, shown)
        if expected.drawn and _is_far(value, wanted):
            yield Slip(value, None, f"is far from {shown}")


def _inches(
    value: Quantity, wanted: Fraction, room: Fraction, shown: str
) -> Iterator[Slip]:
    """See inches typed where millimetres are meant, and the other way round."""
    typed, in_mm = value.value, value.unit == "mm"
    if in_mm and abs(typed * INCH_MM - wanted) <= room:
        meant = quantity(typed, "in", value.step)
        yield Slip(value, meant, f"in inches would be {shown}")
    if value.unit == "in" and abs(typed / INCH_MM - wanted) <= room:
        meant = quantity(typed, "mm", value.step)
        yield Slip(value, meant, f"in millimetres would be {shown}")


def _first_lost(
    value: Quantity, wanted: Fraction, room: Fraction, shown: str
) -> Iterator[Slip]:
    """See the first figure missing: 78.55 where 178.55 was meant."""
    figures = value.value / value.step if value.step else 0
    if value.value < 1 or figures < 10:
        return
    place = 10 ** len(str(int(value.value)))
    for figure in range(1, 10):
        meant = value.value + figure * place
        if abs(meant - wanted) <= room:
            full = quantity(meant, value.unit, value.step)
            yield Slip(value, full, f"is {shown}, without its first figure")


def _is_far(value: Quantity, wanted: Fraction) -> bool:
    """Tell whether a length is another than the one drawn, whatever was meant."""
    off = quantity(abs(value.value - wanted), value.unit).to("mm")
    less, more = sorted((abs(value.value), abs(wanted)))
    return off > FAR_MM and 2 * less < more


def doubt_of(
    snapshot: Snapshot, drawn: Dimension, value: Quantity | Absent
) -> Slip | None:
    """Give the slip a value of a size looks like; None where one like it was so."""
    slip = slip_of(value, expected_of(snapshot, drawn))
    what = drawn.characteristic.ref
    return slip if slip and not said_so(snapshot, what, slip.value) else None


def open_slip(
    snapshot: Snapshot, reading: Reading, expected: Expected | None
) -> Slip | None:
    """Give the slip a reading on record looks like, unless somebody said it is so."""
    slip = None if reading.confirmed else slip_of(reading.value, expected)
    return slip if slip and not said_so(snapshot, reading.what, slip.value) else None


def said_so(snapshot: Snapshot, what: Ref, value: Quantity) -> bool:
    """Tell whether a value like this was said to be so of a size before.

    A reading was confirmed, or a deviation with it was answered.
    """
    item = snapshot.find(what, Characteristic)
    if item is None:
        return False
    sure = [one.value for one in readings_of_size(snapshot, item) if one.confirmed]
    sure += [
        entry.found
        for entry in snapshot.mentions(item, Deviation)
        if entry.found is not None and entry.met_by_others is not Blame.UNKNOWN
    ]
    return any(isinstance(one, Quantity) and _alike(one, value) for one in sure)


def _alike(one: Quantity, value: Quantity) -> bool:
    if one.metal or one.dimension != value.dimension:
        return False
    return abs(one.to(value.unit) - value.value) <= abs(value.value) * NEAR_FREE
