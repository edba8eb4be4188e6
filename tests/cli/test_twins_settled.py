"""One part, build, piece or dimension put on record in two clones is made one again."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from logbook.cli import main
from logbook.errors import Problem
from logbook.project import Project
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.happenings import Note, Run
from logbook.records.kinds.workshop import Build, Piece
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


def parts(bench: Bench) -> list[Part]:
    every = Project.open(bench.folder).snapshot.all(Part)
    return sorted((one for one in every if "lid" in one.title), key=age)


def builds(bench: Bench) -> list[Build]:
    return sorted(Project.open(bench.folder).snapshot.all(Build), key=age)


def apart(place: Path) -> list[Bench]:
    """Let two clones each make a lid of their own, in a build 1 of their own."""
    here, there = clones(place, 2)
    shop(here, "10:00", "part", "lid", "--material", "5052")
    shop(there, "10:05", "part", "lid", "--process", "folding")
    shop(here, "10:10", "measure", "lid", "rim", "12.1 mm")
    shop(there, "10:15", "measure", "lid", "rim", "12.2 mm")
    here.pull(there)
    return [here, there]


def test_a_part_and_a_build_made_on_both_clones_are_joined_at_the_word(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = apart(tmp_path)
    accepted = {one.accepted for one in problems(here)}
    assert "a name of its own, or one part of both (settle)" in accepted
    assert "a name of its own, or one build of both (settle)" in accepted
    words = ("--one-part", "lid", "--one-build", "build 1", "--one-piece", "lid-1")
    assert settle(here, *words) == 0
    assert "lid first issue" in capsys.readouterr().out
    assert not problems(here)
    [lid], [build], [piece] = parts(here), builds(here), pieces(here)
    assert (lid.material, lid.process) == ("5052", ("folding",))
    snapshot = Project.open(here.folder).snapshot
    [issue] = [one for one in snapshot.all(Revision) if one.part.name == "lid"]
    [_rim] = snapshot.all(Characteristic)
    assert piece.revision is not None
    assert piece.build is not None
    assert (issue.part.id, piece.part.id) == (lid.id, lid.id)
    assert (piece.revision.id, piece.build.id) == (issue.id, build.id)
    values = [str(one.reading.value) for one in readings_of(snapshot, piece)]
    assert values == ["12.1 mm", "12.2 mm"]
    # The other clone stood in the build that is gone; it goes on in the one it joined.
    there.pull(here)
    assert there.records() == here.records()
    shop(there, "11:00", "note", "filed")
    note = max(Project.open(there.folder).snapshot.all(Note), key=age)
    assert note.build is not None
    assert note.build.id == build.id


def test_left_alone_they_are_two_and_the_line_that_joins_them_later_is_given(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, _ = apart(tmp_path)
    assert settle(here) == 0
    said = capsys.readouterr().out
    assert "lid is now lid 2" in said
    assert "build 1 is now build 2" in said
    assert len(parts(here)) == len(builds(here)) == 2
    for word in ("part", "build"):
        line = said.partition(f"if it is the same {word}: logbook ")[2].splitlines()[0]
        assert main([*shlex.split(line), "--in", str(here.folder)]) == 0
    [lid], [build] = parts(here), builds(here)
    assert (lid.title, build.title) == ("lid", "build 1")
    assert {"lid 2"} < {*lid.formerly}
    assert not problems(here)


@pytest.mark.parametrize(("answer", "left"), [("1", 1), ("2", 2)])
def test_at_a_terminal_parts_and_builds_are_asked_about_before_their_pieces(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, answer: str, left: int
) -> None:
    here, _ = apart(tmp_path)
    asked: list[str] = []

    def answered(said: str) -> str:
        asked.append(said)
        return answer

    monkeypatch.setattr("sys.stdin.isatty", lambda: True, raising=False)
    monkeypatch.setattr("builtins.input", answered)
    assert settle(here) == 0
    kinds = [re.findall(r"1 one (\w+), join", said)[0] for said in asked]
    assert kinds == (["part", "build", "piece"] if left == 1 else ["part", "build"])
    assert len(parts(here)) == len(builds(here)) == len(pieces(here)) == left
    assert not problems(here)


def test_revisions_that_say_different_things_stay_two_when_their_parts_are_joined(
    tmp_path: Path,
) -> None:
    here, there = clones(tmp_path, 2)
    for bench, hour, changed in ((here, "10", "wider"), (there, "11", "thicker")):
        shop(bench, f"{hour}:00", "part", "lid")
        shop(bench, f"{hour}:10", "revise", "lid", "--changed", changed)
    here.pull(there)
    assert settle(here, "--one-part", "lid") == 0
    snapshot = Project.open(here.folder).snapshot
    issued = [one for one in snapshot.all(Revision) if one.part.name == "lid"]
    told = {one.label: one.changed for one in issued}
    assert told == {"-": "", "A": "wider", "B": "thicker"}
    assert not problems(here)
