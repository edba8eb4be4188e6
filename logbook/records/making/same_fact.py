"""What tells the same fact as a record that is amended: it is amended with it.

“opening 178.6 should be 180” is kept as a reading and as the deviation it led to, each
with the value and the words as typed. It was typed once; put right in one of them it is
put right in both, and in the words of both.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from logbook.quantity import Quantity
from logbook.records.kinds.happenings import Deviation, Order, Reading, Run
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Piece
from logbook.records.states.read_now import differs, put_right, reading_behind
from logbook.records.together.snapshot import Snapshot

Change = tuple[Record, Record]
"""A record as it is, and as it is to be."""


def with_the_same(
    snapshot: Snapshot, before: Record, after: Record
) -> tuple[Change, ...]:
    """Give the change of a record, then those of what tells the same value.

    Words that were amended themselves stay as they were typed.
    """
    if isinstance(before, Deviation) and isinstance(after, Deviation):
        others = tuple(_its_reading(snapshot, before, after))
        more = () if others else tuple(_its_line(snapshot, before, after))
        return (before, _retold(before, after)), *others, *more
    if isinstance(before, Run) and isinstance(after, Run):
        others = tuple(_its_deviations(snapshot, before, after))
        others = others or tuple(_retitled(snapshot, before, after))
        aside = [one for _, told in others for one in _beside(told)]
        changed = _values(after) if before.readings != after.readings else []
        title = put_right(after.title, changed, aside, _values(before))
        kept = after.title if after.title != before.title else title
        return (before, replace(after, title=kept)), *others
    if isinstance(before, Order) and isinstance(after, Order):
        return (before, after), *_bought_with_it(snapshot, before, after)
    return ((before, after),)


def _bought_with_it(
    snapshot: Snapshot, before: Order, after: Order
) -> Iterator[Change]:
    """Give the orders of the same line, which names what was bought in their titles."""
    told = _many(before), _many(after)
    for other in snapshot.all(Order):
        if other.id == before.id or other.when != before.when or not told[0]:
            continue
        title = other.title.replace(*told)
        if title != other.title:
            yield other, replace(other, title=title)


def _many(order: Order) -> str:
    return f"{order.quantity} {order.item}" if order.quantity > 1 else order.item


def _retold(before: Deviation, after: Deviation) -> Deviation:
    """Give a deviation with the value found in its words too."""
    if after.found is None or before.found == after.found:
        return after
    if after.title != before.title:
        return after
    was = [before.found] if before.found else []
    title = put_right(after.title, [after.found], _beside(after), was)
    return replace(after, title=title)


def _beside(record: Record) -> Iterator[Quantity]:
    """Give the other sizes that the words of a deviation tell."""
    if isinstance(record, Deviation):
        yield from filter(None, (record.wanted, record.off))


def _values(run: Run) -> list[Quantity]:
    return [one.value for one in run.readings if isinstance(one.value, Quantity)]


def _its_reading(
    snapshot: Snapshot, before: Deviation, after: Deviation
) -> Iterator[Change]:
    """Give the run a deviation was made from, with its reading as found now."""
    behind = reading_behind(snapshot, before)
    if behind is None or before.found is None or after.found is None:
        return
    run, reading = behind
    same = isinstance(reading.value, Quantity) and not differs(
        reading.value, before.found
    )
    if not same or not differs(before.found, after.found):
        return
    readings = tuple(
        replace(one, value=after.found) if one.id == reading.id else one
        for one in run.readings
    )
    new = replace(run, readings=readings)
    title = put_right(run.title, _values(new), _beside(after), _values(run))
    yield run, replace(new, title=title)


def _its_line(
    snapshot: Snapshot, before: Deviation, after: Deviation
) -> Iterator[Change]:
    """Give the run a deviation was made from with its words, if they were the same."""
    behind = reading_behind(snapshot, before)
    if before.title == after.title or behind is None:
        return
    run, _ = behind
    if run.title == before.title:
        yield run, replace(run, title=after.title)


def _retitled(snapshot: Snapshot, before: Run, after: Run) -> Iterator[Change]:
    """Give the deviations made from a run with its words, where they were the same."""
    piece = snapshot.find(before.piece, Piece)
    if before.title == after.title or piece is None:
        return
    for entry in snapshot.mentions(piece, Deviation):
        behind = reading_behind(snapshot, entry)
        same = behind is not None and behind[0].id == before.id
        if same and entry.title == before.title:
            yield entry, replace(entry, title=after.title)


def _its_deviations(snapshot: Snapshot, before: Run, after: Run) -> Iterator[Change]:
    """Give the deviations that were made from readings which are others now."""
    now = {one.id: one for one in after.readings}
    piece = snapshot.find(before.piece, Piece)
    for entry in snapshot.mentions(piece, Deviation) if piece else ():
        behind = reading_behind(snapshot, entry)
        if behind is None or behind[0].id != before.id:
            continue
        found = _other(behind[1], now.get(behind[1].id), entry)
        if found is not None:
            yield entry, _retold(entry, replace(entry, found=found))


def _other(was: Reading, now: Reading | None, entry: Deviation) -> Quantity | None:
    """Give the value a reading has now, where the deviation still tells the old one."""
    if now is None or not isinstance(now.value, Quantity) or entry.found is None:
        return None
    told = isinstance(was.value, Quantity) and not differs(was.value, entry.found)
    return now.value if told and differs(now.value, entry.found) else None
