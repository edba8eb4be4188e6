"""What a commit in the worker costs against `git add F && git commit -m` by hand.

Run it: `python -m tests.benchmarks.commit_route [--rounds N] [TRACKED ...]`.
Only the ratios mean anything: both ways run by turns in one repository, on one
disk, and medians are compared. GitPython is imported before the first round, as
it is in a worker that has committed once.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from statistics import median

from logbook.store.git.message import Change
from logbook.store.git.repository import Repository
from logbook.store.git.route import commit

LIMITS = {100: (2.5, 0.25), 100_000: (0.4, 0.03)}
"""Tracked files: what one entry, and twenty in one pass, may cost against by hand."""

MANY = 20


def git(top: Path, *words: str) -> None:
    """Run git as a user would."""
    subprocess.run(["git", *words], cwd=top, check=True, capture_output=True)


def repository(top: Path, tracked: int) -> Repository:
    """Make a repository with so many tracked files and something staged."""
    git(top, "init", "-q")
    for number in range(tracked - 1):
        folder = top / f"drawings/{number // 200:04}"
        if number % 200 == 0:
            folder.mkdir(parents=True)
        (folder / f"part-{number:06}.dxf").write_text(f"0\nSECTION\n{number}\n")
    (top / "as-built/notes/2603").mkdir(parents=True)
    (top / "as-built/project.md").write_text("# Copy stand\n")
    git(top, "add", ".")
    git(top, "-c", "gc.auto=0", "commit", "-q", "-m", "Draw the parts")
    git(top, "gc", "-q")
    found = Repository.find(top)
    assert found is not None
    return found


def notes(top: Path, name: str, count: int) -> list[str]:
    """Save invented records, as durable as the program makes them."""
    paths = [f"as-built/notes/2603/{name}-{number:02}.md" for number in range(count)]
    for path in paths:
        with (top / path).open("w") as file:
            file.write(f"# Crossbar filed\n\n178.3 mm. {path}\n")
            file.flush()
            os.fsync(file.fileno())
    return paths


def by_hand(found: Repository, paths: list[str]) -> None:
    """Add and commit one file after the other with git's own commands."""
    for path in paths:
        git(found.top, "add", path)
        git(found.top, "commit", "-q", "-m", f"Note {path}")


def by_route(found: Repository, paths: list[str]) -> None:
    """Commit all in one pass of the route, each as a commit of its own."""
    outcome = commit(found, [Change((path,), f"Note {path}") for path in paths])
    if len(outcome.committed) != len(paths):
        raise SystemExit(f"not committed: {outcome.waiting}")


def seconds(way: Callable[[], None]) -> float:
    """Time one run."""
    start = time.perf_counter()
    way()
    return time.perf_counter() - start


def ratio(found: Repository, count: int, rounds: int) -> tuple[float, float]:
    """Give the median of by hand in ms, and of the route against it."""
    times: dict[Callable[[Repository, list[str]], None], list[float]] = {
        by_hand: [],
        by_route: [],
    }
    by_route(found, notes(found.top, f"warm-{count}", 1))
    for turn in range(rounds):
        for way, taken in times.items():
            paths = notes(found.top, f"{way.__name__}-{count}-{turn}", count)
            taken.append(seconds(lambda way=way, paths=paths: way(found, paths)))  # type: ignore[misc]
    hand, route = (median(times[way]) for way in (by_hand, by_route))
    return hand * 1000, route / hand


def main(words: Sequence[str] | None = None) -> int:
    """Print a line for each size; end with 1 if a limit is passed."""
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("tracked", nargs="*", type=int, default=[100, 100_000])
    reader.add_argument("--rounds", type=int, default=15)
    asked = reader.parse_args(words)
    within = True
    for tracked in asked.tracked:
        one, many = LIMITS.get(tracked, (float("inf"), float("inf")))
        with tempfile.TemporaryDirectory() as folder:
            found = repository(Path(folder), tracked)
            for count, limit in ((1, one), (MANY, many)):
                rounds = (
                    asked.rounds
                    if count == 1
                    else min(asked.rounds, max(3, asked.rounds // 5))
                )
                hand_ms, cost = ratio(found, count, rounds)
                within = within and cost <= limit
                print(
                    f"{tracked} tracked, {count} at once: by hand {hand_ms:.1f} ms = "
                    f"1.00, route {cost:.3f} (limit {limit})"
                )
    return 0 if within else 1


if __name__ == "__main__":
    sys.exit(main())
