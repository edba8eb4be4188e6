"""Search: the newest hits at once, the best ones behind them.

What a word and a number are is said in `terms`; the filters are terms too, so
that one pass over the full-text table answers.
"""

from __future__ import annotations

import sqlite3
from dataclasses import replace
from typing import Any

from logbook.index import statements
from logbook.index.query import LINE, Filter, Line, line_of, newest, newest_of
from logbook.index.terms import match_of, place_term, read_search

_SOURCE = "search JOIN record r ON r.key = search.rowid"


def search(
    db: sqlite3.Connection, typed: str, wanted: Filter, limit: int = 20
) -> list[Line]:
    """Give the newest records that answer what was typed, newest first."""
    asked = _where(typed, wanted)
    return newest_of(db, _SOURCE, asked, limit) if asked else newest(db, wanted, limit)


def ranked(
    db: sqlite3.Connection, typed: str, wanted: Filter, limit: int = 20
) -> list[Line]:
    """Give the records that answer best by Okapi BM25, titles counting most.

    On very common words it takes some tenths of a second with 100,000 records:
    show `search` first.
    """
    asked = _where(typed, wanted)
    if asked is None:
        return newest(db, wanted, limit)
    condition, values = asked
    command = (
        f"{LINE.format(source=_SOURCE)} WHERE {condition} "
        f"ORDER BY bm25(search, {statements.WEIGHTS}), r.key DESC LIMIT ?"
    )
    return [line_of(row) for row in db.execute(command, (*values, limit))]


def _where(typed: str, wanted: Filter) -> tuple[str, list[Any]] | None:
    """Give the condition of a search; None where nothing is asked for."""
    expression = match_of(read_search(typed))
    if not expression:
        return None
    for tag, word in (("k", wanted.kind), ("p", wanted.part), ("b", wanted.build)):
        if word:
            expression = f'({expression}) AND "{place_term(tag, word)}"'
    condition, values = replace(wanted, kind="", part="", build="").where()
    low, high = wanted.keys()
    rows = ""
    for sign, key in ((">=", low), ("<=", high)):
        if key is not None:
            rows += f"search.rowid {sign} {int(key)} AND "
    return f"{rows}search MATCH ? AND {condition}", [expression, *values]
