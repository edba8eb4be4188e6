"""A child takes in what changed on disk; what says the same is not parsed again."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from logbook.index import catalogue, rebuild
from logbook.index.catch_up import in_child
from logbook.index.query import ALL
from logbook.index.reading import Read, Seen, read_again
from logbook.screens.desk import lookup
from logbook.screens.desk.lookup import Lookup
from tests.index import world
from tests.index.world import agree, crossbar, database, note, opened, started, write

SEARCHES = ("swept", "crossbar", "")


@pytest.fixture
def top(tmp_path: Path) -> Path:
    top = started(tmp_path / "stand")
    crossbar(top)
    return top


def test_a_child_takes_in_what_changed(top: Path) -> None:
    index = opened(top)
    assert write(top, note("swept the bench"))
    assert in_child(top, database(top))
    assert [line.title for line in index.search("swept")] == ["swept the bench"]
    agree(index, SEARCHES, (ALL,))
    index.close()


def test_without_an_index_a_child_says_no(top: Path) -> None:
    assert not in_child(top, database(top))
    assert not database(top).exists()


@pytest.mark.parametrize("many", [0, 100], ids=["in a child", "here"])
@pytest.mark.parametrize("lost", [False, True], ids=["index", "index lost"])
def test_many_files_are_taken_in_whoever_does_it(
    top: Path, monkeypatch: pytest.MonkeyPatch, many: int, *, lost: bool
) -> None:
    monkeypatch.setattr(lookup, "MANY", many)
    here = Lookup(top, database(top))
    here.catch_up()
    if lost:
        database(top).unlink()
    paths = [write(top, note(f"swept {number}", "", number)) for number in range(3)]
    here.take_in(paths)
    told = [line.title for line in here.newest("swept", 9)]
    assert told == ["swept 2", "swept 1", "swept 0"]
    here.close()


def test_a_file_that_says_what_it_said_is_not_taken_in_again(
    top: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = write(top, note("swept the bench"))
    index = opened(top)
    os.utime(top / path)
    parsed: list[str] = []

    def noting(root: Path, name: str, known: str) -> Read | Seen | None:
        found = read_again(root, name, known)
        parsed.extend([name] if isinstance(found, Read) else [])
        return found

    monkeypatch.setattr(catalogue, "read_again", noting)
    assert index.bring_up_to_date() == ()
    assert parsed == []
    write(top, note("swept again"))
    (top / path).write_bytes((top / path).read_bytes() + b"\nOnce more.\n")
    assert len(index.bring_up_to_date()) == len(parsed) == 2
    agree(index, SEARCHES, (ALL,))
    index.close()


@pytest.mark.parametrize("few", [0, 2000], ids=["in a child", "here"])
def test_an_index_is_the_same_whoever_builds_it(
    top: Path, monkeypatch: pytest.MonkeyPatch, few: int
) -> None:
    monkeypatch.setattr(rebuild, "FEW_FILES", few)
    write(top, note("swept the bench"))
    index = opened(top)
    assert not index.in_memory
    agree(index, SEARCHES, (ALL,))
    assert world.dump(index._write)["record"]
    index.close()
