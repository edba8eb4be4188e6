"""A record in a few rows, to know it by before it is opened."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime
from typing import Any

from logbook.records.kinds.record import Record
from logbook.records.together.shown import Names, has_rows, names_of, shown_fact
from logbook.screens.record.amending import editable
from logbook.screens.ruled.margin_words import margin_word
from logbook.screens.ruled.moments import instant
from logbook.screens.ruled.passage import Say

CUT_SHORT = 30
"""Signs of a title that a narrow list has room for."""


def said_of_record(record: Record) -> Iterator[Say]:
    """Give its title if a list cuts it short, its facts as they read, its prose."""
    if len(record.title) > CUT_SHORT:
        yield Say("title", record.title)
    names = names_of(record)
    for key, value in editable(record).items():
        for at, words in enumerate(rows_of_fact(value, names)):
            yield Say("" if at else margin_word(key), words)
    for line in record.prose.split("\n"):
        if line.strip():
            yield Say("", line)


def rows_of_fact(value: Any, names: Names) -> Iterator[str]:
    """Give a fact as it reads, a row for each table of a list.

    What it refers to is said by its name, where that is among `names`.
    """
    if has_rows(value):
        yield from (_table(one, names) for one in value)
    else:
        yield _plain(value, names)


def _table(value: dict[str, Any], names: Names) -> str:
    """Give what a table says: its values, named only where they do not speak."""
    kept = [(key, one) for key, one in value.items() if key not in {"id", "at"}]
    shown = ((key, _plain(one, names)) for key, one in kept)
    return "  ".join(
        one if key in _SPEAK else f"{margin_word(key)} {one}" for key, one in shown
    )


_SPEAK = {"what", "value", "place", "state", "note", "characteristic", "part", "path"}
"""Facts of a table that need no name before them."""


def _plain(value: Any, names: Names) -> str:
    if isinstance(value, datetime):
        return instant(value)
    if isinstance(value, date):
        return f"{value:%Y-%m-%d}"
    return shown_fact(value, names)
