"""What a value of a size is expected to be like, and what it cannot be.

The one home for both questions. `must_suit` refuses what can be no value of a size:
one of another kind, or below nothing. `slip_of` doubts a value that is a slip of the
hand away from the size: its decimal mark moved, its first figure missing, inches
typed for millimetres; or so far from what is drawn that nothing can be told of what
was meant. A slip is only asked about, never put right unasked, and never where a part
that really came out so would read the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from logbook.errors import BadInput
from logbook.quantity import Absent, Quantity, quantity
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import Deviation, Reading, Run
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Blame
from logbook.records.sizes.definition import Dimension
from logbook.records.together.references import refers
from logbook.records.together.snapshot import Snapshot

NEAR_LIMITS = Fraction(3, 100)
"""So near to the drawn size, as a share of it, comes what was meant; a value may be
off by as much as its limits are apart as well. Common practice, no source."""
NEAR_FREE = Fraction(1, 10)
"""The same where no limits are known."""
NO_WORK = 5
"""Times as far as its limits are apart no work is off that was meant for them.
Common practice, no source."""
SMALLEST = Fraction(1)
"""Below this (mm) what was only read before may really be ten times as much."""
INCH = Fraction(254, 10)
FAR_MM = Fraction(5)
"""Less than half of what is drawn or more than twice as much is far from it, where it
is off by more than this. Common practice, no source."""

_BELOW_NOTHING = frozenset({"length", "mass", "time", "area", "volume"})
"""Kinds that no made thing has less than nothing of."""
_TIMES = {
    Fraction(10): "ten times", Fraction(1, 10): "a tenth of",
    Fraction(100): "a hundred times", Fraction(1, 100): "a hundredth of",
    Fraction(1000): "a thousand times", Fraction(1, 1000): "a thousandth of",
}  # fmt: skip


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
    for reading in _readings(snapshot, item):
        if isinstance(reading.value, Quantity) and not reading.value.metal:
            yield reading.value


def _readings(snapshot: Snapshot, item: Characteristic) -> Iterator[Reading]:
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


# -- what it cannot be -----------------------------------------------------------


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
    return size.dimension in _BELOW_NOTHING


def a_kind(dimension: str) -> str:
    """Give the name of a kind with its article: a length, an angle."""
    return f"{'an' if dimension[:1] in 'aeiou' else 'a'} {dimension}"


# -- what looks like a slip ------------------------------------------------------


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
    if not value.value or not wanted or _may_be(value, wanted, expected):
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
    if in_mm and abs(typed * INCH - wanted) <= room:
        meant = quantity(typed, "in", value.step)
        yield Slip(value, meant, f"in inches would be {shown}")
    if value.unit == "in" and abs(typed / INCH - wanted) <= room:
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


# -- what is on record -----------------------------------------------------------


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
    sure = [one.value for one in _readings(snapshot, item) if one.confirmed]
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
