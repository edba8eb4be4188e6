"""An index that is missing, old, damaged or in the way is made anew, unasked."""

from __future__ import annotations

import random
import sqlite3
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from logbook.index import database, fill, query, search
from logbook.index.catalogue import Index
from logbook.index.database import build, in_memory, open_database
from logbook.index.query import ALL
from logbook.index.rebuild import in_child
from tests.index import world
from tests.index.world import agree, crossbar, note, opened, run, started, write

SEARCHES = ("cross", "178.3", "filed", "")


@pytest.fixture
def top(tmp_path: Path) -> Path:
    top = started(tmp_path / "stand")
    _, build_, piece = crossbar(top)
    for number in range(30):
        prose = "filed to 178.3 mm " * 20
        write(top, note(f"Crossbar filed {number}", prose, number, build=build_.ref))
    write(top, run(piece, "178.62 mm"))
    return top


def whole(index: Index) -> None:
    agree(index, SEARCHES, (ALL,))


def test_deleting_the_index_loses_nothing(top: Path) -> None:
    index = opened(top)
    before = world.dump(index._write)
    index.close()
    world.database(top).unlink()
    again = opened(top)
    assert world.dump(again._write) == before
    whole(again)


def overwritten(place: Path, start: int, data: bytes) -> None:
    with place.open("rb+") as file:
        file.seek(start)
        file.write(data)


@pytest.mark.parametrize("length", [0, 50, 4096, 20000])
def test_a_file_cut_short_is_rebuilt(top: Path, length: int) -> None:
    opened(top).close()
    place = world.database(top)
    with place.open("rb+") as file:
        file.truncate(length)
    assert Index.open_existing(top, place) is None
    whole(opened(top))


@pytest.mark.parametrize("content", [b"", b"no database", b"\0" * 9000])
def test_something_else_of_that_name_is_replaced(top: Path, content: bytes) -> None:
    place = world.database(top)
    place.parent.mkdir(parents=True)
    place.write_bytes(content)
    whole(opened(top))


@pytest.mark.parametrize("seed", range(6))
def test_garbage_over_pages_never_gives_a_wrong_answer(top: Path, seed: int) -> None:
    index = opened(top)
    index.close()
    place = world.database(top)
    dice = random.Random(seed)
    pages = place.stat().st_size // 4096
    for page in dice.sample(range(pages), pages // 2):
        overwritten(place, page * 4096, dice.randbytes(4096))
    index = opened(top)
    fresh = in_memory(top)
    for typed in SEARCHES:
        expected = search.search(fresh, typed, ALL, 100)
        assert index.search(typed, ALL, 100) == expected
    assert index.newest(5) == query.newest(fresh, query.ENTRIES, 5)
    assert index.counts() == query.counts(fresh)


def test_damage_while_open_is_noticed_and_mended(top: Path) -> None:
    index = opened(top)
    index._write.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    expected = index.newest(50)
    pages = world.database(top).stat().st_size // 4096
    for page in range(1, pages):
        overwritten(world.database(top), page * 4096, b"\xff" * 4096)
    index._read.close()
    index._read = sqlite3.connect(world.database(top), check_same_thread=False)
    assert index.newest(50) == expected
    whole(index)


def test_an_index_of_another_version_is_rebuilt(
    top: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened(top).close()
    monkeypatch.setattr(database, "version", lambda: "another")
    assert open_database(top, world.database(top)) is None
    assert build(top, world.database(top))
    found = open_database(top, world.database(top))
    assert found is not None
    found.close()


def test_a_missing_table_is_rebuilt(top: Path) -> None:
    index = opened(top)
    index._write.execute("DROP TABLE mention")
    assert index.mentions("pr0jectx") == []
    whole(index)


def test_the_index_of_another_project_is_not_taken(top: Path, tmp_path: Path) -> None:
    opened(top).close()
    other = started(tmp_path / "other")
    world.database(other).parent.mkdir(parents=True)
    world.database(other).write_bytes(world.database(top).read_bytes())
    whole(opened(other))


def test_where_nothing_can_be_written_the_index_lives_in_memory(top: Path) -> None:
    place = top / ".git" / "as-built-logbook"
    place.write_text("a file where the folder would be")
    index = opened(top)
    assert index.in_memory
    whole(index)
    write(top, note("Crossbar filed again"))
    index.bring_up_to_date()
    whole(index)


def test_a_folder_in_the_place_of_the_index_does_not_stop_anything(top: Path) -> None:
    world.database(top).mkdir(parents=True)
    index = opened(top)
    assert index.in_memory
    whole(index)


def test_another_program_may_replace_the_index_meanwhile(top: Path) -> None:
    index = opened(top)
    world.database(top).unlink()
    write(top, note("Written meanwhile"))
    assert in_child(top, world.database(top))
    index.bring_up_to_date()
    write(top, note("Written after"))
    index.bring_up_to_date()
    whole(index)
    other = opened(top)
    whole(other)


def test_two_programs_building_at_once_leave_one_good_index(top: Path) -> None:
    words = [sys.executable, "-m", "logbook.index.rebuild", str(top)]
    words.append(str(world.database(top)))
    running = [subprocess.Popen(words, stdout=subprocess.PIPE) for _ in range(3)]
    assert [child.wait() for child in running] == [0, 0, 0]
    for child in running:
        assert child.stdout is not None
        child.stdout.close()
    whole(opened(top))
    left = {path.name for path in world.database(top).parent.iterdir()}
    assert not any("building" in name for name in left)


def test_two_programs_taking_in_the_same_files_do_not_fight(top: Path) -> None:
    one, two = opened(top), opened(top)
    failures: list[BaseException] = []

    def work(index: Index, name: str) -> None:
        try:
            for number in range(15):
                path = write(top, note(f"{name} {number}", "busy"))
                index.take_in([path])
                index.bring_up_to_date()
                index.search("busy")
        except BaseException as error:  # noqa: BLE001
            failures.append(error)

    threads = [
        threading.Thread(target=work, args=(index, name))
        for index, name in ((one, "one"), (two, "two"))
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failures == []
    for index in (one, two):
        index.bring_up_to_date()
        whole(index)


def test_the_child_tells_how_far_it_is(top: Path) -> None:
    told: list[tuple[int, int]] = []
    assert in_child(top, world.database(top), lambda *far: told.append(far))
    assert told[0] == (0, 35)
    assert told[-1] == (35, 35)


def test_several_hands_write_what_one_writes(
    top: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(fill, "EVERY", 4)
    assert build(top, tmp_path / "two.sqlite", hands=2)
    two, one = sqlite3.connect(tmp_path / "two.sqlite"), in_memory(top)
    assert world.dump(two) == world.dump(one)
    two.close()
    one.close()


def test_modules_in_the_users_folder_are_not_run(
    top: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (top / "sqlite3.py").write_text("raise SystemExit('run')")
    (top / "logbook").mkdir()
    (top / "logbook/__init__.py").write_text("raise SystemExit('run')")
    monkeypatch.chdir(top)
    assert in_child(top, tmp_path / "index.sqlite")
