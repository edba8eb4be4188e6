"""Writes `statements.py` from the schema: `python -m logbook.index.generate`.

Run it after a change of the schema or of what the rows mean; a test compares.
"""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path

from sqlalchemy import Table
from sqlalchemy.dialects import sqlite
from sqlalchemy.schema import CreateIndex, CreateTable

from logbook.index.schema import TABLES, Row

HERE = Path(__file__).parent
MEANING = ("apart.py", "derive.py", "rounded.py", "rows.py", "terms.py")
"""Modules that decide what stands in the rows; a change makes a new version."""

_HEAD = '''"""The SQL of the index. Made by `generate.py`; do not edit."""

from __future__ import annotations

# fmt: off
# ruff: noqa: E501, Q000

'''


def statements() -> str:
    """Give the text of the generated module."""
    dialect = sqlite.dialect()
    tables = [_table(cls) for cls in TABLES]
    create = [_plain(CreateTable(table).compile(dialect=dialect)) for table in tables]
    indexes = [
        _plain(CreateIndex(index).compile(dialect=dialect))
        for table in tables
        for index in sorted(table.indexes, key=lambda index: str(index.name))
    ]
    search = _search_table()
    values = {
        "VERSION": _version([*create, *indexes, *search.values()]),
        "CREATE": tuple(create),
        "INDEXES": tuple(indexes),
        **search,
        "COLUMNS": {t.name: tuple(c.name for c in t.columns) for t in tables},
        "INSERT": {table.name: _insert(table) for table in tables},
    }
    return _HEAD + "\n\n".join(_assigned(*item) for item in values.items()) + "\n"


def _table(cls: type) -> Table:
    table = cls.__table__  # type: ignore[attr-defined]
    assert isinstance(table, Table)
    return table


def _plain(compiled: object) -> str:
    return " ".join(str(compiled).split())


def _insert(table: Table) -> str:
    names = ", ".join(f'"{column.name}"' for column in table.columns)
    marks = ", ".join("?" for _ in table.columns)
    return f'INSERT OR REPLACE INTO "{table.name}" ({names}) VALUES ({marks})'


# Names come from our own schema, never from data.
# ruff: noqa: S608
def _search_table() -> dict[str, str]:
    """Give the full-text table over the columns the schema marks for search."""
    table = _table(Row)
    weights = {
        column.name: column.info["search"]
        for column in table.columns
        if "search" in column.info
    }
    names = ", ".join(weights)
    given = ", ".join("?" for _ in weights)
    return {
        "CREATE_SEARCH": f"CREATE VIRTUAL TABLE search USING fts5({names}, "
        f"content='{table.name}', content_rowid='key', tokenize='ascii', "
        "detail=column, prefix='1 2 3')",
        "FILL_SEARCH": "INSERT INTO search (search) VALUES ('rebuild')",
        "ADD_SEARCH": f"INSERT INTO search (rowid, {names}) VALUES (?, {given})",
        "DROP_SEARCH": f"INSERT INTO search (search, rowid, {names}) "
        f"VALUES ('delete', ?, {given})",
        "WEIGHTS": ", ".join(str(weight) for weight in weights.values()),
    }


def _version(parts: list[str]) -> str:
    made = sha256("\n".join(parts).encode())
    for name in MEANING:
        made.update((HERE / name).read_bytes().replace(b"\r\n", b"\n"))
    return made.hexdigest()[:16]


def _assigned(name: str, value: object) -> str:
    if isinstance(value, tuple):
        lines = "".join(f"    {item!r},\n" for item in value)
        return f"{name} = (\n{lines})"
    if isinstance(value, dict):
        lines = "".join(f"    {key!r}: {item!r},\n" for key, item in value.items())
        return f"{name} = {{\n{lines}}}"
    return f"{name} = {value!r}"


def main() -> None:
    """Write the module anew."""
    (HERE / "statements.py").write_text(statements(), "utf-8", newline="\n")


if __name__ == "__main__":
    main()
