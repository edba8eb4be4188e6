"""The sizes of a part as rows: how each is drawn, what every piece of it reads."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from logbook.advice.gaps.held_to_gap import suited_word
from logbook.advice.pieces.uncertainty import reading_judged_by
from logbook.publish.parts.gaps import made_to_suit, suited_words
from logbook.quantity import Absent, Quantity
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Deviation
from logbook.records.kinds.workshop import Piece
from logbook.records.sizes.definition import (
    OFF_DRAWING,
    TOO_CLOSE,
    Dimension,
    definition,
)
from logbook.records.sizes.limits_held import as_held
from logbook.records.sizes.verdict_word import judged
from logbook.records.states.pieces import Taken, pieces_of, readings_of
from logbook.records.together.revisions import current_revision, shown_label
from logbook.screens.desk.last_value import drawn_for, drawn_words
from logbook.screens.part.part_asked import Asked, key_of
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.rows import MARGIN
from logbook.screens.ruled.strip import strip

VALUE = 9
"""Columns a value takes before its strip."""

MANY = 10
"""Pieces from which on it is said of a size how many of them are within."""

_FIRST = (OFF_DRAWING, TOO_CLOSE)
"""What of many pieces is listed before the others, in this order."""


def sizes_of_part(asked: Asked) -> Iterator[Line]:
    """Give each size as it is drawn, and under it what was read of it."""
    revision = current_revision(asked.snapshot, asked.part)
    drawn = definition(asked.snapshot, revision) if revision else ()
    for at, one in enumerate(drawn):
        label = "sizes" if not at else ""
        critical = ", critical" if one.characteristic.critical else ""
        words = f"{one.name}: {_held_to(asked, one)}{critical}"
        yield Line(key_of(one.characteristic), label, words)
        yield from _told_now(asked, one)
        yield from _counted(asked, one)
        rows = [*_measured(asked, one)]
        if len(rows) >= MANY:  # those that ask for a decision are not looked for
            rows.sort(key=lambda row: row[0])
        yield from (line for _, line in rows)


def _held_to(asked: Asked, one: Dimension) -> str:
    """Say how a size is drawn, or by which rule it is made to suit."""
    gap = made_to_suit(asked.snapshot, one.characteristic)
    if gap is None:
        return drawn_words(asked.snapshot, as_held(asked.snapshot, one))
    return f"made to suit, {suited_words(asked.snapshot, gap)}"


def _told_now(asked: Asked, one: Dimension) -> Iterator[Line]:
    """Say to which size what is made to suit is made by what was measured so far."""
    if made_to_suit(asked.snapshot, one.characteristic) is None:
        return
    now, build = asked.suited(one), asked.build
    words = "no size told yet; its gap says what it waits for"
    if now.to_suit and now.has_limits:
        words = f"{now.nominal}, accepted {now.lower} to {now.upper}"
    here = f"{build.title}: " if build else ""
    yield Line(key_of(one.characteristic, "now"), "", f"  {here}{words}")


def _held_of(asked: Asked, piece: Piece, what: object) -> Dimension | None:
    """Give a size as the piece's own revision draws it, or as its gap accepts it."""
    drawn = drawn_for(asked.snapshot, piece, what)
    return asked.suited(drawn, piece) if drawn is not None else None


def _counted(asked: Asked, one: Dimension) -> Iterator[Line]:
    """Say of many pieces how they came out, before each of them is listed."""
    last: dict[tuple[str, str], tuple[Quantity, str]] = {}
    for piece in pieces_of(asked.snapshot, asked.part):
        for taken in readings_of(asked.snapshot, piece, one.characteristic):
            value = taken.reading.value
            if isinstance(value, Quantity) and not value.metal:
                drawn = _held_of(asked, piece, taken.reading.what)
                doubt = reading_judged_by(
                    asked.snapshot, taken.reading, taken.run, drawn
                )
                said = _verdict(asked, piece, drawn, value, doubt)
                last[piece.id, taken.reading.place] = value, said
    if len({piece for piece, _ in last}) < MANY:
        return
    verdicts = Counter(said for _, said in last.values())
    kind = one.nominal.dimension if one.nominal else ""
    values = [value for value, _ in last.values() if value.dimension == kind]
    values.sort(key=lambda value: value.to(value.unit))
    said = ", ".join(f"{count} {word}" for word, count in verdicts.most_common())
    span = f"{values[0]} to {values[-1]}"
    key = key_of(one.characteristic, "counted")
    yield Line(key, "", f"{said}; {span}")


def _measured(asked: Asked, one: Dimension) -> Iterator[tuple[int, Line]]:
    """Give the last reading at each place of each piece, each with its rank."""
    every = pieces_of(asked.snapshot, asked.part)
    for piece in sorted(every, key=lambda piece: piece.number):
        last: dict[str, Taken] = {}
        for taken in readings_of(asked.snapshot, piece, one.characteristic):
            last[taken.reading.place] = taken
        wide = max(map(len, last), default=0)
        for place, taken in last.items():
            words = _reading(asked, piece, taken, place.ljust(wide))
            key = key_of(taken.run, f"{piece.id} {one.characteristic.id} {place}")
            yield _rank(words), Line(key, _shortened(piece.title), words)
        if not last:
            yield from ((_rank(row.words), row) for row in _found(asked, piece, one))


def _rank(words: str) -> int:
    """Tell where a reading is listed by the verdict at its end."""
    said = words.rpartition("  ")[2]
    ranks = [n for n, verdict in enumerate(_FIRST) if said.startswith(verdict)]
    return ranks[0] if ranks else len(_FIRST)


def _shortened(title: str) -> str:
    """Give a piece's name for the margin; its end, with the number, stays."""
    return title if len(title) < MARGIN - 1 else "…" + title[3 - MARGIN :]


def _found(asked: Asked, piece: Piece, one: Dimension) -> Iterator[Line]:
    """Give what a deviation says of a size that was never read by itself."""
    for entry in asked.snapshot.mentions(piece):
        if (
            isinstance(entry, Deviation)
            and entry.found is not None
            and asked.snapshot.find(entry.characteristic) is one.characteristic
        ):
            drawn = _held_of(asked, piece, entry.characteristic)
            words = (
                f"{entry.found} as found  {_verdict(asked, piece, drawn, entry.found)}"
            )
            yield Line(
                key_of(entry, one.characteristic.id), _shortened(piece.title), words
            )


def _verdict(
    asked: Asked,
    piece: Piece,
    drawn: Dimension | None,
    value: Quantity,
    doubt: Quantity | None = None,
) -> str:
    """Say where a value stands, and by which revision where not the current one."""
    said = suited_word(drawn, judged(drawn, value, doubt))
    if drawn is not None and drawn.to_suit:
        return said  # held to its gap, whichever revision it is of
    own = asked.snapshot.find(piece.revision, Revision)
    now = current_revision(asked.snapshot, asked.part)
    if own is None or now is None or own.id == now.id:
        return said
    return f"{said} ({shown_label(own)})"


def _reading(asked: Asked, piece: Piece, taken: Taken, place: str) -> str:
    value, reading = taken.reading.value, taken.reading
    if isinstance(value, Absent):
        return f"{place} {value.value}".strip()
    drawn = _held_of(asked, piece, reading.what)
    doubt = reading_judged_by(asked.snapshot, reading, taken.run, drawn)
    said = _verdict(asked, piece, drawn, value, doubt)
    head = " ".join(filter(None, (place, str(value).rjust(VALUE))))
    if drawn is None or not drawn.has_limits:
        return f"{head}  {said}"
    room = asked.width - len(head) - len(said) - 20
    return f"{head}  {_strip(drawn, value, room)}  {said}"


def _strip(drawn: Dimension, value: Quantity, room: int) -> str:
    """Draw the strip without the limits, which stand in the row of the dimension."""
    ends = len(str(drawn.lower or "")) + len(str(drawn.upper or ""))
    by = len(f" by {drawn.limits_by}") if drawn.limits_by else 0
    whole = strip(drawn, value, max(room, 0) + ends + by)
    start = whole.find("├")
    return whole[max(start - 1, 0) : whole.rfind("┤") + 2] if start > 0 else ""
