"""What was taken back and not given to git yet is counted, and taken by any verb."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from logbook.project import Project
from logbook.store.git import standing
from logbook.store.git.command import Answer
from logbook.store.git.repository import Repository
from logbook.store.git.staging import stage_as_seen
from logbook.store.git.standing import Standing
from logbook.store.git.waiting import lost
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


# --- what was taken back is never said to be lost ---


@pytest.fixture
def merging(shop: Shop) -> Path:
    """Let a merge be in progress, so that git takes nothing."""
    shop.asked("note", "crossbar measured")
    head = shop.folder / ".git/MERGE_HEAD"
    head.write_text(shop.git("rev-parse", "HEAD") + "\n")
    return head


def test_what_waited_and_was_taken_back_is_not_lost(shop: Shop, merging: Path) -> None:
    waits = shop.asked("note", "bed sanded with 180")
    assert waits["waiting"]
    shop.asked("undo")
    assert shop.asked("check")["lost"] == []
    merging.unlink()
    assert "lost" not in shop.logbook("check").out
    shop.asked("commit")
    assert shop.git("for-each-ref", "refs/as-built") == ""


def test_a_correction_that_waited_and_was_taken_back_is_not_lost(
    shop: Shop, merging: Path
) -> None:
    merging.unlink()
    made = shop.asked("note", "bed sanded with 180")["records"][-1]
    merging.write_text(shop.git("rev-parse", "HEAD") + "\n")
    project = Project.open(shop.folder)
    now = datetime.now(UTC).astimezone()
    draft = project.draft(now)
    [note] = [one for one in project.snapshot if one.id == made["id"]]
    draft.amend(replace(note, title="bed sanded with 240"))
    project.save(draft, "amended", now)
    assert shop.asked("commit")["waiting"] == 1
    taken_back(shop)
    assert shop.asked("check")["lost"] == []
    merging.unlink()
    shop.asked("commit")
    assert shop.asked("check")["lost"] == []
    assert shop.git("for-each-ref", "refs/as-built") == ""


def test_a_repository_that_says_lost_of_what_was_taken_back_is_mended_by_the_next_verb(
    shop: Shop, merging: Path
) -> None:
    path = shop.asked("note", "bed sanded with 180")["records"][-1]["path"]
    taken_back(shop)
    merging.unlink()
    repository = Repository.find(shop.folder)
    assert repository is not None
    assert [one.path for one in lost(repository)] == [path]  # as git alone sees it
    shop.asked("note", "bed oiled")
    assert lost(repository) == ()
    assert shop.logbook("check").code == 0


@pytest.mark.parametrize("when", ["before the index", "after the index"])
def test_an_undo_in_the_middle_of_a_commit_leaves_nothing_lost(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, when: str
) -> None:
    undone: list[str] = []

    def stage_late(repository: Repository, places: Sequence[Standing]) -> Answer:
        if when == "before the index" and not undone:
            undone.append(taken_back(shop))
        answer = stage_as_seen(repository, places)
        if when == "after the index" and not undone:
            undone.append(taken_back(shop))
        return answer

    shop.asked("note", "crossbar measured")
    shop.asked("note", "bed sanded with 180", "--later")
    monkeypatch.setattr("logbook.store.git.route.stage_as_seen", stage_late)
    outcome = shop.asked("commit")
    assert outcome["waiting"] == 0, outcome
    assert undone
    assert shop.asked("check")["lost"] == []
    shop.asked("commit")
    assert shop.git("status", "--porcelain", "--", "as-built") == ""
    assert shop.git("for-each-ref", "refs/as-built") == ""


def test_an_undo_while_a_file_is_looked_at_stops_no_other_entry(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    undone: list[str] = []

    def hashed_late(
        repository: Repository, contents: dict[str, bytes]
    ) -> dict[str, str]:
        if not undone:
            undone.append(taken_back(shop))
        return blobs(repository, contents)

    shop.asked("note", "crossbar measured", "--later")
    shop.asked("note", "bed sanded with 180", "--later")
    blobs = standing._blobs
    monkeypatch.setattr("logbook.store.git.standing._blobs", hashed_late)
    outcome = shop.asked("commit")
    assert (outcome["committed"], outcome["waiting"]) == (1, 0), outcome
    assert shop.subjects()[0] == "note: crossbar measured"
    assert shop.asked("check")["lost"] == []


# --- what really is lost: said, counted, brought back or let go ---


@pytest.fixture
def gone(shop: Shop, merging: Path) -> str:
    """Give a file that waited, and that git clean took away."""
    path = shop.asked("note", "bed sanded with 180")["records"][-1]["path"]
    merging.unlink()
    shop.git("clean", "-q", "-fd")
    assert not (shop.folder / path).exists()
    return str(path)


def test_check_counts_what_is_lost_in_its_last_line(shop: Shop, gone: str) -> None:
    said = shop.logbook("check")
    assert said.code == 8
    assert f"lost: {gone}" in said.out
    assert "logbook commit --bring-back brings it back" in said.out
    assert "0 problems, 1 lost, " in said.out.splitlines()[-1]


def test_what_is_lost_is_brought_back(shop: Shop, gone: str) -> None:
    said = shop.logbook("commit", "--bring-back")
    assert f"brought back: {gone}" in said.out
    assert "bed sanded with 180" in (shop.folder / gone).read_text()
    assert shop.logbook("check").code == 0
    assert shop.git("status", "--porcelain", "--", "as-built") == ""


def test_what_is_lost_is_let_go(shop: Shop, gone: str) -> None:
    assert shop.asked("commit", "--let-go")["let_go"] == [gone]
    assert shop.logbook("check").code == 0
    assert shop.git("for-each-ref", "refs/as-built") == ""
    assert shop.logbook("commit", "--let-go").out.startswith("let go: nothing")


def test_what_is_saved_is_not_said_refused_where_the_journal_cannot_be_written(
    shop: Shop,
) -> None:
    shop.asked("note", "crossbar measured")
    journal = Project.open(shop.folder).own("acts.jsonl")
    journal.unlink()
    journal.mkdir()  # as good as a disk that is full: nothing can be added to it
    said = shop.logbook("note", "bed sanded with 180")
    assert said.code == 0, said.err
    assert "note: bed sanded with 180" in said.out
    assert shop.subjects()[0] == "note: bed sanded with 180"
