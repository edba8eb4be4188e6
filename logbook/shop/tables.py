"""Tables of published figures: read from data files, with source and edition.

A file in `tables/` holds several tables; each says where its figures come
from and how they were read: `read` (the figure was seen in the source),
`computed` (from a formula of the source), `memory` (not seen) or `common
practice` (no source). A look-up outside a table says its range; nothing is
extrapolated.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from logbook.errors import BadInput
from logbook.shop.evidence import HOW_MEANT

FOLDER = Path(__file__).parent / "tables"
HOW = tuple(HOW_MEANT)


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table, by column name."""

    cells: Mapping[str, Any]
    table: Table

    def number(self, column: str) -> float:
        """Give a figure.

        Raises:
            BadInput: the table leaves this cell empty.
        """
        value = self.cells.get(column, "")
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise BadInput(
                f"{self.table.title} gives no {column} for {self.label}; "
                f"accepted: {self.table.filled(column)}"
            )
        return float(value)

    def numbers(self, column: str) -> list[float]:
        """Give a list of figures."""
        return [float(value) for value in self.cells[column]]

    def text(self, column: str) -> str:
        """Give a text, empty where there is none."""
        return str(self.cells.get(column, ""))

    @property
    def label(self) -> str:
        """The first cell, which names the row."""
        return str(next(iter(self.cells.values())))

    @property
    def source(self) -> str:
        """Where this row comes from, and how it was read."""
        how = self.cells.get("how") or self.table.how
        source = self.cells.get("source") or self.table.source
        return f"{source} ({how})"


@dataclass(frozen=True, slots=True)
class Table:
    """A table of published figures."""

    title: str
    source: str
    edition: str
    how: str
    note: str
    columns: tuple[str, ...]
    cells: tuple[tuple[Any, ...], ...]
    _rows: list[tuple[Row, ...]] = field(
        default_factory=list, init=False, repr=False, compare=False
    )
    _named: list[tuple[tuple[Row, str, set[str]], ...]] = field(
        default_factory=list, init=False, repr=False, compare=False
    )

    @property
    def rows(self) -> tuple[Row, ...]:
        """All rows in order, laid out when they are first asked for."""
        if not self._rows:
            lines = (dict(zip(self.columns, line, strict=True)) for line in self.cells)
            self._rows.append(tuple(Row(line, self) for line in lines))
        return self._rows[0]

    @property
    def cited(self) -> str:
        """Source, edition and how it was read, for an answer."""
        edition = f", {self.edition}" if self.edition else ""
        return f"{self.source}{edition} ({self.how})"

    def names(self) -> list[str]:
        """Give the first cells, which name the rows."""
        return [row.label for row in self.rows]

    def filled(self, column: str) -> str:
        """Name the rows that have a figure in `column`."""
        rows = [row.label for row in self.rows if row.cells.get(column, "") != ""]
        return ", ".join(rows) or "none"

    @property
    def _called(self) -> tuple[tuple[Row, str, set[str]], ...]:
        """Each row with its label, plainly spelled, and all names it answers to."""
        if not self._named:
            rows = ((row, _plain(row.label), _called(row)) for row in self.rows)
            self._named.append(tuple(rows))
        return self._named[0]

    def named(self, text: str) -> Row:
        """Find the row whose first cell is `text`, capitals aside.

        A text that only one row begins with, or holds as a whole word, is
        taken for it.

        Raises:
            BadInput: no row, or more than one, is meant.
        """
        wanted, called = _plain(text), self._called
        rows = [row for row, _, names in called if wanted in names]
        rows = rows or [row for row, plain, _ in called if plain.startswith(wanted)]
        rows = rows or [row for row, plain, _ in called if wanted in plain.split()]
        if len(rows) == 1 and wanted:
            return rows[0]
        names = [row.label for row in (rows or self.rows)]
        divided = "; " if any("," in each for each in names) else ", "
        said = "could be several" if rows and wanted else "is not in the table"
        raise BadInput(
            f"“{text[:40]}” {said} ({self.title}); accepted: {divided.join(names)}"
        )

    def taken(self, text: str) -> str:
        """Say which row a text was taken for, and which others it may mean.

        Empty where it names a row outright and no other is near, or none.
        """
        try:
            row = self.named(text)
        except BadInput:
            return ""
        if _plain(text) == _plain(row.label):
            return ""
        family, words = _plain(row.label).split()[0], set(_plain(text).split())
        near = [
            each.label
            for each in self.rows
            if each is not row
            and any(
                family == name.split()[0] or words <= set(name.split())
                for name in _called(each)
            )
        ]
        also = f"; also in the table: {'; '.join(near)}" if near else ""
        return f"“{text[:40]}” taken as {row.label}{also}"

    def at(self, column: str, value: float, *, within: float = 1e-9) -> Row:
        """Find the row with this very figure.

        Raises:
            BadInput: the table has no such figure; it says which it has.
        """
        for row in self.rows:
            if abs(row.number(column) - value) <= within:
                return row
        have = ", ".join(f"{row.number(column):g}" for row in self.rows)
        raise BadInput(
            f"{column} {value:g} is not in the table ({self.title}); accepted: {have}"
        )

    def band(self, value: float, unit: str = "mm", what: str = "size") -> Row:
        """Find the row whose range `over` … `to` (included) holds `value`.

        Raises:
            BadInput: the value is outside the table, which says its range.
        """
        for row in self.rows:
            if row.number("over") < value <= row.number("to"):
                return row
        low = min(row.number("over") for row in self.rows)
        high = max(row.number("to") for row in self.rows)
        raise BadInput(
            f"{what} {value:g} {unit} is outside the table ({self.title}); "
            f"accepted: over {low:g} up to and including {high:g} {unit}"
        )

    def up_to(self, column: str, value: float, unit: str, *, within: float = 0) -> Row:
        """Find the first row, in rising order, whose figure is not below `value`.

        `within` is the share by which a value may exceed a figure and still
        count as it.

        Raises:
            BadInput: the value is above the last row.
        """
        for row in self.rows:
            if value <= row.number(column) * (1 + within):
                return row
        last = self.rows[-1].number(column)
        raise BadInput(
            f"{value:g} {unit} is outside the table ({self.title}); "
            f"accepted: up to {last:g} {unit}"
        )

    def where(self, **cells: Any) -> Table:
        """Give the table with only the rows that have these cells."""
        kept = tuple(
            line
            for line in self.cells
            if all(line[self.columns.index(name)] == cells[name] for name in cells)
        )
        return Table(
            self.title,
            self.source,
            self.edition,
            self.how,
            self.note,
            self.columns,
            kept,
        )


def _plain(text: str) -> str:
    return " ".join(text.lower().replace(",", " ").split())


def _called(row: Row) -> set[str]:
    """Names a row answers to: its label and the words in `also`."""
    also: Iterable[str] = row.cells.get("also") or ()
    return {_plain(row.label), *(_plain(word) for word in also)}


@cache
def table(file: str, name: str) -> Table:
    """Read the table `name` of `tables/<file>.toml`.

    Raises:
        KeyError: there is no such table; a fault of ours, not of the user.
    """
    held = _file(file)[name]
    columns = tuple(held["columns"])
    rows = tuple(tuple(row) for row in held["rows"])
    for row in rows:
        if len(row) != len(columns):
            raise KeyError(f"{file}.{name}: row {row} has not {len(columns)} cells")
    if held["how"] not in HOW:
        raise KeyError(f"{file}.{name}: how = {held['how']!r}")
    return Table(
        held["title"],
        held["source"],
        held.get("edition", ""),
        held["how"],
        held.get("note", ""),
        columns,
        rows,
    )


@cache
def names_in(file: str, name: str) -> frozenset[str]:
    """Give every name that a row of a table answers to, plainly spelled."""
    return frozenset(word for row in table(file, name).rows for word in _called(row))


@cache
def _file(file: str) -> dict[str, Any]:
    import tomli  # the reader of records: compiled, and mostly there already

    return tomli.loads((FOLDER / f"{file}.toml").read_text("utf-8"))
