"""Where git cannot even say what waits, nobody is told that nothing does."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from logbook.errors import ProblemsFound
from tests.cli.shop import Shop

SAVED = "git: nothing committed; what was logged is saved and waits — "
Spoil = Callable[[Shop, pytest.MonkeyPatch], None]


def foreign(_: Shop, patch: pytest.MonkeyPatch) -> None:
    patch.setenv("GIT_TEST_ASSUME_DIFFERENT_OWNER", "1")


def no_git(_: Shop, patch: pytest.MonkeyPatch) -> None:
    patch.setenv("PATH", "/nowhere")


def written(name: str, text: str) -> Spoil:
    def spoil(shop: Shop, _: pytest.MonkeyPatch) -> None:
        (shop.folder / ".git" / name).write_text(text)

    return spoil


def set_to(key: str, value: str) -> Spoil:
    def spoil(shop: Shop, _: pytest.MonkeyPatch) -> None:
        shop.git("config", key, value)

    return spoil


def no_tree(shop: Shop, _: pytest.MonkeyPatch) -> None:
    name = shop.git("rev-parse", "HEAD^{tree}")
    (shop.folder / ".git/objects" / name[:2] / name[2:]).unlink()


STATES: dict[str, tuple[Spoil, str]] = {
    "another user's": (foreign, "belongs to another user, so git will not work in it"),
    "git not found": (no_git, "git was not found: it has to be installed"),
    "settings broken": (written("config", "[core\n"), "bad config line 1"),
    "declared bare": (set_to("core.bare", "true"), "is a bare repository"),
    "files above": (set_to("core.worktree", "/"), "(core.worktree)"),
    "files beside": (set_to("core.worktree", "info"), "(core.worktree)"),
    "index broken": (written("index", "garbage"), "git said: fatal: .git/index: "),
    "HEAD broken": (written("HEAD", "junk\n"), "fatal: not a git repository"),
    "HEAD's tree gone": (no_tree, "git said: error: "),
}


@pytest.mark.parametrize(("spoil", "words"), STATES.values(), ids=STATES)
def test_an_entry_is_said_to_be_saved_and_to_wait_and_why(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, spoil: Spoil, words: str
) -> None:
    with monkeypatch.context() as patch:
        spoil(shop, patch)
        said = shop.logbook("note", "filed")
        assert said.code == 0
        assert f"{SAVED}" in said.out
        assert words in said.out.partition(SAVED)[2]
        assert [path.name[9:] for path in shop.records("notes")] == ["filed.md"]
        assert shop.asked("note", "filed again")["waiting"] is None


def test_check_does_not_count_what_it_could_not_ask_and_later_all_is_committed(
    shop: Shop,
) -> None:
    index = Path(shop.folder, ".git", "index")
    sound = index.read_bytes()
    index.write_bytes(b"garbage")
    assert shop.logbook("note", "filed").code == 0
    said = shop.logbook("check")
    assert said.code == ProblemsFound.exit_code
    assert "git does not tell what waits for it: git said: " in said.out
    assert "0 undecided, what waits for git is not known" in said.out
    refused = shop.logbook("release", "1.0", "--anyway")
    assert "is saved in" in refused.err
    assert "but not tagged: git: nothing committed" in refused.err
    index.write_bytes(sound)
    assert shop.logbook("commit").out.startswith("git: ")
    assert "note: filed" in shop.subjects()
    assert shop.logbook("check").out.endswith("0 waiting for git\n")
