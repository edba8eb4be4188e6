"""A size that a revision changes while its drawing stays as it was is told."""

from __future__ import annotations

import shlex

import pytest

from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")


def revise(stand: Stand, size: str) -> str:
    code, said = stand.run("revise", "crossbar", "--changed", size, "--dimension", size)
    assert code == 0, said
    return stand.look("check")[1]


def test_a_size_changed_beside_an_unchanged_drawing_is_told(drawn: Stand) -> None:
    said = revise(drawn, "length=179.5")
    sentence = (
        "crossbar rev A changes length from 179.7 mm to 179.5 mm, but "
        "drawings/crossbar.dxf still as crossbar first issue had it"
    )
    assert sentence in said
    assert sentence in drawn.look("release", "1.0", "--check")[1]


def test_the_line_that_mends_it_can_be_typed_as_it_stands(drawn: Stand) -> None:
    said = revise(drawn, "length=179.5")
    command = "logbook revise crossbar --redrawn"
    assert f"draw it, then: {command} (" in said
    drawn.draw("crossbar", "179.5")
    drawn.commit_files("Draw the bar anew")
    assert drawn.run(*shlex.split(command)[1:])[0] == 0
    assert "draw it, then" not in drawn.look("check")[1]


def test_a_released_revision_is_drawn_as_a_new_one_and_names_are_quoted(
    drawn: Stand,
) -> None:
    assert drawn.run("part", "left leg")[0] == 0
    tie = ("--file", "drawings/crossbar.dxf", "--redrawn")
    assert drawn.run("revise", "left leg", *tie)[0] == 0
    moved = ("revise", "left leg", "--changed", "hole moved 4 mm up")
    assert drawn.run(*moved)[0] == 0
    hint = "draw it, then: logbook revise 'left leg' "
    assert f"{hint}--redrawn (" in drawn.look("check")[1]
    assert drawn.run("release", "1.0", "--anyway")[0] == 0
    assert f"{hint}--changed “…” (" in drawn.look("check")[1]


def test_a_revision_told_in_a_line_keeps_the_files_of_the_one_before(
    drawn: Stand,
) -> None:
    line = "revised the crossbar to B: length 179.5"
    code, said = drawn.run("say", line, "--yes")
    assert code == 0, said
    checked = drawn.look("release", "1.0", "--check")[1]
    assert "crossbar: no file on record" not in checked
    assert "draw it, then: logbook revise crossbar --redrawn" in checked


def test_drawn_anew_it_is_not(drawn: Stand) -> None:
    drawn.draw("crossbar", "179.5")
    drawn.commit_files("Draw the bar anew")
    assert "still as crossbar" not in revise(drawn, "length=179.5")


def test_a_thickness_stands_in_no_flat_drawing(drawn: Stand) -> None:
    drawn.run("revise", "crossbar", "--changed", "said", "--dimension", "thickness=10")
    assert "still as crossbar" not in revise(drawn, "thickness=12")


FILLET = "3 mm fillet at the left edge"
SAME = (
    "drawings/diffuser.dxf of diffuser rev B holds the same as of diffuser rev A, so "
    f"what changed (“{FILLET}”) is not in it"
)


def test_a_shape_changed_in_words_only_is_told_before_anybody_makes_it(
    stand: Stand,
) -> None:
    assert stand.run("build", "build 2")[0] == 0
    split = ("diffuser split at the left edge", "--met-by", "drawing", "--do", "scrap")
    assert stand.run("failure", "diffuser", *split)[0] == 0
    file = ("--file", "drawings/diffuser.dxf", "--because", split[0], "--remake", "yes")
    code, said = stand.run("revise", "diffuser", "--changed", FILLET, *file)
    assert code == 0
    assert "careful: drawings/diffuser.dxf holds the same as diffuser rev A had" in said
    assert SAME in stand.look("check")[1]
    assert SAME in stand.look("release", "1.2", "--check")[1]
    assert stand.run("release", "1.2", "--anyway")[0] == 0
    page = stand.run("errata", "1.1", "--print")[1]
    assert f"Make it again? **Not yet: {SAME}.**" in page
    assert f"fixed, untried, but {SAME}" in page
    guide = stand.run("guide", "1.2", "--print")[1]
    assert f"diffuser: not yet: {SAME}" in guide


def test_a_shape_drawn_anew_is_made_again(stand: Stand) -> None:
    stand.draw("diffuser", "3 mm fillet")
    stand.commit_files("Draw the fillet")
    file = ("--file", "drawings/diffuser.dxf", "--remake", "yes")
    said = stand.run("revise", "diffuser", "--changed", FILLET, *file)[1]
    assert "careful" not in said
    assert "holds the same" not in stand.look("check")[1]
