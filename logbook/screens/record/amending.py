"""Amending a record by one fact at a time, read by the rules its file is read by."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from typing import Any

from logbook.errors import BadInput
from logbook.plain.answers.whose import whose_typed
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.record import Record
from logbook.records.together.shown import FIXED, shown_fact
from logbook.records.written.codec import Unreadable, read_facts, write_facts
from logbook.records.written.text import cleaned
from logbook.screens.record.fact_typed import (
    BETWEEN,
    read_fact,
    read_table,
    typed_table,
)
from logbook.screens.record.untold import untold


def editable(record: Record) -> dict[str, Any]:
    """Give the facts of a record that may be amended, as its file has them."""
    return {k: v for k, v in write_facts(record).items() if k not in FIXED}


def can_amend(value: Any) -> bool:
    """Tell whether a fact can be typed as one line, with no longer prose in it."""
    if isinstance(value, dict):
        return typed_table(value) is not None
    if isinstance(value, list | tuple):
        return all(isinstance(one, str) and not BETWEEN.search(one) for one in value)
    return isinstance(value, str | int | float | date)


RETRACTED = "retracted"
"""Stands for a fact: why a failure was none, or a decision is not kept to."""


def frozen(record: Record, key: str) -> str:
    """Say that a fact went out with a release and stays; empty where it may change."""
    if not isinstance(record, Release) or key in _OPEN_OF_RELEASE:
        return ""
    return (
        f"{record.title} went out with this {shown_key(key.partition(' ')[0])}: it "
        "stays; what is wrong with it is told as a known fault (logbook erratum), and "
        "the next release puts it right"
    )


_OPEN_OF_RELEASE = frozenset({"prose", "summary", "commit", "formerly"})
"""What of a release may be put in other words: nobody goes by it."""


def typed_fact(value: Any) -> str:
    """Show a fact as it is typed when it is amended."""
    if isinstance(value, dict) and (words := typed_table(value)) is not None:
        return words
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
    `key` may name one row of a table: “reading 2” is the third reading.
    """
    typed = typed.strip()
    if key == "met_by_others" and (whose := whose_typed(typed)):
        typed = whose.value
    if key == RETRACTED:
        return record if typed else "nothing was typed; accepted: why it is not so"
    if key == "title":
        if not typed:
            return "nothing is no title; accepted: a line of words"
        return cleaned(replace(record, title=typed))
    if key == "prose":
        return replace(record, prose=typed.replace("\\n", "\n"))
    try:
        facts = _with_fact(record, key, typed, now)
    except BadInput as refusal:
        return f"{shown_key(key.partition(' ')[0])}: {refusal}"
    try:
        fresh, complaints = read_facts(facts, record.title, record.prose)
    except Unreadable as unreadable:
        complaints = unreadable.complaints
    for complaint in complaints:
        accepted = complaint.accepted
        return f"{shown_key(key)} cannot be {complaint.found}; accepted: {accepted}"
    return _crossed(fresh, key) or fresh


def _with_fact(
    record: Record, key: str, typed: str, now: datetime | None
) -> dict[str, Any]:
    """Give the facts of a record as its file has them, one of them as typed.

    Raises:
        BadInput: it is of another sort than what stands there.
    """
    facts = write_facts(record)
    name, _, row = key.partition(" ")
    before = {**untold(record), **facts}.get(name)
    if row and not typed:
        raise BadInput("a row cannot be taken away here; accepted: not measured")
    if not typed:
        facts.pop(name, None)
    elif row:
        rows = list(facts[name])
        rows[int(row)] = read_table(name, rows[int(row)], typed)
        facts[name] = rows
    elif isinstance(before, dict):
        facts[name] = read_table(name, before, typed)
    else:
        facts[name] = read_fact(record, name, before, typed, now)
    return facts


def shown_key(key: str) -> str:
    """Give the name of a fact as the screen has it."""
    return key.replace("_", " ")


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
