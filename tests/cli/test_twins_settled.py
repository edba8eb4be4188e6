"""One piece, or one dimension, put on record in two clones is made one again."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from logbook.cli import main
from logbook.errors import Problem
from logbook.project import Project
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import Run
from logbook.records.kinds.workshop import Piece
from logbook.records.states.pieces import readings_of
from logbook.records.together.ordered import age
from tests.cli.test_clones import Bench, clones, git, shop


def pulled(place: Path, here: list[str], there: list[str]) -> list[Bench]:
    """Log one measurement in each of two clones, then take that of the other."""
    benches = clones(place, 2)
    shop(benches[0], "10:00", "measure", *here)
    shop(benches[1], "10:05", "measure", *there)
    benches[0].pull(benches[1])
    return benches


def problems(bench: Bench) -> tuple[Problem, ...]:
    return Project.open(bench.folder).snapshot.problems


def pieces(bench: Bench) -> list[Piece]:
    return sorted(Project.open(bench.folder).snapshot.all(Piece), key=age)


def settle(bench: Bench, *words: str) -> int:
    return main(["settle", *words, "--in", str(bench.folder)])


BASE = ["base", "opening", "178.60 mm"]
AGAIN = ["base", "flange", "12.1 mm"]


def test_one_piece_made_on_both_clones_is_joined_at_the_word(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, _ = pulled(tmp_path, BASE, AGAIN)
    older, later = pieces(here)
    assert older.title == later.title
    assert any("or one piece of both" in one.accepted for one in problems(here))
    path = Project.open(here.folder).snapshot.path(later)
    capsys.readouterr()
    assert settle(here, "--one-piece", "base-1") == 0
    assert f"base-1  [{older.id}]: base-1 {later.id} joined to it" in (
        capsys.readouterr().out
    )
    [kept] = pieces(here)
    assert kept.id == older.id
    assert not (here.folder / path).exists()
    snapshot = Project.open(here.folder).snapshot
    values = [str(one.reading.value) for one in readings_of(snapshot, kept)]
    assert values == ["178.60 mm", "12.1 mm"]
    assert not [one for one in problems(here) if one.field == "reference"]
    # Taken back as one act, both are there again.
    assert main(["undo", "--in", str(here.folder)]) == 0
    if len(pieces(here)) == 1:  # the builds were called anew after it
        assert main(["undo", "--in", str(here.folder)]) == 0
    assert [one.id for one in pieces(here)] == [older.id, later.id]


def test_a_clone_that_went_on_with_the_piece_that_is_gone_is_led_on(
    tmp_path: Path,
) -> None:
    here, there = pulled(tmp_path, BASE, AGAIN)
    assert settle(here, "--one-piece", "base-1") == 0
    # The other clone knows nothing of it yet and measures its own base once more.
    shop(there, "11:00", "measure", *AGAIN[:2], "12.2 mm")
    here.pull(there)
    [dead] = [one for one in problems(here) if one.field == "reference"]
    assert re.search(
        r"“base-1 \w{8}”, which it was joined to \(settle\)", dead.accepted
    )
    assert settle(here) == 0
    assert not problems(here)
    [kept] = pieces(here)
    snapshot = Project.open(here.folder).snapshot
    assert len(readings_of(snapshot, kept)) == 3
    there.pull(here)
    assert there.records() == here.records()


def test_without_a_word_a_piece_stays_two_and_is_joined_later(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, _ = pulled(tmp_path, BASE, AGAIN)
    assert settle(here) == 0
    said = capsys.readouterr().out
    assert "base-1 is now base-2" in said
    command = said.partition("if it is the same piece: logbook ")[2].splitlines()[0]
    assert main([*command.split(), "--in", str(here.folder)]) == 0
    [kept] = pieces(here)
    assert kept.title == "base-1"
    assert "base-2" in kept.formerly
    assert not problems(here)


@pytest.mark.parametrize(("answer", "left"), [("1", 1), ("2", 2)])
def test_at_a_terminal_it_is_asked_whether_it_is_one_piece(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    answer: str,
    left: int,
) -> None:
    here, _ = pulled(tmp_path, BASE, AGAIN)
    monkeypatch.setattr("sys.stdin.isatty", lambda: True, raising=False)
    monkeypatch.setattr("builtins.input", lambda _: answer)
    assert settle(here) == 0
    said = capsys.readouterr().out
    assert "base-1 is on record twice:" in said
    assert len(pieces(here)) == left
    assert not problems(here)


def test_pieces_of_two_parts_are_never_one(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, _ = pulled(tmp_path, BASE, ["lid", "rim", "12.1 mm"])
    assert settle(here, "--one-piece", "base-1", "lid-1") == 2
    assert "are of two parts" in capsys.readouterr().err
    assert settle(here, "--one-piece", "base-1") == 2
    assert "is one piece already" in capsys.readouterr().err
    assert len(pieces(here)) == 2


def test_a_dimension_made_on_both_clones_is_named_and_joined(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = pulled(
        tmp_path, ["base", "width", "40.1 mm"], ["base", "width", "40.2 mm"]
    )
    named = [one for one in problems(here) if "dimension “width”" in one.found]
    assert [one.accepted for one in named] == [
        "one dimension of a name (settle joins them)"
    ]
    assert settle(here) == 0
    assert "width" in capsys.readouterr().out
    snapshot = Project.open(here.folder).snapshot
    [width] = snapshot.all(Characteristic)
    read = [one for run in snapshot.all(Run) for one in run.readings]
    assert [one.what.id for one in read] == [width.id, width.id]
    assert not problems(here)
    there.pull(here)
    assert there.records() == here.records()


def test_a_dimension_drawn_differently_keeps_both_and_says_so(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = clones(tmp_path, 2)
    shop(here, "10:00", "part", "base", "--dimension", "width=40 mm")
    shop(there, "10:05", "part", "base", "--dimension", "width=41 ±0.1 mm")
    here.pull(there)
    capsys.readouterr()
    assert settle(here) == 0
    assert "said differently: nominal: “41 mm” in" in capsys.readouterr().out
    [width] = Project.open(here.folder).snapshot.all(Characteristic)
    # Limits of another size are none of this one.
    assert str(width.nominal) == "40 mm"
    assert (width.lower_limit, width.upper_limit) == (None, None)
    assert '> nominal = "41 mm"' in width.prose
    git(here.folder, "fsck", "--strict")
