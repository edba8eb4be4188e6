"""Drawn sizes that all readings of them are ten or a hundred times off.

One reading may be a slip; where every one says the same, and somebody said that it is
so or there are several, it is the drawn size that was written down wrong.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from logbook.counting import first_few
from logbook.quantity import Quantity, quantity
from logbook.records.kinds.design import Characteristic, Revision
from logbook.records.kinds.happenings import Reading, Run
from logbook.records.sizes.definition import Dimension, definition
from logbook.records.sizes.slips import NEAR_FREE
from logbook.records.together.references import refers
from logbook.records.together.snapshot import Snapshot

_TIMES = {
    Fraction(10): "ten times", Fraction(100): "a hundred times",
    Fraction(1, 10): "a tenth of", Fraction(1, 100): "a hundredth of",
}  # fmt: skip
_SHOWN = 3


def drawn_in_doubt(snapshot: Snapshot, revisions: Iterable[Revision]) -> Iterator[str]:
    """Name the drawn sizes of these revisions that no reading comes near."""
    for revision in revisions:
        for drawn in definition(snapshot, revision):
            if drawn.nominal is not None and not drawn.to_suit:
                yield from _doubted(snapshot, revision, drawn, drawn.nominal)


def _doubted(
    snapshot: Snapshot, revision: Revision, drawn: Dimension, size: Quantity
) -> Iterator[str]:
    read = list(_readings(snapshot, drawn.characteristic))
    values = [one.value for one in read if isinstance(one.value, Quantity)]
    sure = len(values) > 1 or any(one.confirmed for one in read)
    for times, words in _TIMES.items() if sure else ():
        if all(_is_near(value, size, times) for value in values):
            meant = quantity(size.value * times, size.unit)
            shown = first_few([str(value) for value in values], _SHOWN)
            yield (
                f"{revision.title}: {drawn.name} is drawn {size}, and all that was "
                f"read of it is about {words} that: {shown}; if {meant} is "
                f"drawn, say so with: {_said_with(snapshot, revision, drawn, meant)}"
            )


def _readings(snapshot: Snapshot, item: Characteristic) -> Iterator[Reading]:
    for run in snapshot.mentions(item, Run):
        yield from (one for one in run.readings if refers(snapshot, one.what, item))


def _is_near(value: Quantity, size: Quantity, times: Fraction) -> bool:
    if value.metal or size.metal or value.dimension != size.dimension:
        return False
    wanted = size.to(value.unit) * times
    return bool(wanted) and abs(value.value - wanted) <= abs(wanted) * NEAR_FREE


def _said_with(
    snapshot: Snapshot, revision: Revision, drawn: Dimension, meant: Quantity
) -> str:
    """Give the line that puts the size right where it stands: of part or revision."""
    changed = any(
        snapshot.find(one.characteristic) is drawn.characteristic
        for one in revision.changes
    )
    verb = "revise" if changed else "part"
    limits = ", its limits behind it" if drawn.has_limits else ""
    name = revision.part.name
    return f'logbook {verb} "{name}" --dimension "{drawn.name}={meant}"{limits}'
