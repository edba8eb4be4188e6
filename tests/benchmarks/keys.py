"""From a key to its glyph, through a real terminal, while the disk and git work.

    python -m tests.benchmarks.keys [--seconds N] [--blame] [entries …]

The real `logbook` runs in a pseudo-terminal on an invented project. Lines are
typed letter by letter, five letters and Enter each half second, so that two
entries a second are saved and committed; in the middle a pull of 1,000 entries
arrives. A letter's time ends when the terminal shows it in its line. `--blame`
also lists the slowest letters, and what held the event loop longer than 50 ms:
how much of that was its own work, how much it waited for a processor; the rest is
another thread. That costs a little.
"""

from __future__ import annotations

import argparse
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.benchmarks.big_project import Bench, git, make_project, write_files
from tests.benchmarks.screen import indexed
from tests.benchmarks.terminals import PROGRAM, Terminal, started

SIZES = (1_000, 100_000)
GOAL_MS = 30.0
PULLED = 1_000
PULL_FELT_S = 10.0
"""For so long after git has ended its pull the program may be at it."""
SLOWEST = 10
"""Letters named by `--blame`, each with its moment."""
GAP_S = 0.08
"""Between two letters; with five of them and Enter, two lines a second."""
LINES = ("swept", "tried", "noted", "dusty")
"""Words that are a note and nothing else."""
LOST_S = 10.0

BARE_LETTERS = 100
SETTLED_S = 2.0
"""Rest between the opening and the typing."""

BARE = ("tests.benchmarks.measured.bare_input",)
BLAMED = "tests.benchmarks.measured.blamed"


def letter(at: Terminal, typed: str) -> float:
    """Press the last letter of what then stands in the line; give milliseconds."""
    at.press(typed[-1])
    return at.until(f"say › │ {typed}", LOST_S) * 1e3


@dataclass(frozen=True)
class Letter:
    """A letter: the moment it was pressed, and milliseconds to its glyph.

    `after_enter` is its place in its line: what a save costs the first ones feel.
    """

    pressed: float
    took: float
    after_enter: int


def typing(at: Terminal, until: float) -> Iterator[Letter]:
    """Type lines and take them until a moment; give each letter."""
    number = 0
    while time.perf_counter() < until:
        line = LINES[number % len(LINES)]
        number += 1
        at.until("say › │ what happened", LOST_S)
        for end in range(1, len(line) + 1):
            pressed = time.perf_counter()
            took = letter(at, line[:end])
            yield Letter(pressed, took, end)
            at.rest(GAP_S - took / 1e3)
        at.press("\r")
        at.rest(GAP_S)


def clone(folder: Path, bench: Bench) -> None:
    """Make a clone that is so many entries ahead."""
    here, there = folder / "here", folder / "there"
    git(folder, "clone", "-q", "here", "there")
    for words in (
        ("config", "user.name", "Other Builder"),
        ("config", "user.email", "other@example.org"),
    ):
        git(there, *words)
    write_files(there, (bench.entry() for _ in range(PULLED)))
    git(there, "add", ".")
    git(there, "commit", "-q", "-m", "A month at the bench")
    git(here, "remote", "add", "there", "../there")


@dataclass
class Pull:
    """A pull in the middle of the typing, and when it began and ended."""

    began: float = 0.0
    ended: float = 0.0

    def __call__(self, here: Path) -> None:
        """Pull; a failure is told, it is no letter's time."""
        self.began = time.perf_counter()
        try:
            pull(here)
        except SystemExit as failure:
            print(f"  {failure}", flush=True)
        self.ended = time.perf_counter()

    def felt(self, one: Letter) -> bool:
        """Tell whether a letter was pressed while the pull could be felt."""
        return self.began <= one.pressed <= self.ended + PULL_FELT_S


def pull(here: Path) -> None:
    """Pull as a user would, again where git was busy with an entry."""
    for _ in range(20):
        words = ["git", "pull", "-q", "--no-rebase", "--no-edit", "there", "main"]
        done = subprocess.run(words, cwd=here, capture_output=True, check=False)
        if done.returncode == 0:
            return
        time.sleep(0.2)
    raise SystemExit(f"the pull failed: {done.stderr.decode()}")


def told(what: str, taken: list[float]) -> float:
    """Print the share of letters by time; give the 99th of a hundred."""
    if len(taken) < 2:
        return 0.0
    cuts = statistics.quantiles(taken, n=100, method="inclusive")
    print(
        f"  {what}: {len(taken)} letters, median {cuts[49]:.1f} ms, "
        f"p99 {cuts[98]:.1f} ms (goal {GOAL_MS:.0f} ms), slowest {max(taken):.0f} ms",
        flush=True,
    )
    return cuts[98]


def apart(letters: list[Letter], came: Pull) -> None:
    """Tell the letters during the pull apart from the others, first and later ones."""
    others = [one for one in letters if not came.felt(one)]
    for what, some in (
        ("during the pull", [one for one in letters if came.felt(one)]),
        (
            "apart from it, the first two of a line",
            [o for o in others if o.after_enter < 3],
        ),
        ("apart from it, the others", [o for o in others if o.after_enter >= 3]),
    ):
        told(f"  {what}", [one.took for one in some])


def slowest(letters: list[Letter], came: Pull) -> None:
    """Name the slowest letters with their moment, from the first letter on."""
    for one in sorted(letters, key=lambda one: -one.took)[:SLOWEST]:
        since = one.pressed - letters[0].pressed
        felt = f", {one.pressed - came.began:.1f} s after the pull began"
        where = f"letter {one.after_enter} of a line{felt if came.felt(one) else ''}"
        print(f"  {one.took:.0f} ms at {since:.1f} s: {where}")


def bare(folder: Path) -> None:
    """Type into an app that has nothing but an input, on the same machine."""
    taken: list[float] = []
    with started(folder, BARE) as at:
        at.until("what happened", 60)
        for number in range(BARE_LETTERS):
            typed = "x" * (number % 20 + 1)
            if number and len(typed) == 1:
                at.press("\x15")
                at.until("what happened", LOST_S)
            at.press("x")
            taken.append(at.until(typed, LOST_S) * 1e3)
            at.rest(GAP_S - taken[-1] / 1e3)
    told("a bare input, nothing else going on", taken)


def run(folder: Path, seconds: float, blame: Path | None) -> bool:
    """Type at the program while it opens, and while it works."""
    here = folder / "here"
    program = PROGRAM if blame is None else (BLAMED, str(blame))
    with started(here, program) as at:
        first = at.until(" note", 60)
        at.until("what happened", 60)
        opening: list[float] = []
        began = time.perf_counter()
        while at.glass.shows("reading the records"):
            opening.append(letter(at, "z"))
            at.rest(GAP_S)
            at.press("\x7f")
            at.rest(GAP_S)
        read = time.perf_counter() - began
        print(f"  first rows {first:.2f} s, records read {read:.1f} s later")
        told("while the records are read", opening)
        at.rest(SETTLED_S)
        end = time.perf_counter() + seconds
        came = Pull()
        pulling = threading.Timer(seconds / 2, came, [here])
        pulling.start()
        before = at.worked_s()
        letters = list(typing(at, end))
        loop, whole = (
            (now - then) / len(letters) * 1e3
            for now, then in zip(at.worked_s(), before, strict=True)
        )
        high = told("while it saves, commits and pulls", [one.took for one in letters])
        print(
            f"  processor time a letter, its share of an entry included: event loop "
            f"{loop:.1f} ms, other threads {whole - loop:.1f} ms"
        )
        pulling.join()
        apart(letters, came)
        if blame is not None:
            slowest(letters, came)
        late = at.until("all in git", 120)
        print(
            f"  memory: now {at.memory_mb('VmRSS'):.0f} MB, "
            f"at most {at.memory_mb('VmHWM'):.0f} MB"
        )
    log = subprocess.run(
        ["git", "log", "--first-parent", "--format=%an"],
        cwd=here, check=True, capture_output=True, text=True,
    ).stdout  # fmt: skip
    print(f"  {len(log.splitlines()) - 1} commits, the last {late:.1f} s after")
    return high <= GOAL_MS


def blamed(place: Path) -> None:
    """List what held the event loop, the longest first."""
    held: Counter[str] = Counter()
    longest: dict[str, tuple[int, int, int]] = {}
    for line in place.read_text().splitlines():
        what, *times = line.split("\t")
        took, own, waited = map(int, times)
        held[what] += 1
        longest[what] = max(longest.get(what, (0, 0, 0)), (took, own, waited))
    for what, count in held.most_common():
        most, mine, waited = longest[what]
        print(
            f"  over 50 ms: {what}, {count} times, up to {most} ms "
            f"(own {mine} ms, waited for a processor {waited} ms)"
        )


def measure(entries: int, seconds: float, *, blame: bool) -> bool:
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        bench = make_project(folder / "here", entries, commit=True)
        clone(folder, bench)
        indexed(folder / "here")
        print(f"{entries} entries", flush=True)
        record = folder / "blame" if blame else None
        bare(folder / "here")
        met = run(folder, seconds, record)
        if record is not None:
            blamed(record)
    return met


def main(words: Sequence[str] | None = None) -> int:
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("entries", nargs="*", type=int, default=list(SIZES))
    reader.add_argument("--seconds", type=float, default=40)
    reader.add_argument("--blame", action="store_true")
    asked = reader.parse_args(words)
    met = [measure(size, asked.seconds, blame=asked.blame) for size in asked.entries]
    return 0 if all(met) else 1


if __name__ == "__main__":
    sys.exit(main())
