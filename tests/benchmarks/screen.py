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

from logbook.index.catalogue import Index
from logbook.store.disk.own_places import INDEX, in_git_folder
from logbook.store.git.repository import Repository
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
from logbook.screens.ruled.newest import Newest
drawn = Newest.render_line
def render_line(self, y):
    made = drawn(self, y)
    if self._first or self._records:
        os._exit(0)
    return made
Newest.render_line = render_line
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


def indexed(root: Path) -> Path:
    """Bring the index of a project up to date; give its place."""
    repository = Repository.find(root)
    assert repository is not None
    place = in_git_folder(repository, root, INDEX)
    index = Index.open(root, place)
    index.bring_up_to_date()
    index.close()
    return place


def measure(count: int) -> bool:
    """Print the medians for a project of so many entries; tell if the goal is met."""
    with tempfile.TemporaryDirectory() as place:
        root = Path(place)
        make_project(root, count)
        database = indexed(root)
        bare, ours = [], []
        for _ in range(ROUNDS):
            bare.append(seconds(BARE, database))
            ours.append(seconds(OURS, root))
    one, other = statistics.median(bare), statistics.median(ours)
    pairs = statistics.median(us / by for us, by in zip(ours, bare, strict=True))
    goal = GOALS.get(count)
    print(
        f"{count} entries: bare table {one * 1000:.0f} ms, first rows "
        f"{other * 1000:.0f} ms, median ratio of pairs {pairs:.2f} (goal {goal})"
    )
    return goal is None or pairs <= goal


if __name__ == "__main__":
    met = [measure(int(given)) for given in sys.argv[1:] or map(str, GOALS)]
    sys.exit(0 if all(met) else 1)
