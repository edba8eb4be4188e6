"""Whatever happens to the files, the index answers as a plain scan does."""

from __future__ import annotations

import os
import shutil
import tempfile
import time
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from logbook.index import changes, reading, search
from logbook.index.query import ALL, ENTRIES, Filter
from logbook.index.reading import TICK_NS
from logbook.quantity import parse_quantity
from logbook.records.kinds import design, happenings, workshop
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.written.text import read_record
from tests.index.world import (
    NOON,
    agree,
    database,
    git,
    named,
    opened,
    started,
    write,
)

IDS = tuple(f"{n}{'abcdefg'}" for n in range(8))
TITLES = ("crossbar", "Crossbar-1", "build 1", "M3x8 screw", "Größe 86,42", "bed")
PROSES = (
    "filed to 178.3 mm", "3/16 in left", "don’t force it, 4.7625 mm", "86.420",
    "M30 and m3, -0.7 mm", "1,234", "58 °C", "½ in", "№q x 20 × 10 mm",
)  # fmt: skip
SEARCHES = (
    "", "cross", "crossbar 1", "M3", "86.42", "3/16 in", "4.7625", "dont", "gros",
    "-0.7 mm", "0.7", "1234", "1.234", "12.7 mm", "10 mm", "0abc", "58 C", "no",
    "4.76", "4,76 mm", "0.188 in", "-0.70", "7.06",
)  # fmt: skip


def refs() -> st.SearchStrategy[Ref]:
    by_id = st.builds(Ref, st.sampled_from(TITLES), st.sampled_from(IDS))
    by_name = st.builds(Ref, st.sampled_from(TITLES))
    return by_id | by_name


@st.composite
def some_record(draw: st.DrawFn) -> Record:
    about = {
        "id": draw(st.sampled_from(IDS)),
        "title": draw(st.sampled_from(TITLES)),
        "when": NOON + timedelta(seconds=draw(st.integers(0, 3)) / 2),
        "prose": draw(st.sampled_from(PROSES)),
        "formerly": draw(st.lists(st.sampled_from(TITLES), max_size=1).map(tuple)),
    }
    kind = draw(st.integers(0, 5))
    maybe = st.none() | refs()
    if kind == 0:
        return design.Part(**about)  # type: ignore[arg-type]
    if kind == 1:
        return workshop.Build(**about)  # type: ignore[arg-type]
    if kind == 2:
        part = draw(st.builds(Ref, st.just("a part"), st.sampled_from(IDS[:3])))
        return workshop.Piece(part=part, build=draw(maybe), **about)  # type: ignore[arg-type]
    if kind == 3:
        found = parse_quantity(draw(st.sampled_from(["86.42 mm", "3/16 in", "-5 °C"])))
        return happenings.Deviation(
            found=found, piece=draw(maybe), build=draw(maybe), **about  # type: ignore[arg-type]
        )  # fmt: skip
    about_others = tuple(draw(st.lists(refs(), max_size=2)))
    return happenings.Note(
        part=draw(maybe), build=draw(maybe), about=about_others, **about  # type: ignore[arg-type]
    )  # fmt: skip


class Clones(RuleBasedStateMachine):
    """One clone whose index is kept up to date, and another that it pulls from."""

    def __init__(self) -> None:
        super().__init__()
        self.patience = pytest.MonkeyPatch()
        self.patience.setattr(reading, "PROOF_NS", TICK_NS)

    @initialize(
        few=st.sampled_from([0, changes.FEW_FILES]),
        at_once=st.sampled_from([1, 4, search.AT_ONCE]),
    )
    def start(self, few: int, at_once: int) -> None:
        self.patience.setattr(search, "AT_ONCE", at_once)
        self.patience.setattr(changes, "FEW_FILES", few)
        self.folder = Path(tempfile.mkdtemp())
        self.top = started(self.folder / "here")
        git(self.top, "add", ".")
        git(self.top, "commit", "-q", "-m", "Start")
        git(self.folder, "clone", "-q", "here", "there")
        self.other = self.folder / "there"
        named(self.other)
        self.index = opened(self.top)

    def files(self, top: Path) -> list[Path]:
        found = sorted(top.glob("as-built/*/**/*.md"))
        return [place for place in found if place.is_file()]

    def put(self, top: Path, record: Record, path: str = "") -> None:
        self.index.take_in([write(top, record, path)])

    @rule(record=some_record())
    def save(self, record: Record) -> None:
        self.put(self.top, record)

    @rule(record=some_record(), number=st.integers(0, 2))
    def write_somewhere_else(self, record: Record, number: int) -> None:
        self.put(self.top, record, f"as-built/notes/copies/{number}.md")

    @rule(record=some_record())
    def another_writes_and_commits(self, record: Record) -> None:
        write(self.other, record)
        git(self.other, "add", ".")
        git(self.other, "commit", "-q", "-m", "Note", check=False)

    @rule(number=st.integers(0, 20), tell=st.booleans())
    def delete(self, number: int, tell: bool) -> None:
        if files := self.files(self.top):
            place = files[number % len(files)]
            place.unlink()
            if tell:
                self.index.take_in([place.relative_to(self.top).as_posix()])

    @rule(number=st.integers(0, 20), keep_time=st.booleans(), swap=st.booleans())
    def edit_same_size(self, number: int, keep_time: bool, swap: bool) -> None:
        if files := self.files(self.top):
            place = files[number % len(files)]
            seen, data = place.stat(), place.read_bytes()
            new = data.replace(b"86", b"68").replace(b"left", b"tfel")
            if swap:
                beside = place.with_suffix(".new")
                beside.write_bytes(new)
                beside.replace(place)
            else:
                place.write_bytes(new)
            if keep_time:
                os.utime(place, ns=(seen.st_atime_ns, seen.st_mtime_ns))

    @rule(number=st.integers(0, 20))
    def touch(self, number: int) -> None:
        if files := self.files(self.top):
            files[number % len(files)].touch()

    @rule(number=st.integers(0, 20), text=st.sampled_from(["", "# x", "<<<<<<< a"]))
    def break_a_file(self, number: int, text: str) -> None:
        if files := self.files(self.top):
            files[number % len(files)].write_text(text)

    @rule(number=st.integers(0, 20), title=st.sampled_from(TITLES))
    def rename(self, number: int, title: str) -> None:
        if files := self.files(self.top):
            path = files[number % len(files)].relative_to(self.top).as_posix()
            record = read_record((self.top / path).read_bytes(), path).record
            if record is not None:
                old = (record.title,)
                self.put(self.top, replace(record, title=title, formerly=old), path)

    @rule()
    def commit(self) -> None:
        git(self.top, "add", ".")
        git(self.top, "commit", "-q", "-m", "Commit", check=False)

    @rule()
    def pull(self) -> None:
        git(self.top, "add", ".")
        git(self.top, "commit", "-q", "-m", "Before the pull", check=False)
        git(self.top, "pull", "-q", "--no-rebase", "--no-edit", "../there", "main",
            check=False)  # fmt: skip

    @rule()
    def go_back_and_forth(self) -> None:
        git(self.top, "checkout", "-q", "HEAD~1", check=False)
        self.index.bring_up_to_date()
        git(self.top, "checkout", "-q", "main", check=False)

    @rule()
    def lose_the_index(self) -> None:
        database(self.top).unlink()

    @rule()
    def move_a_folder(self) -> None:
        place = self.top / "as-built/notes"
        if place.is_dir() and not (self.top / "as-built/moved").exists():
            place.rename(self.top / "as-built/moved")

    @invariant()
    def the_index_agrees(self) -> None:
        if hasattr(self, "index"):
            time.sleep(2 * TICK_NS / 1e9)
            self.index.bring_up_to_date()
            filters = (
                ALL, ENTRIES, Filter(kind="note"), Filter(part=IDS[0]),
                Filter(build=IDS[1], since=NOON + timedelta(seconds=0.5)),
                Filter(until=NOON + timedelta(seconds=1)),
            )  # fmt: skip
            agree(self.index, SEARCHES, filters)

    def teardown(self) -> None:
        self.patience.undo()
        if hasattr(self, "index"):
            self.index.close()
            shutil.rmtree(self.folder)


TestClones = Clones.TestCase
TestClones.settings = settings(
    max_examples=6,
    stateful_step_count=15,
    deadline=None,
    phases=(Phase.explicit, Phase.reuse, Phase.generate),
    suppress_health_check=list(HealthCheck),
)
