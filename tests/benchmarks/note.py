"""`logbook note` from a cold start against a bare interpreter and git by hand.

    .venv/bin/python -m tests.benchmarks.note

Whole processes, interleaved, medians; ratios in one run are what counts.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROUNDS = 15


def seconds(words: list[str], folder: Path) -> float:
    start = time.perf_counter()
    subprocess.run(words, check=True, cwd=folder, capture_output=True)
    return time.perf_counter() - start


def main() -> None:
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        for words in (
            ["git", "init", "-q"],
            ["git", "config", "user.name", "B"],
            ["git", "config", "user.email", "b@invalid"],
            [sys.executable, "-m", "logbook", "start"],
        ):
            subprocess.run(words, check=True, cwd=folder, capture_output=True)
        note = [sys.executable, "-m", "logbook", "note", "at the bench"]
        ways = {
            "bare interpreter": [sys.executable, "-c", "pass"],
            "note --later": [*note, "--later"],
            "note, waiting for git": note,
        }
        times: dict[str, list[float]] = {name: [] for name in ways}
        by_hand: list[float] = []
        for number in range(ROUNDS):
            for name, words in ways.items():
                times[name].append(seconds(words, folder))
            (folder / f"{number}.txt").write_text("at the bench\n", "utf-8")
            took = seconds(["git", "add", f"{number}.txt"], folder)
            by_hand.append(took + seconds(["git", "commit", "-qm", "note"], folder))
        bare = statistics.median(times["bare interpreter"])
        hand = statistics.median(by_hand)
        print(f"git add && git commit by hand: {hand * 1000:.0f} ms")
        for name, taken in times.items():
            middle = statistics.median(taken)
            print(
                f"{name}: {middle * 1000:.0f} ms, {middle / bare:.1f} × bare, "
                f"{middle / hand:.1f} × by hand"
            )


if __name__ == "__main__":
    main()
