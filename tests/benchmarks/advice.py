"""How dear advice is, against going once through all readings and doing nothing.

Run as a script: `python -m tests.benchmarks.advice [TIMES]`. A project of 300 parts,
2,000 characteristics, 200 gaps, 400 joints and 20,000 entries (all invented, the
same each time) is laid out in a child process; then everything is worked out, and
again after one more reading: at once what hangs on that reading, and what hangs on
the shop's figures when the run rests. Aims: all of it in 1 s after opening, what
hangs on one reading in 100 ms. A second, ten times larger project shows how that
grows. Times are of the processor, so that other programs do not count.

The collector of rubbish is off, as in the process beside the keys that advises
(`logbook.screens.desk.beside`); the first answer is timed with it on, too.
"""

from __future__ import annotations

import gc
import json
import random
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, TypeVar

from logbook.advice.advisor import Advisor
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds import assembling, design, happenings, workshop
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import path_of
from logbook.records.together.from_files import make_snapshot
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.succession import Read, next_snapshot
from logbook.records.written.text import Parsed
from tests.advice.world import World

T = TypeVar("T")
PARTS, CHARACTERISTICS, GAPS, JOINTS, ENTRIES = 300, 2000, 200, 400, 20_000
STEPS = 100
PROCESSES = ("folding", "sawing", "hand drilling", "laser cutting", "3D printing")
MATERIALS = ("aluminium 5052-H32", "PLA", "beech", "opal polystyrene", "steel")
ROUNDS = 5


@dataclass
class Works(World):
    """A shop that invents a project; the same seed gives the same one."""

    times: float = 1
    dice: random.Random = field(default_factory=lambda: random.Random(20260314))

    def so_many(self, count: int) -> int:
        return round(count * self.times)

    def size(self, around: float = 50.0) -> str:
        return f"{around + self.dice.gauss(0, 0.1):.2f} mm"

    def lay_out(self) -> None:
        self.rooms(coldest="15 °C", hottest="35 °C", driest="30 %", dampest="65 %")
        self.tool = self.instrument(uncertainty="0.04 mm", resolution="0.01 mm")
        self.builds = [
            self.add(workshop.Build(title=f"build {n}", **self.about()))
            for n in range(5)
        ]
        self.design()
        for _ in range(self.so_many(ENTRIES)):
            self.happens()

    def design(self) -> None:
        self.parts = [
            self.part(
                f"part {n}",
                process=(self.dice.choice(PROCESSES),),
                material=self.dice.choice(MATERIALS),
                thickness=parse_quantity("2 mm"),
            )
            for n in range(self.so_many(PARTS))
        ]
        self.sizes: dict[str, list[design.Characteristic]] = {}
        for n in range(self.so_many(CHARACTERISTICS)):
            part = self.parts[n % len(self.parts)]
            limits = " ±0.1" if self.dice.random() < 0.5 else ""
            held = self.sizes.setdefault(part.id, [])
            held.append(self.dimension(part, f"size {len(held)}", f"50{limits}"))
        self.pieces = {
            part.id: [
                self.piece(part, build=self.dice.choice(self.builds).ref)
                for _ in range(4)
            ]
            for part in self.parts
        }
        for n in range(self.so_many(GAPS)):
            self.over(n)
        for n in range(self.so_many(JOINTS)):
            self.joined(n)
        for n, part in enumerate(self.parts[: self.so_many(STEPS)]):
            uses = (self.dice.choice(self.parts).ref,) if n % 3 else ()
            self.add(
                assembling.Step(
                    title=f"step {n}", number=n + 1, makes=part.ref,
                    uses=uses if uses and uses[0].id < part.id else (),
                    closes=n % 20 == 0, **self.about(),
                )
            )  # fmt: skip

    def over(self, n: int) -> None:
        some = self.dice.sample(self.parts, self.dice.randint(2, 5))
        chosen = [(p, self.dice.choice(self.sizes[p.id])) for p in some]
        terms = [f"{p.name}.{what.name}" for p, what in chosen]
        count = len(terms) - 1
        formula = " + ".join(terms[:count]) + f" - {terms[-1]}"
        self.gap(
            f"gap {n}", f"{formula} - {50 * (count - 1)} mm", "-1 to 1",
            made_last=chosen[-1][1].ref if n % 2 else None,
        )  # fmt: skip

    def joined(self, n: int) -> None:
        some = self.dice.sample(self.parts, self.dice.randint(2, 4))
        layers = tuple(
            assembling.Layer(part=p.ref, edge_distance=parse_quantity("8 mm"))
            for p in some
        )
        self.add(
            assembling.Joint(
                title=f"joint {n}", fastener="M4x16", nut="plain", layers=layers,
                **self.about(),
            )
        )  # fmt: skip

    def happens(self) -> None:
        part = self.dice.choice(self.parts)
        piece = self.dice.choice(self.pieces[part.id])
        sort = self.dice.random()
        build = piece.build
        if sort < 0.6:
            what = self.dice.choice(self.sizes[part.id])
            ends = {place: self.size() for place in ("left", "right")}
            self.read(piece, what, ends, self.tool, build=build)
        elif sort < 0.65:
            sizes = {"temperature": "45 °C", "room": "22 °C", "after": "2 h"}
            told = {name: parse_quantity(text) for name, text in sizes.items()}
            self.add(
                happenings.Failure(
                    title="sagged", piece=piece.ref, build=build,
                    conditions=happenings.Conditions(place="face", **told),  # type: ignore[arg-type]
                    **self.about(),
                )
            )  # fmt: skip
        elif sort < 0.75:
            what = self.dice.choice(self.sizes[part.id])
            self.add(
                happenings.Deviation(
                    title="off", piece=piece.ref, characteristic=what.ref, build=build,
                    found=parse_quantity(self.size()), **self.about(),
                )
            )  # fmt: skip
        else:
            self.add(
                happenings.Note(
                    title="note", part=part.ref, build=build, **self.about()
                )
            )

    def one_more(self) -> happenings.Run:
        """Read one more dimension that a gap runs over."""
        gap = next(r for r in self.records.values() if isinstance(r, assembling.Fit))
        name = gap.formula.split(".")[0]
        part = next(p for p in self.parts if p.name == name)
        piece = self.pieces[part.id][-1]
        ends = {"left": self.size()}
        return self.read(piece, self.sizes[part.id][0], ends, self.tool)


Files = dict[str, Read]


def read(record: Record) -> tuple[str, Read]:
    """Give a record as it was read; its id stands for its hash."""
    return path_of(record), (record.id, Parsed(record, ()))


def bare(snapshot: Snapshot) -> float:
    """Go through all readings, each as a float in mm: what any answer has to do."""
    total = 0.0
    for stored in snapshot.stored.values():
        if isinstance(stored.record, happenings.Run):
            for reading in stored.record.readings:
                if isinstance(reading.value, Quantity):
                    total += float(reading.value.to("mm"))
    return total


@dataclass
class Clock:
    """Times by what was timed, in seconds."""

    times: dict[str, list[float]] = field(default_factory=dict)

    def on(self, name: str, work: Callable[[], T]) -> T:
        """Do something, and add its time."""
        start = time.process_time()
        done = work()
        self.times.setdefault(name, []).append(time.process_time() - start)
        return done

    def medians(self) -> dict[str, float]:
        return {name: statistics.median(each) for name, each in self.times.items()}


def child(times: float) -> None:
    """Lay one project out, time its answers, and print them for the parent."""
    works = Works(times=times)
    works.lay_out()
    files: Files = dict(read(record) for record in works.records.values())
    clock = Clock()
    gc.freeze()
    for on in (True, False) if times == 1 else (False,):
        (gc.enable if on else gc.disable)()
        for _ in range(3 if times == 1 else 1):
            advisor, snapshot = Advisor(), made(files)
            clock.on("peer", lambda: bare(snapshot))  # noqa: B023 - called at once
            name = "first, collecting" if on else "first"
            clock.on(name, lambda: advisor.update(snapshot))  # noqa: B023
    for _ in range(ROUNDS):
        for fold in (False, False, True):
            path, run = read(works.one_more())
            fresh = {**files, path: run}
            snapshot = clock.on(
                "taken in",
                lambda: next_snapshot(snapshot, files, fresh, [path]),  # noqa: B023
            )
            files = fresh
            name = "with the figures" if fold else "later"
            clock.on(name, lambda: advisor.update(snapshot, fold=fold))  # noqa: B023
    told = advisor.update(snapshot)
    assert told == Advisor().update(made(files))
    found = {"records": len(files), "advice": len(told.advice)}
    print(json.dumps({**found, "problems": len(told.problems), **clock.medians()}))


def made(files: Files) -> Snapshot:
    return make_snapshot((path, *one) for path, one in files.items())


def measured(times: float) -> dict[str, Any]:
    """Time a project in a process of its own."""
    words = [sys.executable, "-m", "tests.benchmarks.advice", "child", str(times)]
    done = subprocess.run(words, check=True, capture_output=True, text=True)
    found: dict[str, Any] = json.loads(done.stdout)
    return found


ROWS = (
    ("first", "first full answer", "aim 1000 ms"),
    ("first, collecting", "the same with the collector on", ""),
    ("taken in", "one more reading taken into the snapshot", ""),
    ("later", "after it, what hangs on it", "aim 100 ms"),
    ("with the figures", "after it, with the shop's figures", ""),
    ("peer", "bare pass through all readings", ""),
)


def main(words: list[str]) -> None:
    """Print what each project takes, and ratios to the bare pass."""
    if words[:1] == ["child"]:
        child(float(words[1]))
        return
    for times in [float(word) for word in words] or [1, 10]:
        found = measured(times)
        print(
            f"×{times:g}: {found['records']} records, {found['advice']} pieces of "
            f"advice, {found['problems']} problems"
        )
        for name, said, aim in ROWS:
            if name in found:
                ratio = found[name] / found["peer"]
                print(f"  {1000 * found[name]:8.1f} ms {ratio:7.2f} × {said:42} {aim}")


if __name__ == "__main__":
    main(sys.argv[1:])
