"""A size that a revision changes while its drawing stays as it was is told."""

from __future__ import annotations

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


def test_drawn_anew_it_is_not(drawn: Stand) -> None:
    drawn.draw("crossbar", "179.5")
    drawn.commit_files("Draw the bar anew")
    assert "still as crossbar" not in revise(drawn, "length=179.5")


def test_a_thickness_stands_in_no_flat_drawing(drawn: Stand) -> None:
    drawn.run("revise", "crossbar", "--changed", "said", "--dimension", "thickness=10")
    assert "still as crossbar" not in revise(drawn, "thickness=12")
