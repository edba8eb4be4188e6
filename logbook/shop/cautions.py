"""Cautions by process, in our own words, each deferring to who really decides."""

from __future__ import annotations

from collections.abc import Iterable

from logbook.shop.tables import Table, table


def cautions() -> Table:
    """Give all cautions: `name`, `process`, `signal`, `line`, `defers`."""
    return table("cautions", "cautions")


def caution_lines(names: Iterable[str]) -> list[str]:
    """Give the lines of the cautions with these names, with who decides."""
    lines = []
    for name in names:
        row = cautions().named(name)
        lines.append(f"{row.text('line')} {row.text('defers')}")
    return lines
