"""First row on screen, against a bare Textual table with the same rows.

    .venv/bin/python -m tests.benchmarks.screen [entries …]

Whole processes, interleaved: each starts an interpreter, an app without a
terminal, and ends the moment its first row is drawn. Medians and their ratio.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.benchmarks.big_project import make_project

ROUNDS = 7
GOALS = {1_000: 1.2, 100_000: 1.5}

BARE = """
import asyncio, os, sqlite3, sys
from textual.app import App
from textual.widgets import DataTable
class Table(DataTable):
    def render_line(self, y):
        strip = super().render_line(y)
        if y > 1 and self.row_count:
            os._exit(0)
        return strip
class Bare(App):
    def compose(self):
        yield Table()
    def on_mount(self):
        db = sqlite3.connect(sys.argv[1])
        rows = db.execute("select moment, kind, title from record "
                          "order by moment desc, id desc limit 80").fetchall()
        table = self.query_one(Table)
        table.add_columns("when", "kind", "title")
        table.add_rows([[str(cell) for cell in row] for row in rows])
async def main():
    async with Bare().run_test(size=(80, 24)):
        await asyncio.sleep(60)
asyncio.run(main())
"""

OURS = """
import asyncio, os, sys
from pathlib import Path
from logbook.screens.app import LogbookApp
from logbook.screens.newest import Newest
drawn = Newest.render
def render(self):
    made = drawn(self)
    if self._records:
        os._exit(0)
    return made
Newest.render = render
async def main():
    async with LogbookApp(Path(sys.argv[1])).run_test(size=(80, 24)):
        await asyncio.sleep(60)
asyncio.run(main())
"""


def seconds(script: str, argument: Path) -> float:
    start = time.perf_counter()
    subprocess.run(
        [sys.executable, "-c", script, str(argument)], check=True, capture_output=True
    )
    return time.perf_counter() - start


def measure(count: int) -> None:
    from logbook.screens.glimpse import index_place, keep_index

    with tempfile.TemporaryDirectory() as place:
        root = Path(place)
        make_project(root, count)
        keep_index(root)
        database = index_place(root)
        bare, ours = [], []
        for _ in range(ROUNDS):
            bare.append(seconds(BARE, database))
            ours.append(seconds(OURS, root))
        one, other = statistics.median(bare), statistics.median(ours)
        print(
            f"{count} entries: bare table {one * 1000:.0f} ms, bench "
            f"{other * 1000:.0f} ms, ratio {other / one:.2f} (goal {GOALS.get(count)})"
        )


if __name__ == "__main__":
    for given in sys.argv[1:] or [str(count) for count in GOALS]:
        measure(int(given))
