"""Writes a synthetic project of any size: real record files, all data invented.

Run it: `python -m tests.benchmarks.big_project FOLDER ENTRIES [--commit]`.
A fixed seed gives the same files each time. A twentieth of the records are
parts, revisions, dimensions, builds and pieces; the rest are entries that name
them.
"""

from __future__ import annotations

import argparse
import os
import random
import subprocess
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

from logbook.quantity import parse_quantity
from logbook.records.kinds import design, happenings, workshop
from logbook.records.kinds.ids import ALPHABET, ID_LENGTH
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import path_of
from logbook.records.kinds.words import Blame, Disposition, Severity
from logbook.records.written.text import write_record

FIRST = datetime(2016, 1, 4, 8, 0, tzinfo=UTC)
NOUNS = (
    "base", "upright", "crossbar", "bed", "diffuser", "gate", "mask", "collar",
    "lamp", "cable", "lid", "foot", "hinge", "spacer", "bracket", "knob",
)  # fmt: skip
WORDS = (
    *NOUNS, "the", "was", "filed", "to", "size", "by", "hand", "with", "a", "burr",
    "left", "right", "edge", "corner", "screw", "M3x8", "M4×16", "washer", "flush",
    "gap", "measured", "after", "lunch", "again", "drilled", "square", "Größe",
    "don’t", "force", "it", "clamp", "free", "bend", "springs", "back", "cut",
    "kerf", "sagged", "warm", "sheet", "opal", "polystyrene", "beech", "cracked",
)  # fmt: skip


class Bench:
    """A shop that invents records; the same seed gives the same ones."""

    def __init__(self, seed: int = 20260314) -> None:
        self.dice = random.Random(seed)
        self.made: dict[type[Record], list[Record]] = {}
        self.when = FIRST

    def id(self) -> str:
        return "".join(self.dice.choices(ALPHABET, k=ID_LENGTH))

    def words(self, few: int, many: int) -> str:
        return " ".join(self.dice.choices(WORDS, k=self.dice.randint(few, many)))

    def size(self) -> str:
        return f"{self.dice.randint(1000, 30000) / 100:.2f} mm"

    def kept(self, record: Record) -> Record:
        self.made.setdefault(type(record), []).append(record)
        return record

    def some(self, cls: type[Record]) -> Record:
        return self.dice.choice(self.made[cls])

    def project(self) -> Record:
        return design.Project(id=self.id(), title="Copy stand", when=FIRST)

    def definition(self, number: int) -> Record:
        """Give the next part, revision, dimension, build or piece, by turns."""
        about = {"id": self.id(), "when": self.when}
        turn = number % 5 if number >= 5 else number
        if turn == 0:
            noun = NOUNS[(number // 5) % len(NOUNS)]
            title = f"{noun} {number // 5}"
            name = f"{noun}_{number // 5}"
            made: Record = design.Part(title=title, name=name, **about)  # type: ignore[arg-type]
            return self.kept(made)
        part = self.made[design.Part][-1]
        if turn == 1:
            title = f"{part.title} first issue"
            made = design.Revision(title=title, part=part.ref, label="-", **about)  # type: ignore[arg-type]
        elif turn == 2:
            made = design.Characteristic(
                title="length", name="length", part=part.ref,
                nominal=parse_quantity(self.size()), **about,  # type: ignore[arg-type]
            )  # fmt: skip
        elif turn == 3:
            made = workshop.Build(title=f"build {number // 5 + 1}", **about)  # type: ignore[arg-type]
        else:
            made = workshop.Piece(
                title=f"{part.title}-1",
                part=part.ref,
                revision=self.made[design.Revision][-1].ref,
                build=self.made[workshop.Build][-1].ref,
                **about,  # type: ignore[arg-type]
            )
        return self.kept(made)

    def entry(self) -> Record:
        """Give the next thing that happened."""
        self.when += timedelta(minutes=self.dice.randint(1, 60))
        piece = self.some(workshop.Piece)
        build = self.made[workshop.Build][-1].ref
        about = {"id": self.id(), "when": self.when, "build": build}
        about["prose"] = self.words(5, 30)
        sort = self.dice.random()
        if sort < 0.35:
            return self.run(piece, about)
        if sort < 0.5:
            return happenings.Deviation(
                title=self.words(3, 6), piece=piece.ref,
                found=parse_quantity(self.size()),
                met_by_others=self.dice.choice(list(Blame)), **about,  # type: ignore[arg-type]
            )  # fmt: skip
        if sort < 0.6:
            return happenings.Failure(
                title=self.words(3, 6), piece=piece.ref, symptom=self.words(2, 5),
                severity=Severity.FIT, disposition=Disposition.REWORK, **about,  # type: ignore[arg-type]
            )  # fmt: skip
        part = self.some(design.Part).ref
        if sort < 0.7:
            return happenings.Decision(title=self.words(3, 7), part=part, **about)  # type: ignore[arg-type]
        return happenings.Note(title=self.words(3, 8), part=part, **about)  # type: ignore[arg-type]

    def run(self, piece: Record, about: dict[str, object]) -> Record:
        what = self.some(design.Characteristic).ref
        readings = tuple(
            happenings.Reading(
                id=self.id(),
                at=self.when + timedelta(seconds=10 * n),
                what=what,
                value=parse_quantity(self.size()),
                place=self.dice.choice(("left", "right", "")),
            )
            for n in range(self.dice.randint(1, 4))
        )
        title = f"Measured {what.name} of {piece.title}"
        return happenings.Run(title=title, piece=piece.ref, readings=readings, **about)  # type: ignore[arg-type]


def invented(entries: int, bench: Bench | None = None) -> Iterator[Record]:
    """Give a project of about `entries` records, definitions first."""
    bench = bench or Bench()
    yield bench.project()
    definitions = max(5, entries // 20)
    for number in range(definitions):
        yield bench.definition(number)
    for _ in range(max(0, entries - definitions - 1)):
        yield bench.entry()


def write_files(folder: Path, records: Iterator[Record]) -> list[str]:
    """Write each record to its file below `folder`, not flushed; give the paths."""
    paths, there = [], set()
    for record in records:
        path = path_of(record)
        place = f"{folder}/{path}"
        parent = place.rpartition("/")[0]
        if parent not in there:
            os.makedirs(parent, exist_ok=True)  # noqa: PTH103
            there.add(parent)
        descriptor = os.open(place, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o666)
        os.write(descriptor, write_record(record).encode())
        os.close(descriptor)
        paths.append(path)
    return paths


def make_project(folder: Path, entries: int, *, commit: bool = False) -> Bench:
    """Make a repository with a project of `entries` records; committed on request."""
    folder.mkdir(parents=True, exist_ok=True)
    bench = Bench()
    write_files(folder, invented(entries, bench))
    git(folder, "init", "-q", "-b", "main")
    git(folder, "config", "user.name", "Invented Builder")
    git(folder, "config", "user.email", "builder@example.org")
    git(folder, "config", "gc.auto", "0")
    if commit:
        git(folder, "add", ".")
        git(folder, "commit", "-q", "-m", "Write down everything so far")
    return bench


def git(folder: Path, *words: str) -> None:
    """Run git as a user would."""
    subprocess.run(["git", *words], cwd=folder, check=True, capture_output=True)


def main() -> None:
    """Make one from the command line."""
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("folder", type=Path)
    reader.add_argument("entries", type=int)
    reader.add_argument("--commit", action="store_true")
    asked = reader.parse_args()
    make_project(asked.folder, asked.entries, commit=asked.commit)


if __name__ == "__main__":
    main()
