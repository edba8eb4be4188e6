"""Search: the newest hits at once, the best ones behind them.

What a word and a number are is said in `apart`; the filters are terms too, so
that one pass over the full-text table answers.
"""

from __future__ import annotations

import sqlite3
from dataclasses import replace
from typing import Any

from logbook.index import query, statements
from logbook.index.asked import id_prefix, match_of, read_search
from logbook.index.query import LINE, Filter, Line, line_of, newest, newest_of
from logbook.index.rows import SLOTS
from logbook.index.terms import id_term, place_term

AT_ONCE = 200
"""So many of the newest records are looked at before the full text is asked."""

_SOURCE = "search JOIN record r ON r.key = search.rowid"


def search(
    db: sqlite3.Connection, typed: str, wanted: Filter, limit: int = 20
) -> list[Line]:
    """Give the newest records that answer what was typed, newest first."""
    condition = _where(db, typed, wanted)
    if condition is None:
        return newest(db, wanted, limit)
    asked = read_search(typed, query.unit(db))
    keys = None
    if not asked.numbers and asked.whole is None:
        keys = _among_newest(db, asked.words, wanted, limit)
    if keys is None:
        return newest_of(db, _SOURCE, condition, limit)
    marks = ", ".join("?" * len(keys))
    return newest_of(db, "record r", (f"r.key IN ({marks})", keys), limit)


def _among_newest(
    db: sqlite3.Connection, words: tuple[str, ...], wanted: Filter, limit: int
) -> list[Any] | None:
    """Give the keys of the hits if the newest records hold enough; else None.

    Common words have too many hits to gather them all and show twenty; a size
    has few.
    """
    condition, values = _leading(wanted).where()
    command = (
        "SELECT r.key, r.kind, r.build, r.entry, "  # noqa: S608
        "' ' || r.title_terms || ' ' || r.body_terms || ' ' FROM record r "
        f"WHERE {condition} ORDER BY r.key DESC LIMIT ?"
    )
    rows = db.execute(command, (*values, AT_ONCE)).fetchall()
    cut_short = len(rows) == AT_ONCE
    # Of the second at which the look ends, some may have been left out.
    whole_from = ((rows[-1][0] >> SLOTS) + 1) << SLOTS if cut_short else None
    found = [
        key
        for key, kind, build, entry, terms in rows
        if (whole_from is None or key >= whole_from)
        and wanted.kind in {"", kind}
        and wanted.build in {"", build}
        and entry >= wanted.entries
        and all(_has_word(word, terms) for word in words)
    ]
    return None if cut_short and len(found) < limit else found


def _leading(wanted: Filter) -> Filter:
    """Give the one filter that leaves fewest records, with the time."""
    span = Filter(since=wanted.since, until=wanted.until)
    if wanted.part:
        return replace(span, part=wanted.part)
    if wanted.build:
        return replace(span, build=wanted.build)
    if wanted.kind:
        return replace(span, kind=wanted.kind)
    return replace(span, entries=wanted.entries)


def _has_word(word: str, terms: str) -> bool:
    """Tell whether a word answers, as `terms.match_of` has it."""
    if (f" {word} " if word[-1].isdigit() else f" {word}") in terms:
        return True
    key = id_prefix(word)
    return bool(key) and f" {id_term(key)}" in terms


def ranked(
    db: sqlite3.Connection, typed: str, wanted: Filter, limit: int = 20
) -> list[Line]:
    """Give the records that answer best by Okapi BM25, titles counting most.

    On very common words it takes some tenths of a second with 100,000 records:
    show `search` first.
    """
    asked = _where(db, typed, wanted)
    if asked is None:
        return newest(db, wanted, limit)
    condition, values = asked
    command = (
        f"{LINE.format(source=_SOURCE)} WHERE {condition} "
        f"ORDER BY bm25(search, {statements.WEIGHTS}), r.key DESC LIMIT ?"
    )
    return [line_of(row) for row in db.execute(command, (*values, limit))]


def _where(
    db: sqlite3.Connection, typed: str, wanted: Filter
) -> tuple[str, list[Any]] | None:
    """Give the condition of a search; None where nothing is asked for."""
    expression = match_of(read_search(typed, query.unit(db)))
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
