"""A joint with another screw: the step and the list that keep the old one are named."""

from __future__ import annotations

import shlex

import pytest

from tests.cli.shop import Shop


@pytest.fixture
def jointed(shop: Shop) -> Shop:
    """A collar screwed on with M4x20, in its step and on the list."""
    for words in (
        ("part", "collar"),
        ("line", "M4x20 screw", "4"),
        ("line", "M4x25 screw", "2"),
        ("step", "fit the collar", "--uses", "collar", "--uses", "M4x20 screw"),
        ("joint", "collar to base", "M4x20", "--layer", "collar=6 mm",
         "--number", "4", "--step", "fit the collar"),
    ):  # fmt: skip
        said = shop.logbook(*words)
        assert said.code == 0, said.err
        assert "still" not in said.err
    return shop


def test_both_are_named_with_what_puts_them_right(jointed: Shop) -> None:
    said = jointed.logbook("joint", "collar to base", "M4x25")
    assert "“fit the collar” still takes M4x20 screw; if it takes M4x25" in said.err
    assert "the list still has 4 × M4x20 screw, which no joint takes now" in said.err
    [step] = [row for row in said.err.split("\n") if "logbook step" in row]
    words = shlex.split(step.partition("logbook ")[2])
    assert words == [
        "step", "fit the collar", "--uses", "collar", "--uses", "M4x25 screw",
    ]  # fmt: skip
    assert jointed.logbook(*words).code == 0
    assert "M4x25 screw" in jointed.records("steps")[0].read_text("utf-8")
    assert "M4x20" not in jointed.records("steps")[0].read_text("utf-8")


def test_what_another_joint_takes_stays_on_the_list(jointed: Shop) -> None:
    jointed.logbook("joint", "lid to base", "M4x20", "--layer", "lid=1 mm")
    said = jointed.logbook("joint", "collar to base", "M4x25")
    assert "still takes M4x20 screw" in said.err
    assert "which no joint takes now" not in said.err


def test_a_joint_that_keeps_its_screw_says_nothing(jointed: Shop) -> None:
    said = jointed.logbook("joint", "collar to base", "--nut", "plain")
    assert "still" not in said.err
