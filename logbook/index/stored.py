"""The records as the database has them, while it is amended.

What is asked of many records is asked by a few questions; a pull brings hundreds.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from logbook.index import statements
from logbook.index.derive import WALKED, Link

AT_ONCE = 500
"""Values in one question; the oldest SQLite takes 999."""

WALKED_FIELDS = ", ".join(f"'{name}'" for name in sorted(WALKED))
_COLUMNS = statements.COLUMNS["record"]
KEY, KIND, PART, BUILD = map(_COLUMNS.index, ("key", "kind", "part", "build"))

Row = tuple[Any, ...]


def asked_of(
    db: sqlite3.Connection, question: str, values: Collection[Any]
) -> Iterator[Row]:
    """Ask a question that ends in `IN` of many values."""
    every = [*values]
    for at in range(0, len(every), AT_ONCE):
        some = every[at : at + AT_ONCE]
        marks = ", ".join("?" * len(some))
        yield from db.execute(f"{question} ({marks})", some).fetchall()


@dataclass(slots=True)
class Kept:
    """A record's rows before the change; none of them where it is new."""

    row: Row = ()
    names: set[tuple[str, bool]] = field(default_factory=set)
    mentions: list[Row] = field(default_factory=list)
    readings: list[Row] = field(default_factory=list)

    @property
    def kind(self) -> str:
        """Give the kind it was of, empty where it is new."""
        return self.row[KIND] if self.row else ""

    @property
    def found_by(self) -> Row:
        """Give what the search has of it: its key and its terms."""
        return found_by(self.row)


def found_by(row: Row) -> Row:
    """Give what the search has of a record's row: its key and its terms."""
    return (row[KEY], *row[-3:])


def kept_of(db: sqlite3.Connection, ids: Collection[str]) -> dict[str, Kept]:
    """Give the rows of those of these records that the database has."""
    columns = ", ".join(f'"{name}"' for name in _COLUMNS)
    at = _COLUMNS.index("id")
    records = f"SELECT {columns} FROM record WHERE id IN"  # noqa: S608
    kept = {row[at]: Kept(row) for row in asked_of(db, records, ids)}
    for name, identity, now in asked_of(db, _all_of("name"), kept):
        kept[identity].names.add((name, bool(now)))
    for row in asked_of(db, _all_of("mention"), kept):
        kept[row[0]].mentions.append(row)
    for row in asked_of(db, _all_of("reading"), kept):
        kept[row[0]].readings.append(row)
    for one in kept.values():
        one.mentions.sort(key=_number)
        one.readings.sort(key=_number)
    return kept


def _all_of(table: str) -> str:
    columns = ", ".join(statements.COLUMNS[table])
    return f"SELECT {columns} FROM {table} WHERE record IN"  # noqa: S608


def _number(row: Row) -> int:
    return int(row[1])


class Stored:
    """The web of the records as the database holds it, with a memory of its own.

    Names and references are remembered from the first question on: it comes once they
    are written as they now are.
    """

    def __init__(self, db: sqlite3.Connection) -> None:
        """Ask this database."""
        self.db = db
        self.kinds: dict[str, str] = {}
        self._called: dict[str, Sequence[tuple[str, bool]]] = {}
        self._links: dict[str, Sequence[Link]] = {}

    def kind(self, identity: str) -> str:
        """Give the kind of a record."""
        if identity not in self.kinds:
            row = self.db.execute("SELECT kind FROM record WHERE id = ?", (identity,))
            found = row.fetchone()
            self.kinds[identity] = found[0] if found else ""
        return self.kinds[identity]

    def called(self, name: str) -> Sequence[tuple[str, bool]]:
        """Give who answers to a name."""
        if name not in self._called:
            asked = "SELECT record, now FROM name WHERE name = ?"
            rows = self.db.execute(asked, (name,))
            self._called[name] = [(row[0], bool(row[1])) for row in rows]
        return self._called[name]

    def links(self, identity: str) -> Sequence[Link]:
        """Give the walked references of a record."""
        if identity not in self._links:
            asked = (
                "SELECT field, to_id, to_name, target FROM mention "  # noqa: S608
                f"WHERE record = ? AND field IN ({WALKED_FIELDS}) ORDER BY number"
            )
            rows = self.db.execute(asked, (identity,))
            self._links[identity] = [Link(*row) for row in rows]
        return self._links[identity]

    def ask_for_kinds(self, ids: Collection[str]) -> None:
        """Ask for the kinds of all these records by one question."""
        new = {identity: "" for identity in ids if identity not in self.kinds}
        found = asked_of(self.db, "SELECT id, kind FROM record WHERE id IN", new)
        self.kinds.update(new | dict(found))

    def moved(self, written: Mapping[str, Sequence[Row]]) -> None:
        """Forget where references lead, but for those just written, by their record."""
        self._links = {
            identity: [Link(*row[2:]) for row in rows if row[2] in WALKED]
            for identity, rows in written.items()
        }
