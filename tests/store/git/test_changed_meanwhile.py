"""A file that changes while it is committed: nothing of it is left half in git."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from logbook.store.git import stream
from logbook.store.git.command import Answer
from logbook.store.git.message import Change
from logbook.store.git.route import commit
from logbook.store.git.waiting import waiting
from tests.store.git_world import NOTE, OTHER, Bench


def written_then(
    monkeypatch: pytest.MonkeyPatch, happens: Callable[[], object]
) -> None:
    """Let something happen once, between our commit and what the index learns of it."""
    write, left = stream.write, [happens]

    def write_and_change(*given: object) -> Answer:
        answer = write(*given)  # type: ignore[arg-type]
        while left:
            left.pop()()
        return answer

    monkeypatch.setattr(stream, "write", write_and_change)


def taken_back(bench: Bench, path: str = NOTE) -> Change:
    (bench.top / path).unlink(missing_ok=True)
    return Change((), "undo: note", removed=(path,))


def test_moved_back_while_it_is_committed_and_then_taken_back_it_is_gone(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    bench.save()
    written_then(monkeypatch, lambda: bench.write(NOTE, "Filed, of build 3 again.\n"))
    with bench.undisturbed(2):
        assert bench.save(text="Filed, of build 2.\n").committed
        assert bench.git("show", f":{NOTE}") == "Filed, of build 2.\n"
        assert commit(bench.repository, [taken_back(bench)]).committed
    assert bench.git("status", "--porcelain") == ""
    assert waiting(bench.repository) == ()


def test_taken_back_while_it_is_committed_it_is_gone_with_the_next(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    written_then(monkeypatch, lambda: taken_back(bench))
    with bench.undisturbed(2):
        outcome = commit(bench.repository, [bench.note(), bench.note(OTHER)])
        assert len(outcome.committed) == 2
    with bench.undisturbed(1):
        assert commit(bench.repository, [taken_back(bench)]).committed
    assert bench.git("status", "--porcelain") == ""


def test_changed_while_the_branch_cannot_be_moved_it_is_ours_all_the_same(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    def users_turn() -> None:
        bench.git("commit", "-q", "--allow-empty", "-m", "Mine")
        bench.write(NOTE, "Filed to 178.2 mm.\n")

    written_then(monkeypatch, users_turn)
    late = commit(bench.repository, [bench.note()], patience_s=0)
    assert late.waiting
    assert commit(bench.repository, [bench.note(OTHER)]).committed
    assert bench.save(text="Filed to 178.1 mm.\n").committed
    assert bench.git("show", f"HEAD:{NOTE}") == "Filed to 178.1 mm.\n"
    assert bench.git("status", "--porcelain") == ""
