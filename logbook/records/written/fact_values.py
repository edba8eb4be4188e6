"""The value of one fact, as it stands in the file and as the record holds it.

Reading refuses a value with what is accepted instead, and with the path inside the
value at which it is wrong.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime
from enum import StrEnum
from typing import Any

from logbook.errors import BadInput
from logbook.quantity import Absent, Quantity, parse_quantity
from logbook.records.kinds.ids import Ref, parse_ref

Path = tuple[str | int, ...]


class WrongValue(Exception):
    """A value that cannot be taken: what is accepted, and where in it that is."""

    def __init__(self, accepted: str, path: Path = ()) -> None:
        super().__init__(accepted)
        self.accepted = accepted
        self.path = path


Converters = tuple[Callable[[Any], Any], Callable[[Any], Any]]


def _same(value: Any) -> Any:
    return value


def _of(kind: type, accepted: str) -> Callable[[Any], Any]:
    def read(value: Any) -> Any:
        if not isinstance(value, kind) or (kind is int and isinstance(value, bool)):
            raise WrongValue(accepted)
        return value

    return read


def _read_quantity(value: Any) -> Quantity:
    if not isinstance(value, str):
        raise WrongValue('a number with its unit in quotes, "5 mm"')
    try:
        return parse_quantity(value)
    except BadInput as refusal:
        raise WrongValue(str(refusal).rpartition("accepted: ")[2]) from None


_ABSENT = {one.value: one for one in Absent}


def read_value(value: Any) -> Quantity | Absent:
    """Read what a reading holds: a quantity, or why there is none.

    Raises:
        WrongValue: it is neither.
    """
    absent = _ABSENT.get(value) if isinstance(value, str) else None
    return absent or _read_quantity(value)


def _read_ref(value: Any) -> Ref:
    if not isinstance(value, str) or not value.strip():
        raise WrongValue('a name, an id, or both, "crossbar 4hx0c3te"')
    return parse_ref(value)


def _read_instant(value: Any) -> datetime:
    if not isinstance(value, datetime) or value.tzinfo is None:
        raise WrongValue("a date and time with its offset, 2026-03-14T10:15:22+01:00")
    return value


def _read_date(value: Any) -> date:
    if not isinstance(value, date) or isinstance(value, datetime):
        raise WrongValue("a date, 2026-03-14")
    return value


def read_words(value: Any) -> dict[str, str]:
    """Read a table of names and words.

    Raises:
        WrongValue: it is something else.
    """
    whole = isinstance(value, dict) and all(isinstance(v, str) for v in value.values())
    if not whole:
        raise WrongValue('names and words, { nozzle = "0.4 mm" }')
    return dict(value)


def choice(words: type[StrEnum]) -> Callable[[Any], Any]:
    """Give what reads one word of a list."""
    accepted = ", ".join(word.value for word in words)

    def read(value: Any) -> Any:
        try:
            return words(value)
        except ValueError:
            raise WrongValue(accepted) from None

    return read


def fitting(
    read_one: Callable[[Any], Any], fits: Callable[[Any], bool], accepted: str
) -> Callable[[Any], Any]:
    """Give what reads a value and refuses one that does not fit."""

    def read(value: Any) -> Any:
        made = read_one(value)
        if not fits(made):
            raise WrongValue(accepted)
        return made

    return read


def many(item: Converters) -> Converters:
    """Give what reads and writes a list of such values."""
    read_one, write_one = item

    def read(value: Any) -> tuple[Any, ...]:
        if not isinstance(value, list):
            raise WrongValue("a list in brackets")
        made = []
        for number, one in enumerate(value):
            try:
                made.append(read_one(one))
            except WrongValue as wrong:
                raise WrongValue(wrong.accepted, (number, *wrong.path)) from None
        return tuple(made)

    return read, lambda held: [write_one(one) for one in held]


SIMPLE: dict[Any, Converters] = {
    str: (_of(str, "words in quotes"), _same),
    int: (_of(int, "a whole number"), _same),
    bool: (_of(bool, "true or false"), _same),
    Quantity: (_read_quantity, str),
    Ref: (_read_ref, str),
    datetime: (_read_instant, _same),
    date: (_read_date, _same),
}
