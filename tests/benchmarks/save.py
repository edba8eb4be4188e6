"""What the user waits for at a save, against `git add F && git commit -m` by hand.

    python -m tests.benchmarks.save [tracked files ...]

Both write a record into a month folder of the same repository, in turn; the
medians and their ratio are printed. Only the ratio of one run means anything.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from logbook.records.written.text import digest
from logbook.store.disk.save import Write, append, save

GOALS = {100: 0.1, 100_000: 0.02}
ROUNDS = 15
RECORD = b"# Base opening\n\n```toml\nkind = 'measuring run'\n```\n" + b"Words.\n" * 60


def git(folder: Path, *words: str) -> None:
    who = ("-c", "user.name=Bench", "-c", "user.email=bench@example.org")
    command = ["git", "-C", str(folder), *who, *words]
    subprocess.run(command, check=True, capture_output=True)


def repository(folder: Path, tracked: int) -> Path:
    """Make a repository with `tracked` files, a thousand to a folder."""
    git(folder.parent, "init", "-q", str(folder))
    for number in range(tracked):
        place = folder / f"files/{number // 1000:03}/{number:06}.txt"
        if number % 1000 == 0:
            place.parent.mkdir(parents=True)
        place.write_text(f"{number}\n")
    (folder / "as-built/run/2603").mkdir(parents=True)
    git(folder, "add", ".")
    git(folder, "commit", "-q", "-m", "Files")
    return folder


def seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def by_hand(folder: Path, number: int) -> None:
    path = f"as-built/run/2603/hand-{number}.md"
    (folder / path).write_bytes(RECORD)
    git(folder, "add", path)
    git(folder, "commit", "-q", "-m", "Base opening")


def measure(tracked: int) -> bool:
    """Print the medians at `tracked` files; tell whether the goal is met."""
    with tempfile.TemporaryDirectory() as scratch:
        folder = repository(Path(scratch) / "design", tracked)
        root, lock = folder / "as-built", folder / ".git/logbook/lock"
        hand, ours, adding = [], [], []
        os.sync()  # what making the repository left to write is not ours to wait for
        for number in range(ROUNDS):
            path = f"run/2603/ours-{number}.md"
            write = Write(path, RECORD, None)
            ours.append(seconds(lambda w=write: save(root, [w], lock=lock)))  # type: ignore[misc]
            adding.append(
                seconds(
                    lambda p=path: append(  # type: ignore[misc]
                        root, p, b"178.65 mm\n", digest(RECORD), lock=lock
                    )
                )
            )
            hand.append(seconds(lambda n=number: by_hand(folder, n)))  # type: ignore[misc]
    by, durable, added = map(statistics.median, (hand, ours, adding))
    goal = GOALS.get(tracked)
    print(
        f"{tracked:7} tracked: by hand {by * 1e3:.1f} ms, durable save "
        f"{durable * 1e3:.2f} ms, a reading added {added * 1e3:.2f} ms; "
        f"ratio {durable / by:.3f} (goal {goal or 'none'})"
    )
    return goal is None or durable / by <= goal


if __name__ == "__main__":
    sizes = [int(word) for word in sys.argv[1:]] or list(GOALS)
    met = [measure(size) for size in sizes]
    sys.exit(0 if all(met) else 1)
