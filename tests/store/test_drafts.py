"""What was typed survives a crash, outside the repository, until it is deleted."""

from __future__ import annotations

import stat
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import NotFound, Refused
from logbook.store.disk.own_places import STATE, state_folder
from logbook.store.typed.drafts import (
    delete_draft,
    drafts,
    keep_draft,
    take_back,
)


@pytest.fixture
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv(STATE, str(tmp_path / "state"))
    return tmp_path / "stand" / "as-built"


def test_a_draft_is_kept_listed_taken_back_and_deleted(project: Path) -> None:
    assert drafts(project) == ()
    made = keep_draft(project, "diffuser cracked at\nthe corner", "a failure")
    assert take_back(project, made.id) == made
    assert drafts(project) == (made,)
    assert (made.for_what, made.text) == (
        "a failure",
        "diffuser cracked at\nthe corner",
    )
    delete_draft(project, made.id)
    assert drafts(project) == ()


def test_typing_on_replaces_the_same_draft(project: Path) -> None:
    first = keep_draft(project, "base opening 17")
    second = keep_draft(project, "base opening 178.6", draft_id=first.id)
    assert drafts(project) == (second,)
    assert second.text == "base opening 178.6"


def test_the_newest_draft_comes_first(project: Path) -> None:
    keep_draft(project, "older", draft_id="20260314T101522-00000000")
    keep_draft(project, "newer", draft_id="20260315T090000-00000000")
    assert [draft.text for draft in drafts(project)] == ["newer", "older"]
    assert drafts(project)[1].when.isoformat() == "2026-03-14T10:15:22+00:00"


def test_two_projects_of_one_name_keep_their_drafts_apart(
    project: Path, tmp_path: Path
) -> None:
    other = tmp_path / "copy" / "stand" / "as-built"
    keep_draft(project, "ours")
    assert drafts(other) == ()
    assert state_folder(other).name.startswith("stand-")
    assert state_folder(other) != state_folder(project)


def test_only_the_user_can_read_them(project: Path) -> None:
    keep_draft(project, "between us")
    assert stat.S_IMODE(state_folder(project).stat().st_mode) == 0o700


def test_half_saved_and_foreign_files_are_not_drafts_and_damage_loses_no_text(
    project: Path,
) -> None:
    made = keep_draft(project, "whole")
    folder = state_folder(project) / "drafts"
    (folder / ".saving-0123456789abcdef.tmp").write_bytes(b"half")
    (folder / "notes.txt").write_bytes(b"not ours")
    (folder / f"{made.id}.txt").write_bytes(b"\xff\nsawn at 178.45 \xfe")
    [draft] = drafts(project)
    assert draft.text == "sawn at 178.45 \N{REPLACEMENT CHARACTER}"
    assert not (folder / ".saving-0123456789abcdef.tmp").exists()


def test_an_unknown_draft_is_named(project: Path) -> None:
    with pytest.raises(NotFound, match="no draft 20260314T101522-00000000"):
        delete_draft(project, "20260314T101522-00000000")


def test_a_state_folder_that_cannot_be_made_is_refused_by_name(
    project: Path, tmp_path: Path
) -> None:
    (tmp_path / "state").write_bytes(b"a file in the way")
    with pytest.raises(Refused, match="what was typed could not be kept"):
        keep_draft(project, "text")


def test_the_state_folder_is_the_users_own_when_nothing_else_is_said(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.delenv(STATE, raising=False)
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "xdg"))
    assert state_folder(tmp_path / "stand").parent.name == "as-built-logbook"


@given(
    st.text(st.characters(exclude_categories=()), max_size=200), st.text(max_size=20)
)
def test_any_text_comes_back_as_typed(
    tmp_path_factory: pytest.TempPathFactory, text: str, for_what: str
) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv(STATE, str(tmp_path_factory.mktemp("state")))
        made = keep_draft(Path("/bench/stand"), text, for_what)
        assert take_back(Path("/bench/stand"), made.id).text == text
