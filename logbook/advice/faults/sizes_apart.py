"""Sizes that were read on pieces that failed and on others, and lie apart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.quantity import Quantity, quantity
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.workshop import Piece
from logbook.records.states.pieces import readings_of
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot


def read_apart(
    snapshot: Snapshot, failed: Sequence[Piece], sound: Sequence[Piece]
) -> Iterator[tuple[str, str, str]]:
    """Give the sizes that were read on both, where all of the one are beyond the other.

    The last reading at each place counts.
    """
    part = part_of(snapshot, failed[0])
    for item in snapshot.mentions(part, Characteristic) if part else ():
        if part_of(snapshot, item) is not part:
            continue
        one = [size for piece in failed for size in _read(snapshot, piece, item)]
        other = [size for piece in sound for size in _read(snapshot, piece, item)]
        alike = {size.dimension for size in (*one, *other)}
        if not one or not other or len(alike) > 1:
            continue
        unit = one[0].unit
        nearest = min(
            ((a, b) for a in one for b in other),
            key=lambda both: abs(both[0].to(unit) - both[1].to(unit)),
        )
        theirs, rest = ([size.to(unit) for size in sizes] for sizes in (one, other))
        beyond = max(theirs) < min(rest) or max(rest) < min(theirs)
        if beyond and sizes_apart(*nearest):
            yield item.title, _range(one, unit), _range(other, unit)


def sizes_apart(one: Quantity, other: Quantity) -> bool:
    """Tell whether two sizes are not the same as far as the finer one is told.

    124 °F is 51 °C and 1 5/32 in is 29.37 mm: each is told in steps of its own. In one
    unit every figure that was typed tells them apart.
    """
    if one.unit == other.unit:
        return one.value != other.value
    off = abs(one.to(other.unit) - other.value)
    step = quantity(one.value + one.step, one.unit).to(other.unit)
    return 2 * off > min(other.step, step - one.to(other.unit))


def _read(snapshot: Snapshot, piece: Piece, item: Characteristic) -> list[Quantity]:
    last = {
        t.reading.place: t.reading.value for t in readings_of(snapshot, piece, item)
    }
    known = (value for value in last.values() if isinstance(value, Quantity))
    return [value for value in known if not value.metal]


def _range(sizes: Sequence[Quantity], unit: str) -> str:
    least = min(sizes, key=lambda size: size.to(unit))
    most = max(sizes, key=lambda size: size.to(unit))
    return str(least) if least == most else f"{least} to {most}"
