"""The index against doing the same by hand: opening, full truth, rebuild, search.

    python -m tests.benchmarks.index [entries ...]

Each time stands beside a bare one of the same run; only their ratios mean
anything. The project is invented, committed, and pulls from a real clone.
"""

from __future__ import annotations

import os
import random
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from logbook.index import statements
from logbook.index.catalogue import Index
from logbook.index.query import ALL, Filter
from logbook.index.reading import PROOF_NS
from logbook.records.kinds.design import Part
from logbook.records.kinds.place import FOLDER
from logbook.records.written.text import Parsed, read_record
from tests.benchmarks.big_project import WORDS, Bench, git, make_project, write_files

SIZES = (1_000, 100_000)
ROUNDS = 7
PULLED = 100
SEARCHES = 1000
TRUTH_GOAL, REBUILD_GOAL, SEARCH_GOAL_MS = 0.5, 2.0, 10.0


def seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


@dataclass
class Stand:
    """A project with its index, and a clone somebody else logs in."""

    here: Path
    there: Path
    database: Path
    bench: Bench

    def paths(self) -> list[str]:
        """Name every record file there is."""
        found = (self.here / FOLDER).rglob("*.md")
        return [path.relative_to(self.here).as_posix() for path in found]

    def pull(self) -> list[str]:
        """Pull entries that were logged in the clone; give their paths."""
        records = (self.bench.entry() for _ in range(PULLED))
        paths = write_files(self.there, records)
        git(self.there, "add", ".")
        git(self.there, "commit", "-q", "-m", "A day at the bench")
        git(self.here, "pull", "-q", "--ff-only", "../there", "main")
        return paths


def made(folder: Path, entries: int) -> Stand:
    here, there = folder / "here", folder / "there"
    bench = make_project(here, entries, commit=True)
    git(folder, "clone", "-q", "here", "there")
    git(there, "config", "user.name", "Other Builder")
    git(there, "config", "user.email", "other@example.org")
    git(there, "config", "gc.auto", "0")
    return Stand(here, there, here / ".git/as-built-logbook/index.sqlite", bench)


# -- cold rebuild ----------------------------------------------------------------


def rebuild(stand: Stand) -> bool:
    """Open without an index, which builds it, against the bare work in a child."""
    ours, bare = [], []
    os.sync()
    for _ in range(ROUNDS if len(stand.paths()) < 10_000 else 3):
        stand.database.unlink(missing_ok=True)
        ours.append(seconds(lambda: Index.open(stand.here, stand.database).close()))
        words = [sys.executable, "-m", "tests.benchmarks.index", "--bare"]
        command = [*words, str(stand.here), str(stand.database)]
        said = subprocess.run(command, check=True, capture_output=True, text=True)
        bare.append(float(said.stdout))
    us, by = statistics.median(ours), statistics.median(bare)
    print(
        f"  cold rebuild {us:.2f} s, read + parse + bulk insert {by:.2f} s: "
        f"ratio {us / by:.2f} (goal {REBUILD_GOAL})",
        flush=True,
    )
    return us / by <= REBUILD_GOAL


def bare_rebuild(root: Path, made: Path) -> float:
    """Time reading and parsing every file, and inserting rows that are ready.

    The rows are those of the index at `made`; getting hold of them is not timed.
    """
    parsed = seconds(lambda: parse_all(root))
    source = sqlite3.connect(made)
    rows = {
        table: source.execute(f"SELECT * FROM {table}").fetchall()
        for table in statements.COLUMNS
    }
    source.close()
    beside = made.with_name("bare.sqlite")
    inserted = seconds(lambda: insert_all(beside, rows))
    beside.unlink()
    return parsed + inserted


def parse_all(root: Path) -> list[Parsed]:
    places = sorted((root / FOLDER).rglob("*.md"))
    return [read_record(place.read_bytes(), place.name) for place in places]


def insert_all(path: Path, rows: dict[str, list[tuple[object, ...]]]) -> None:
    db = sqlite3.connect(path, isolation_level=None)
    db.execute("PRAGMA journal_mode = OFF")
    db.execute("PRAGMA synchronous = OFF")
    db.execute("BEGIN")
    for command in statements.CREATE:
        db.execute(command)
    for table, held in rows.items():
        db.executemany(statements.INSERT[table], held)
    last = (statements.CREATE_SEARCH, statements.FILL_SEARCH)
    for command in (*statements.INDEXES, *last):
        db.execute(command)
    db.execute("COMMIT")
    db.close()
    with path.open("rb+") as file:
        os.fsync(file.fileno())


def settle(stand: Stand) -> None:
    """Let the files grow older than their times are coarse, and take them in."""
    time.sleep(PROOF_NS / 1e9 + 0.1)
    index = Index.open(stand.here, stand.database)
    index.bring_up_to_date()
    index.close()


# -- open after a pull -----------------------------------------------------------


def after_a_pull(stand: Stand) -> bool:
    """Open after a pull: the first rows, then the full truth, against bare work."""
    first, truth, bare = [], [], []
    for _ in range(ROUNDS):
        came = stand.pull()
        start = time.perf_counter()
        index = Index.open_existing(stand.here, stand.database)
        assert index is not None
        index.newest(20)
        first.append(time.perf_counter() - start)
        touched: list[str] = []
        truth.append(seconds(lambda i=index, t=touched: t.extend(i.bring_up_to_date())))  # type: ignore[misc]
        assert len(touched) == len(came)
        index.close()
        bare.append(stat_and_parse(stand, came))
        settle(stand)
    shown = statistics.median(first) * 1e3
    print(f"  open after a pull of {PULLED}: first rows {shown:.1f} ms")
    return told(f"full truth after a pull of {PULLED}", truth, bare)


def unchanged(stand: Stand, edited: int) -> bool:
    """Bring up to date where none, or a few, files were edited."""
    index = Index.open(stand.here, stand.database)
    index.bring_up_to_date()
    paths = stand.paths()
    truth, bare = [], []
    for _ in range(ROUNDS):
        chosen = stand.bench.dice.sample(paths, edited)
        for path in chosen:
            with (stand.here / path).open("a", encoding="utf-8") as file:
                file.write("\nSeen again.\n")
        truth.append(seconds(index.bring_up_to_date))
        bare.append(stat_and_parse(stand, chosen))
    index.close()
    return told(f"full truth, {edited} edited", truth, bare)


def told(what: str, ours: list[float], bare: list[float]) -> bool:
    us, by = statistics.median(ours), statistics.median(bare)
    print(
        f"  {what}: {us * 1e3:.1f} ms, stat of every file and parsing what changed "
        f"{by * 1e3:.1f} ms: ratio {us / by:.2f} (goal {TRUTH_GOAL})"
    )
    return us / by <= TRUTH_GOAL


def stat_and_parse(stand: Stand, changed: list[str]) -> float:
    """Time a stat of every file and the parsing of what changed; names are known."""
    places = [f"{stand.here}/{path}" for path in stand.paths()]
    start = time.perf_counter()
    for place in places:
        os.lstat(place)
    for path in changed:
        read_record((stand.here / path).read_bytes(), path)
    return time.perf_counter() - start


# -- search ----------------------------------------------------------------------


def searches(stand: Stand) -> bool:
    """Ask for the newest 20 of words, beginnings, sizes, and filters."""
    index = Index.open(stand.here, stand.database)
    index.bring_up_to_date()
    dice = random.Random(7)
    parts = [part.id for part in stand.bench.made[Part]]
    taken: list[tuple[float, str]] = []
    for number in range(SEARCHES):
        typed = asked_for(dice, number)
        wanted = (
            ALL,
            Filter(kind="note"),
            Filter(part=dice.choice(parts)),
            Filter(entries=True, kind="failure"),
        )[number % 4]
        took = seconds(lambda t=typed, w=wanted: index.search(t, w, 20))  # type: ignore[misc]
        taken.append((took * 1e3, typed))
    index.close()
    taken.sort()
    middle, high = (taken[SEARCHES * share // 1000][0] for share in (500, 989))
    worst = taken[-1]
    print(
        f"  search, newest 20: median {middle:.2f} ms, p99 {high:.2f} ms "
        f"(goal {SEARCH_GOAL_MS:.0f} ms), slowest {worst[0]:.1f} ms (“{worst[1]}”)"
    )
    return high <= SEARCH_GOAL_MS


def asked_for(dice: random.Random, number: int) -> str:
    """Invent what is typed: a word, its beginning, a size, two of them."""
    word = dice.choice(WORDS)
    size = f"{dice.randint(1000, 30000) / 100:.2f}"
    return (
        word,
        word[:1],
        word[:2],
        size,
        f"{size} mm",
        f"{dice.randint(1, 63)}/64 in",
        f"{word} {size}",
        f"{word} {dice.choice(WORDS)} {dice.choice(WORDS)[:3]}",
    )[number % 8]


def measure(entries: int) -> bool:
    with tempfile.TemporaryDirectory() as place:
        stand = made(Path(place), entries)
        print(f"{entries} entries", flush=True)
        met = [rebuild(stand)]
        settle(stand)
        met += [after_a_pull(stand), searches(stand)]
        met += [unchanged(stand, 0), unchanged(stand, 10)]
    return all(met)


def main(words: list[str]) -> int:
    if words[:1] == ["--bare"]:
        print(bare_rebuild(Path(words[1]), Path(words[2])))
        return 0
    met = [measure(size) for size in map(int, words or map(str, SIZES))]
    return 0 if all(met) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
