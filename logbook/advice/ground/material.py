"""What a material is called at the bench, and the rows of published tables it means."""

from __future__ import annotations

import re
from collections.abc import Iterator

from logbook.advice.ground.drawn import newest_revision
from logbook.errors import BadInput
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.workshop import Piece, Stock
from logbook.records.together.revisions import line_to
from logbook.records.together.snapshot import Snapshot
from logbook.shop.tables import Row, Table


def material_of(snapshot: Snapshot, part: Part, piece: Piece | None = None) -> str:
    """Give the material of a piece, else of the current revision, else of the part.

    A revision that names none is made of what the one before it is.
    """
    revision = snapshot.find(piece.revision, Revision) if piece else None
    revision = revision or newest_revision(snapshot, part)
    stock = snapshot.find(piece.stock if piece else None, Stock)
    stock = stock or snapshot.find(part.stock, Stock)
    named = _named(snapshot, revision) if revision else ""
    return named or (stock.material if stock else "") or part.material


def _named(snapshot: Snapshot, revision: Revision) -> str:
    named = [one.material for one in line_to(snapshot, revision) if one.material]
    return named[-1] if named else ""


def row_for(table: Table, material: str) -> Row | None:
    """Give the row of a table that a material's words mean, None where none is sure."""
    key = (table.title, material)
    if key not in _ROWS:
        if len(_ROWS) > MOST_ROWS:
            _ROWS.clear()
        _ROWS[key] = _row_for(table, material)
    return _ROWS[key]


MOST_ROWS = 4096
_ROWS: dict[tuple[str, str], Row | None] = {}
"""Rows by the table's title and the material; tables never change."""


def _row_for(table: Table, material: str) -> Row | None:
    for words in _phrases(material):
        try:
            return table.named(words)
        except BadInput:
            continue
    return None


def _phrases(material: str) -> Iterator[str]:
    """Give runs of neighbouring words, the longest first; plain names last."""
    words = re.findall(r"[a-z0-9.()-]+", material.lower())
    for length in range(len(words), 0, -1):
        for start in range(len(words) - length + 1):
            phrase = " ".join(words[start : start + length])
            if re.search(r"[a-z]{2}", phrase):
                yield phrase
