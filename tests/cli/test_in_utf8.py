"""Bytes that are no UTF-8, and signs a terminal cannot show, stop no verb halfway."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from logbook.cli import main
from logbook.errors import BadInput, NeedsAnswer
from tests.cli.shop import Shop
from tests.cli.test_folding import HOUSE, on_a_terminal
from tests.cli.typed import Terminal

LATIN_1 = os.fsdecode(b"gr\xfcn")


@pytest.mark.parametrize(
    "words",
    [
        ("note", LATIN_1), ("say", "--yes", LATIN_1), ("failure", "gate", LATIN_1),
        ("part", LATIN_1, "--process", "x"), ("note", "x", "--build", LATIN_1),
    ],
    ids=lambda words: words[0],
)  # fmt: skip
def test_other_bytes_are_refused_before_anything_is_written_and_kept(
    shop: Shop, words: tuple[str, ...]
) -> None:
    before = shop.subjects()
    said = shop.logbook(*words)
    assert said.code == BadInput.exit_code
    assert "“gr�n” holds bytes that are not UTF-8; accepted: UTF-8" in said.err
    assert shop.git("status", "--porcelain") == ""
    assert shop.subjects() == before
    assert shop.asked("drafts")["drafts"]


def test_a_folder_may_be_called_what_it_likes(
    shop: Shop, tmp_path_factory: pytest.TempPathFactory
) -> None:
    moved = tmp_path_factory.mktemp("odd") / LATIN_1
    shop.folder.rename(moved)
    shop.folder = moved
    assert shop.logbook("note", "filed").code == 0
    assert shop.subjects()[0] == "note: filed"


@pytest.mark.parametrize("coding", ["ascii", "latin-1"])
def test_what_cannot_be_shown_keeps_no_entry_from_git(shop: Shop, coding: str) -> None:
    env = {**os.environ, "PYTHONPATH": str(HOUSE), "PYTHONIOENCODING": coding}
    done = subprocess.run(
        [sys.executable, "-m", "logbook", "note", "178.6 → 180"],
        cwd=shop.folder,
        env=env,
        capture_output=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, b"")
    assert b"178.6 ? 180" in done.stdout
    assert shop.subjects()[0] == "note: 178.6 → 180"


def test_a_name_of_a_file_steers_no_terminal(shop: Shop) -> None:
    (shop.folder / "red\x1b[31m.stl").write_text("solid\n")
    (shop.folder / os.fsdecode(b"gr\xfcn\x1b[2J.stl")).write_text("solid\n")
    told = on_a_terminal(shop.folder, "start", "--yes")
    assert "parts taken: red" in told
    told += on_a_terminal(shop.folder, "note", "seen \x9b2J")
    told += on_a_terminal(shop.folder, "counts")
    assert "red␛[31m.stl" in told
    assert not {"\x1b", "\x9b"} & set(told)


def test_nobody_there_to_answer_is_one_sentence_and_starts_nothing(
    empty: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", Terminal(""))
    said = empty.logbook("start")
    assert said.code == NeedsAnswer.exit_code
    assert "nobody answered, so nothing was taken; accepted: an answer" in said.err
    assert not (empty.folder / "as-built").exists()


def test_what_is_no_side_is_asked_again_and_takes_none(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    shop.asked("note", "filed")
    [note] = shop.records("notes")
    text = note.read_text("utf-8")
    other = text.replace("# filed", "# filed twice")
    marked = f"<<<<<<< HEAD\n{text}=======\n{other}>>>>>>> theirs\n"
    note.write_text(marked, "utf-8")
    monkeypatch.setattr("sys.stdin", Terminal("filed twice\n\nt\n"))
    assert main(["settle", "--in", str(shop.folder), "--later"]) == 0
    said = capsys.readouterr().out
    assert "“filed twice” does not answer this; accepted: o, t" in said
    assert "theirs taken" in said
    assert note.read_text("utf-8").startswith("# filed twice\n")


def test_a_design_file_of_another_coding_is_told_and_left(empty: Shop) -> None:
    name = os.fsdecode(b"gr\xfcn.stl")
    (empty.folder / name).write_text("solid\n")
    (empty.folder / "lid.stl").write_text("solid lid\n")
    said = empty.logbook("start", "--yes")
    assert said.code == 0
    assert "found a name that is not UTF-8; accepted: a name in UTF-8" in said.err
    assert "1 of 1 part taken" in said.out
    assert (empty.folder / name).exists()
    assert Path(empty.records("parts")[0]).name.endswith("-lid.md")
