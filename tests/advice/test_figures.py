"""The shop's own figures, from pieces that were measured."""

from __future__ import annotations

from statistics import mean, stdev
from typing import Any

import pytest

from tests.cli.shop import Shop

BITES = (-0.68, -0.72, -0.71, -0.69, -0.70)
"""What one bend takes from a trial strip; invented."""


@pytest.fixture
def strips(shop: Shop) -> Shop:
    words = ("part", "strip", "--process", "folding", "--dimension", "leg=30.0")
    assert shop.logbook(*words, "--later").code == 0
    return shop


def fold(shop: Shop, bites: tuple[float, ...]) -> None:
    for number, bite in enumerate(bites, 1):
        value = f"{30 + bite:.2f}"
        words = ("measure", "strip", "leg", value, "--piece", str(number), "--later")
        assert shop.logbook(*words).code == 0


def folding(shop: Shop) -> dict[str, Any]:
    [found] = shop.asked("figures")["advice"]
    assert isinstance(found, dict)
    return found


def test_from_five_bends_on_the_figure_counts_and_says_what_to_set(
    strips: Shop,
) -> None:
    fold(strips, BITES)
    found = folding(strips)
    numbers = {one["name"]: one["value"] for one in found["numbers"]}
    assert numbers["offset"] == pytest.approx(mean(BITES), abs=0.005)
    assert numbers["scatter"] == pytest.approx(2 * stdev(BITES), abs=0.005)
    assert numbers["offset"] < numbers["used_offset"] < 0
    assert numbers["scatter"] < numbers["used_scatter"] < 1.0
    assert "set +0.70 mm at the machine" in found["says"]


def test_four_bends_are_too_few_to_go_by(strips: Shop) -> None:
    fold(strips, BITES[:4])
    assert "too few" in folding(strips)["says"]


def test_a_machine_that_was_set_anew_begins_its_figures_anew(shop: Shop) -> None:
    shop.asked("machine", "folder", "--process", "folding")
    crosses = ("--dimension", "leg=30.0", "--crosses", "leg=1 bend on the folder")
    shop.asked("part", "strip", "--process", "folding", *crosses)
    day = "2026-03-{:02d}T10:00"
    for at, bite in enumerate(BITES, 1):
        value = ("leg", f"{30 + bite:.2f}", "--piece", str(at))
        shop.asked("measure", "strip", *value, "--when", day.format(at))
    assert folding(shop)["says"].partition(" on the ")[2].startswith("folder: -0.70 mm")
    shop.asked("machine", "folder", "--set-anew", "--when", day.format(10))
    assert shop.asked("figures")["advice"] == []
    late = ("leg", "29.90", "--piece", "6", "--when", day.format(11))
    shop.asked("measure", "strip", *late)
    found = folding(shop)
    assert found["says"].partition(" on the ")[2].startswith("folder: -0.10 mm")
    assert "only pieces since the folder was set anew on 2026-03-10" in found["assumed"]
    # What is said of the machine later keeps that.
    [made] = shop.asked("machine", "folder", "--bed", "600 mm")["records"]
    assert made["set_anew"].startswith("2026-03-10")
    assert made["process"] == "folding"


def test_the_own_figure_moves_what_a_gap_expects(strips: Shop) -> None:
    before = strips.asked("gaps")["advice"][0]
    fold(strips, BITES)
    after = strips.asked("gaps")["advice"][0]
    assert after["grade"] == "wait"
    assert any("own figure" in line for line in after["assumed"])
    chances = [
        next(one["value"] for one in advice["numbers"] if one["name"] == "chance")
        for advice in (before, after)
    ]
    assert chances[1] < chances[0]


def test_one_kerf_makes_an_opening_larger_and_an_outside_smaller(shop: Shop) -> None:
    sizes = {
        "aperture width": ("36.0", ("36.18", "36.17", "36.19")),
        "plate length": ("60.0", ("59.82", "59.83", "59.81")),
        "hole spacing": ("20.0", ("20.00", "20.01", "20.00")),
    }
    part = ["part", "plate", "--process", "laser cutting"]
    for name, (drawn, _) in sizes.items():
        part += ["--dimension", f"{name}={drawn}"]
    assert shop.logbook(*part, "--later").code == 0
    for name, (_, read) in sizes.items():
        for number, value in enumerate(read, 1):
            words = ("measure", "plate", name, value, "--piece", str(number))
            assert shop.logbook(*words, "--later").code == 0
    [found] = shop.asked("figures")["advice"]
    numbers = {one["name"]: one["value"] for one in found["numbers"]}
    assert numbers["offset"] == pytest.approx(0.18, abs=0.005)
    assert numbers["operations"] == 6  # the spacing tells of no kerf
    assert numbers["scatter"] == pytest.approx(0.02, abs=0.01)
    assert any("an outside smaller" in line for line in found["assumed"])
