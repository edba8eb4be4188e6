"""Amending a record by one fact at a time, read by the rules its file is read by."""

from __future__ import annotations

import re
from dataclasses import fields, replace
from datetime import UTC, date, datetime
from typing import Any

from logbook.errors import BadInput, ChangedMeanwhile
from logbook.plain.moments import read_moment
from logbook.quantity import Absent, Quantity, parse_quantity
from logbook.records.codec import Unreadable, read_facts, write_facts
from logbook.records.making import Draft
from logbook.records.record import Record
from logbook.records.text import clean_title

FIXED = ("id", "kind")
"""Facts that never change."""

_BETWEEN = re.compile(r",\s+|\s*;\s*")
"""What parts the values of a list; a comma inside a number does not."""

SIGNED = frozenset({"lower_limit", "upper_limit", "off", "setup_error"})
"""Facts that may be below nothing."""


def editable(record: Record) -> dict[str, Any]:
    """Give the facts of a record that may be amended, as its file has them."""
    return {k: v for k, v in write_facts(record).items() if k not in FIXED}


def shown_fact(value: Any) -> str:
    """Show a fact as it is typed."""
    if isinstance(value, dict):
        return ", ".join(f"{key} {shown_fact(one)}" for key, one in value.items())
    if isinstance(value, list | tuple):
        return " · ".join(shown_fact(one) for one in value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)


def can_amend(value: Any) -> bool:
    """Tell whether a fact can be typed as one line: no table, no longer prose in it."""
    if isinstance(value, list | tuple):
        return all(isinstance(one, str) and not _BETWEEN.search(one) for one in value)
    return isinstance(value, str | int | float | date)


def typed_fact(value: Any) -> str:
    """Show a fact as it is typed when it is amended."""
    if isinstance(value, list | tuple):
        return ", ".join(shown_fact(one) for one in value)
    if isinstance(value, datetime):
        return value.isoformat(" ", "seconds" if value.second else "minutes")
    return shown_fact(value).replace("\n", "\\n")


def amended(
    record: Record, key: str, typed: str, now: datetime | None = None
) -> Record | str:
    """Give the record with one fact as typed, or the sentence that refuses it.

    A fact left empty is taken away. A size without a unit is in the unit it had.
    """
    typed = typed.strip()
    if key == "title":
        if not typed:
            return "nothing is no title; accepted: a line of words"
        return replace(record, title=clean_title(typed))
    if key == "prose":
        return replace(record, prose=typed.replace("\\n", "\n"))
    facts = write_facts(record)
    if not typed:
        facts.pop(key, None)
    else:
        try:
            facts[key] = _like(record, key, facts.get(key), typed, now)
        except BadInput as refusal:
            return f"{shown_key(key)}: {refusal}"
    try:
        fresh, complaints = read_facts(facts, record.title, record.prose)
    except Unreadable as unreadable:
        complaints = unreadable.complaints
    for complaint in complaints:
        accepted = complaint.accepted
        return f"{shown_key(key)} cannot be {complaint.found}; accepted: {accepted}"
    return _crossed(fresh, key) or fresh


def shown_key(key: str) -> str:
    """Give the name of a fact as the screen has it."""
    return key.replace("_", " ")


def _like(
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
        return _instant(typed, now or datetime.now(UTC).astimezone())
    if isinstance(before, date):
        return _day(key, typed, now or datetime.now(UTC).astimezone())
    return typed


def _several(held: Any, typed: str) -> list[str]:
    """Read the values of a list; a size without a unit is in that of the one there."""
    found = [one for one in _BETWEEN.split(typed) if one]
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


def _instant(typed: str, now: datetime) -> datetime:
    try:
        when = datetime.fromisoformat(typed)
    except ValueError:
        when = _spoken(typed, now)
    when = when if when.tzinfo else when.astimezone()
    if when > now:
        raise BadInput(f"{typed} lies in the future; accepted: up to now")
    return when


def _spoken(typed: str, now: datetime) -> datetime:
    found = read_moment(typed, now)
    if isinstance(found, datetime):
        return found
    raise BadInput(
        f"“{typed}” is no date and time; accepted: 2026-03-14T16:00, or "
        "“yesterday 16:00”, “2 h ago”, “monday”"
    )


def _day(key: str, typed: str, now: datetime) -> date:
    try:
        day = date.fromisoformat(typed)
    except ValueError:
        raise BadInput(f"“{typed}” is no date; accepted: 2026-03-14") from None
    if day > now.date() and key != "due":
        raise BadInput(f"{typed} lies in the future; accepted: up to today")
    return day


def _crossed(record: Record, key: str) -> str:
    """Say that the limits have changed places, where this fact made them."""
    low = getattr(record, "lower_limit", None)
    high = getattr(record, "upper_limit", None)
    if key not in {"lower_limit", "upper_limit"} or low is None or high is None:
        return ""
    if low.metal or high.metal or low.dimension != high.dimension:
        return ""
    if low.to(high.unit) <= high.value:
        return ""
    return (
        f"{shown_key(key)}: the lower limit {low} would be above the upper, {high}; "
        "accepted: smallest to largest"
    )


def amend_draft(draft: Draft, before: Record, after: Record) -> Draft:
    """Draft the change from `before` to `after` on the record as it is by now.

    Raises:
        ChangedMeanwhile: just what is amended was changed by somebody else.
    """
    now = draft.snapshot.stored.get(before.id)
    if now is None:
        raise ChangedMeanwhile(f"“{before.title}” was taken away meanwhile")
    changes: dict[str, Any] = {}
    for field in fields(after):
        old, new = getattr(before, field.name), getattr(after, field.name)
        if old == new:
            continue
        if getattr(now.record, field.name) not in (old, new):
            raise ChangedMeanwhile(
                f"{field.name} of “{before.title}” was changed meanwhile; "
                "nothing was overwritten"
            )
        changes[field.name] = new
    draft.amend(replace(now.record, **changes))
    return draft
