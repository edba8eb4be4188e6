"""What came and went is found by the folders' times, and no name is ever missed."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

from logbook.index import changes, folders
from logbook.index.query import ALL
from logbook.index.reading import PROOF_NS, TICK_NS, UNPROVEN, proven
from tests.index.world import agree, git, note, opened, started, write

SEARCHES = ("swept", "")


@pytest.fixture
def top(tmp_path: Path) -> Path:
    top = started(tmp_path / "stand")
    write(top, note("swept the bench"))
    return top


def rest() -> None:
    """Wait until the times of what was written prove something."""
    time.sleep(2 * TICK_NS / 1e9)


@pytest.mark.parametrize("few", [0, changes.FEW_FILES], ids=["git looks", "we look"])
def test_a_folder_that_was_empty_is_listed_once_it_is_filled(
    top: Path, monkeypatch: pytest.MonkeyPatch, few: int
) -> None:
    monkeypatch.setattr(changes, "FEW_FILES", few)
    (top / "as-built/decisions/2603").mkdir(parents=True)
    git(top, "add", ".")
    git(top, "commit", "-q", "-m", "Start")
    index = opened(top)
    rest()
    index.bring_up_to_date()
    write(top, note("swept again"), "as-built/decisions/2603/one.md")
    assert len(index.bring_up_to_date()) == 1
    agree(index, SEARCHES, (ALL,))
    index.close()


def test_a_name_that_comes_while_a_folder_is_listed_is_found_at_the_next_look(
    top: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    index = opened(top)
    listed = folders._listed

    def slow(root: Path, folder: str) -> tuple[set[str], set[str]]:
        found = listed(root, folder)
        if folder.startswith("as-built/notes/"):
            write(top, note("swept meanwhile", "", len(found[0])))
            rest()
        return found

    write(top, note("swept before", "", 99))
    monkeypatch.setattr(folders, "_listed", slow)
    assert len(index.bring_up_to_date()) == 1
    monkeypatch.setattr(folders, "_listed", listed)
    assert len(index.bring_up_to_date()) == 1
    agree(index, SEARCHES, (ALL,))
    index.close()


def test_what_lies_beyond_a_link_is_no_record_any_more(top: Path) -> None:
    index = opened(top)
    rest()
    index.bring_up_to_date()
    away = top.parent / "elsewhere"
    (top / "as-built/notes").rename(away)
    (top / "as-built/notes").symlink_to(away)
    assert len(index.bring_up_to_date()) == 1
    agree(index, SEARCHES, (ALL,))
    index.close()


def test_nothing_waits_for_what_stands_in_the_place_of_a_folder(top: Path) -> None:
    index = opened(top)
    (top / "as-built/notes").rename(top / "elsewhere")
    os.mkfifo(top / "as-built/notes")
    assert len(index.bring_up_to_date()) == 1
    agree(index, SEARCHES, (ALL,))
    [folder] = (top / "elsewhere").iterdir()
    (top / "as-built/notes").unlink()
    (top / "as-built/notes").mkdir()
    os.mkfifo(top / "as-built/notes" / folder.name)
    assert index.bring_up_to_date() == ()
    index.close()


def test_folders_that_are_as_they_were_are_not_listed(
    top: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    index = opened(top)
    rest()
    index.bring_up_to_date()
    asked: list[object] = []
    monkeypatch.setattr(folders, "_listed", lambda *what: asked.append(what))
    path = next(top.glob("as-built/notes/*/*.md"))
    with path.open("a", encoding="utf-8") as file:
        file.write("\nOnce more.\n")
    assert len(index.bring_up_to_date()) == 1
    assert asked == []
    index.close()


def test_a_folder_that_is_gone_for_a_while_is_found_again(top: Path) -> None:
    index = opened(top)
    kept = top / "kept"
    (top / "as-built").rename(kept)
    assert len(index.bring_up_to_date()) == 2
    assert index.counts() == {}
    kept.rename(top / "as-built")
    assert len(index.bring_up_to_date()) == 2
    agree(index, SEARCHES, (ALL,))
    index.close()


def test_another_programs_writing_is_not_taken_for_ours(top: Path) -> None:
    one, two = opened(top), opened(top)
    rest()
    path = write(top, note("swept by hand"))
    one.bring_up_to_date()
    rest()
    one.bring_up_to_date()
    (top / path).write_bytes((top / path).read_bytes().replace(b"hand", b"feet"))
    assert len(two.bring_up_to_date()) == 1
    assert one.bring_up_to_date() == ()
    (top / path).unlink()
    assert len(one.bring_up_to_date()) == 1
    agree(two, SEARCHES, (ALL,))
    agree(one, SEARCHES, (ALL,))
    one.close()
    two.close()


NOW = 1_800_000_000_123_456_789


@pytest.mark.parametrize(
    ("times", "proves"),
    [
        ((NOW - TICK_NS // 2, NOW - TICK_NS // 2), False),
        ((NOW - 2 * TICK_NS, NOW - 2 * TICK_NS), True),
        ((NOW - PROOF_NS, NOW - TICK_NS // 2), False),
        ((NOW // 10**9 * 10**9, NOW // 10**9 * 10**9), False),
        ((NOW // 10**9 * 10**9, NOW - 2 * TICK_NS), False),
        ((NOW // 10**9 * 10**9 - PROOF_NS, NOW - 2 * PROOF_NS), True),
        ((NOW + PROOF_NS, NOW + PROOF_NS), False),
    ],
    ids=["a tick ago", "fine", "changed", "seconds", "one coarse", "old", "to come"],
)
def test_a_time_proves_something_once_the_next_must_be_another(
    times: tuple[int, int], *, proves: bool
) -> None:
    written, changed = times
    kept = proven((7, written, changed, 1), NOW)
    assert kept == ((7, *times, 1) if proves else (7, UNPROVEN, UNPROVEN, 1))


def test_a_file_written_as_it_is_read_is_read_again(top: Path) -> None:
    path = next(top.glob("as-built/notes/*/*.md"))
    index = opened(top)
    for word in (b"tried", b"noted", b"swept"):
        size = path.stat().st_size
        data = path.read_bytes()
        path.write_bytes(data.replace(b"swept", word).replace(b"tried", word))
        os.truncate(path, size)
        index.bring_up_to_date()
        agree(index, SEARCHES, (ALL,))
    index.close()
