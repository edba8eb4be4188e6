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
from logbook.store.git.own_folder import INDEX, in_git_folder
from logbook.store.git.repository import Repository
from tests.benchmarks.big_project import make_project

ROUNDS = 7
GOALS = {1_000: 1.2, 100_000: 1.5}

MEASURED = "tests.benchmarks.measured"
HOUSE = Path(__file__).parents[2]


def seconds(program: str, argument: Path) -> float:
    """Time a measured program from its start to its first row."""
    words = [sys.executable, "-m", f"{MEASURED}.{program}", str(argument)]
    start = time.perf_counter()
    subprocess.run(words, check=True, capture_output=True, cwd=HOUSE)
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
            bare.append(seconds("bare_table", database))
            ours.append(seconds("first_rows", root))
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
