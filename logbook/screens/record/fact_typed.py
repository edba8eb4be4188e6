"""What was typed for a fact, read as the sort of fact that stands there."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime
from typing import Any

from logbook.errors import BadInput
from logbook.plain.when.moments import instant_typed
from logbook.quantity import Absent, Quantity, parse_quantity, parse_value
from logbook.records.kinds.record import Record

BETWEEN = re.compile(r",\s+|\s*;\s*")
"""What parts the values of a list; a comma inside a number does not."""

SIGNED = frozenset({"lower_limit", "upper_limit", "off", "setup_error"})
"""Facts that may be below nothing."""


def read_fact(
    record: Record, key: str, before: Any, typed: str, now: datetime | None
) -> Any:
    """Read what was typed as the sort of fact that stands there.

    Raises:
        BadInput: it is of another sort.
    """
    held = getattr(record, key, None)
    if isinstance(before, list | tuple):
        return _several(held, typed)
    if isinstance(held, Quantity) and typed.casefold() not in set(Absent):
        return str(_quantity(key, held, typed))
    if isinstance(before, bool):
        return _yes_or_no(typed)
    if isinstance(before, int):
        if not typed.isdecimal():
            raise BadInput(f"“{typed}” is no count; accepted: a whole number from 0 up")
        return int(typed)
    if isinstance(before, datetime):
        return instant_typed(typed, now or datetime.now(UTC).astimezone())
    if isinstance(before, date):
        return _day(key, typed, now or datetime.now(UTC).astimezone())
    return typed


def _several(held: Any, typed: str) -> list[str]:
    """Read the values of a list; a size without a unit is in that of the one there."""
    found = [one for one in BETWEEN.split(typed) if one]
    units = [one.unit for one in held or () if isinstance(one, Quantity)]
    if not units:
        return found
    units += units[-1:] * len(found)
    return [
        str(parse_quantity(one, unit)) for one, unit in zip(found, units, strict=False)
    ]


def _quantity(key: str, held: Quantity, typed: str) -> Quantity:
    unit = "" if held.metal else held.unit
    value = parse_quantity(typed, unit)
    if {held.dimension, value.dimension} == {"gauge", "length"}:
        return value
    if value.dimension != held.dimension:
        raise BadInput(
            f"“{value}” is a {value.dimension}, but this is a {held.dimension} "
            f"({held}); accepted: a {held.dimension}"
        )
    signed = key in SIGNED or value.dimension in {"temperature", "angle"}
    if value.value < 0 <= held.value and not signed:
        raise BadInput(f"“{value}” is negative; accepted: a number from 0 up")
    return value


def _yes_or_no(typed: str) -> bool:
    word = typed.casefold()
    if word not in {"yes", "no", "true", "false"}:
        raise BadInput(f"“{typed}” is neither; accepted: yes or no")
    return word in {"yes", "true"}


def _day(key: str, typed: str, now: datetime) -> date:
    try:
        day = date.fromisoformat(typed)
    except ValueError:
        raise BadInput(f"“{typed}” is no date; accepted: 2026-03-14") from None
    if day > now.date() and key != "due":
        raise BadInput(f"{typed} lies in the future; accepted: up to today")
    return day


READING = ("value", "place")
"""What is typed of a reading: its value, then its place."""


def typed_table(table: dict[str, Any]) -> str | None:
    """Show a table as it is typed; None where it cannot be typed as one line."""
    if "what" in table and "value" in table:
        return " ".join(str(table[key]) for key in READING if key in table)
    return str(table["said"]) if "said" in table else None


def read_table(key: str, table: dict[str, Any], typed: str) -> dict[str, Any]:
    """Give a table with what was typed: a reading's value and place, or its words.

    Raises:
        BadInput: it is no value of this reading.
    """
    if "said" in table:
        return {**table, "said": typed}
    value, place = _reading(key, str(table["value"]), typed.split())
    fresh = {**table, "value": str(value), "place": place}
    return {name: one for name, one in fresh.items() if one != ""}


def _reading(key: str, before: str, words: list[str]) -> tuple[object, str]:
    """Split a value from the place behind it.

    Raises:
        BadInput: there is no value, or one of another sort.
    """
    held = parse_value(before, "")
    unit = held.unit if isinstance(held, Quantity) and not held.metal else ""
    refusal: BadInput | None = None
    for end in range(len(words), 0, -1):
        said, place = " ".join(words[:end]), " ".join(words[end:])
        try:
            value = parse_value(said, unit)
        except BadInput as error:
            refusal = refusal if end == 1 and refusal else error
            continue
        if isinstance(held, Quantity) and isinstance(value, Quantity):
            value = _quantity(key, held, said)
        return value, place
    raise refusal or BadInput("nothing was typed; accepted: a value, 178.6 mm left")
