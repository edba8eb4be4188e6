"""What was taken back and not given to git yet is counted, and taken by any verb."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from logbook.project import Project
from tests.cli.shop import Shop


def taken_back(shop: Shop) -> str:
    """Take the last entry back as a bench does that is left before git was asked."""
    act = Project.open(shop.folder).undo(datetime.now(UTC).astimezone())
    return act.files[0].path


@pytest.fixture
def left(shop: Shop) -> str:
    """Give a file that is in git, and was taken back without telling git."""
    shop.asked("note", "crossbar measured")
    shop.asked("note", "bed sanded with 180")
    return taken_back(shop)


def test_check_counts_what_was_taken_back_and_says_what_takes_it(
    shop: Shop, left: str
) -> None:
    assert "1 waiting for git: logbook commit takes it" in shop.logbook("check").out
    assert shop.asked("check")["waiting"] == [left]


def test_the_next_verb_gives_it_to_git_before_its_own_entry(
    shop: Shop, left: str
) -> None:
    assert shop.asked("note", "bed oiled")["committed"] == 2
    assert shop.subjects()[:2] == ["note: bed oiled", "undo: note: bed sanded with 180"]
    assert shop.git("status", "--porcelain") == ""
    assert left not in shop.git("ls-tree", "-r", "--name-only", "HEAD")


def test_commit_takes_it_alone(shop: Shop, left: str) -> None:
    assert shop.asked("commit") == {
        "git": "git: 1 committed",
        "committed": 1,
        "waiting": 0,
    }
    assert left not in shop.git("ls-tree", "-r", "--name-only", "HEAD")
    assert shop.asked("check")["waiting"] == []


def test_however_much_was_logged_since_it_is_still_taken(shop: Shop, left: str) -> None:
    for number in range(25):
        shop.asked("note", f"bed oiled, coat {number}", "--later")
    assert left in shop.asked("check")["waiting"]
    shop.asked("commit")
    assert shop.git("status", "--porcelain") == ""
    assert shop.asked("check")["waiting"] == []


def test_a_record_the_user_removed_himself_does_not_wait(shop: Shop) -> None:
    made = shop.asked("note", "bed sanded with 180")["records"][-1]
    (shop.folder / made["path"]).unlink()
    assert shop.asked("check")["waiting"] == []
    assert "0 waiting for git" in shop.logbook("check").out


def test_what_was_never_in_git_does_not_wait_once_it_is_taken_back(shop: Shop) -> None:
    shop.asked("note", "bed sanded with 180")
    shop.asked("note", "bed oiled", "--later")
    assert len(shop.asked("check")["waiting"]) == 1
    taken_back(shop)
    assert shop.asked("check")["waiting"] == []
