"""What entries say of a size, by the readings as they are on record now.

A line like “opening 178.6 should be 180” is kept as a reading and as the deviation it
leads to, each with the value and the words as typed. When the reading is corrected
afterwards the other goes on saying the old value; what is told of both is the reading.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from fractions import Fraction

from logbook.counting import so_many
from logbook.decimal_text import plain_number
from logbook.errors import BadInput
from logbook.quantity import Quantity
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import Deviation, Entry, Reading, Run
from logbook.records.kinds.workshop import Piece
from logbook.records.states.pieces import readings_of
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import whole_title

_NUMBER = re.compile(
    r"(?<![\w.,/-])(?:\d+\s+\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?)(?![\w/]|[.,]\d)"
)


def found_now(snapshot: Snapshot, entry: Deviation) -> Quantity | None:
    """Give what a deviation found: as the reading it was made from says now."""
    made_from = reading_behind(snapshot, entry)
    if made_from is None or not isinstance(made_from[1].value, Quantity):
        return entry.found
    return made_from[1].value


def found_words(snapshot: Snapshot, entry: Deviation) -> str:
    """Say what a deviation found, with all its line read of that size.

    “Holes 5.1 and 5.2 should be 5” is kept with one of them; a page that told only
    that one would be wrong of the other.
    """
    found, behind = found_now(snapshot, entry), reading_behind(snapshot, entry)
    run = behind[0] if behind else None
    if found is None or run is None or _named_by_reading(snapshot, entry):
        return str(found or "")
    item = snapshot.find(entry.characteristic, Characteristic)
    at = {
        one.place: one.value
        for one in run.readings
        if isinstance(one.value, Quantity) and snapshot.find(one.what) is item
    }
    values = [*dict.fromkeys(at.values())]
    if len(values) < _SEVERAL or {one.unit for one in values} != {found.unit}:
        return str(found)
    if len(values) == _SEVERAL:
        return f"{values[0]} and {values[1]}"
    values.sort(key=lambda one: one.value)
    return f"{values[0]} to {values[-1]} at {so_many(at, 'place')}"


_SEVERAL = 2


def _named_by_reading(snapshot: Snapshot, entry: Deviation) -> bool:
    """Tell whether a deviation is called by the one reading it was led to from."""
    piece = snapshot.find(entry.piece, Piece)
    item = snapshot.find(entry.characteristic, Characteristic)
    called = f"{piece.title} {item.title}" if piece and item else None
    return called is not None and entry.title.startswith(called)


def reading_behind(snapshot: Snapshot, entry: Deviation) -> tuple[Run, Reading] | None:
    """Give the reading a deviation was made from, with its run; None where none was.

    It is of the same piece, dimension and place, and of the same instant, or, where
    the deviation is named by what was read, the last one before it.
    """
    piece = snapshot.find(entry.piece, Piece)
    item = snapshot.find(entry.characteristic, Characteristic)
    if piece is None or item is None or entry.found is None:
        return None
    taken = [
        one
        for one in readings_of(snapshot, piece, item)
        if one.reading.place == entry.place and one.reading.at <= entry.when
    ]
    named = _named_by_reading(snapshot, entry)
    meant = [
        one for one in taken if named or entry.when in {one.reading.at, one.run.when}
    ]
    return (meant[-1].run, meant[-1].reading) if meant else None


def told_now(snapshot: Snapshot, entry: Entry) -> str:
    """Give the words of an entry with the values its readings have now.

    A value that is not found in them is only put right where one number can be it.
    """
    words = whole_title(entry)
    if isinstance(entry, Deviation):
        found = found_now(snapshot, entry)
        aside = (entry.wanted, entry.off)
        return put_right(words, [found] if found else [], filter(None, aside))
    if isinstance(entry, Run):
        values = [one.value for one in entry.readings]
        read = [one for one in values if isinstance(one, Quantity)]
        return put_right(words, read, _beside(snapshot, entry))
    return words


def _beside(snapshot: Snapshot, run: Run) -> Iterator[Quantity]:
    """Give the other figures that the words of a run may tell."""
    for reading in run.readings:
        yield from filter(None, (reading.room, reading.after))
    piece = snapshot.find(run.piece, Piece)
    for one in snapshot.mentions(piece, Deviation) if piece else ():
        if one.when == run.when:
            yield from filter(None, (one.wanted, one.off))


def put_right(
    words: str,
    values: Iterable[Quantity],
    aside: Iterable[Quantity] = (),
    was: Iterable[Quantity] = (),
) -> str:
    """Give words with the one number that is no value any more made the one missing.

    A number that is what one `was` is of a size, however it is written. Words without
    a number of a size, or with several that could be it, stay as they are.
    """
    numbers = list(_NUMBER.finditer(words))
    said = [_value(one.group()) for one in numbers]
    others = {one.value for one in aside}
    known, before = list(values), {one.value for one in was}
    missing = [one for one in known if one.value not in said]
    left = [
        match
        for match, value in zip(numbers, said, strict=True)
        if value not in {one.value for one in known} | others
        and (value in before or _is_size(words, match, known))
    ]
    if len(missing) != 1 or len(left) != 1:
        return words
    at = left[0]
    return f"{words[: at.start()]}{_bare(missing[0])}{words[at.end() :]}"


def _is_size(words: str, match: re.Match[str], values: Iterable[Quantity]) -> bool:
    """Tell whether a number is one of a size: written out, or before its unit."""
    if re.search(r"[.,/]", match.group()):
        return True
    after = words[match.end() :].lstrip()
    return any(re.match(rf"{re.escape(one.unit)}(?!\w)", after) for one in values)


def _bare(value: Quantity) -> str:
    """Give a value without its unit, as it was typed."""
    for text in _numbers(value.text):
        if _value(text) == value.value:
            return text
    return plain_number(value.value)


def _numbers(text: str) -> Iterator[str]:
    return (match.group() for match in _NUMBER.finditer(text))


def _value(number: str) -> Fraction | None:
    """Give the value of a number as written: 36.24, 36,24, 1/4, 3 13/32."""
    try:
        return sum(map(Fraction, number.replace(",", ".").split()), Fraction())
    except (ValueError, ZeroDivisionError):
        return None


def differs(one: Quantity, other: Quantity) -> bool:
    """Tell whether two quantities are not the same size, whatever their unit."""
    try:
        return one.to(other.unit) != other.value
    except BadInput:
        return True
