"""A bare table with the newest rows of an index; it ends when its first row is drawn.

python -m tests.benchmarks.measured.bare_table DATABASE
"""

from __future__ import annotations

import asyncio
import os
import sqlite3
import sys

from textual.app import App, ComposeResult
from textual.strip import Strip
from textual.widgets import DataTable

NEWEST = "select moment, kind, title from record order by moment desc, id desc limit 80"


class Table(DataTable[str]):
    """A table whose first row under its heading ends the program."""

    def render_line(self, y: int) -> Strip:
        strip = super().render_line(y)
        if y > 1 and self.row_count:
            os._exit(0)
        return strip


class Bare(App[None]):
    """An app that has nothing but the table."""

    def compose(self) -> ComposeResult:
        yield Table()

    def on_mount(self) -> None:
        rows = sqlite3.connect(sys.argv[1]).execute(NEWEST).fetchall()
        table = self.query_one(Table)
        table.add_columns("when", "kind", "title")
        table.add_rows([[str(cell) for cell in row] for row in rows])


async def main() -> None:
    async with Bare().run_test(size=(80, 24)):
        await asyncio.sleep(60)


if __name__ == "__main__":
    asyncio.run(main())
    sys.exit("no row was drawn")
