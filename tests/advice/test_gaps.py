"""The crossbar made to suit the base, through the verbs a person types."""

from __future__ import annotations

import math
from typing import Any

import pytest
from scipy.stats import norm

from logbook.advice.advisor import Advisor, advise
from logbook.advice.ground.advice import as_facts
from logbook.errors import ProblemsFound
from logbook.project import Project
from tests.cli.shop import Shop

CORNERS = {
    "front left": 178.60,
    "front right": 178.65,
    "back left": 178.62,
    "back right": 178.68,
}
U = 0.04
"""Expanded uncertainty of the scenario's caliper, k = 2, mm; invented."""


def measure(shop: Shop, readings: dict[str, float], *more: str) -> None:
    words = [f"{place}={value:.2f}" for place, value in readings.items()]
    with_it = ("--with", "300 mm caliper", "--later")
    said = shop.logbook("measure", "base", "opening", *words, *more, *with_it)
    assert said.code == 0, said.err


def gaps(shop: Shop) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = shop.asked("gaps")["advice"]
    return found


def figures(advice: dict[str, Any]) -> dict[str, float]:
    return {one["name"]: one["value"] for one in advice["numbers"]}


def test_the_last_piece_waits_for_the_opening_which_carries_the_doubt(
    shop: Shop,
) -> None:
    [advice] = gaps(shop)
    assert advice["grade"] == "wait"
    assert "cutting the crossbar waits until base opening" in advice["says"]
    assert figures(advice)["doubt of base.opening"] >= 95
    sd = math.hypot(1.0 / 2, 0.1 / 3)
    chance = norm(0.3, sd).cdf(0.5) - norm(0.3, sd).cdf(0.1)
    assert figures(advice)["chance"] == pytest.approx(100 * chance, abs=0.5)


def test_a_reading_that_looks_like_a_slip_is_not_advised_on(shop: Shop) -> None:
    measure(shop, CORNERS)
    shop.logbook("say", "--yes", "base opening 78.55 at front left")
    told = shop.logbook("gaps", "--json")
    assert told.code == ProblemsFound.exit_code
    [advice] = told.json["advice"]
    assert advice["grade"] == "wait"
    assert "base-1 opening stands in doubt: front left: “78.55 mm”" in advice["says"]
    assert "178.55 mm?" in advice["says"]
    assert advice["numbers"] == []
    measure(shop, {"front left": 178.61})
    [advice] = gaps(shop)
    assert "doubt:" not in advice["says"]
    assert figures(advice)["finish"] == pytest.approx(178.3, abs=0.05)


@pytest.mark.parametrize("shift", [0.0, -0.4, 0.25])
def test_the_readings_give_saw_finish_and_accept_sizes(
    shop: Shop, shift: float
) -> None:
    moved = {place: value + shift for place, value in CORNERS.items()}
    measure(shop, moved)
    [advice] = gaps(shop)
    found = figures(advice)
    low = max(moved.values()) - 0.5 + U
    high = min(moved.values()) - 0.1 - U
    assert found["accept_low"] == pytest.approx(math.ceil(low * 100) / 100)
    assert found["accept_high"] == pytest.approx(math.floor(high * 100) / 100)
    assert found["finish"] == pytest.approx(min(moved.values()) - 0.3)
    assert found["rough"] == pytest.approx(math.ceil((low + 0.2) * 20) / 20)
    assert found["chance_as_cut"] < found["chance_finished"]
    if not shift:
        assert (found["rough"], found["finish"]) == (178.45, 178.3)
        assert "could not go in unforced" in advice["says"]
    assert any("U 0.04 mm (expanded, k = 2: about 95 %" in a for a in advice["assumed"])


def test_a_leaning_base_is_to_be_re_squared_and_not_cut_to(shop: Shop) -> None:
    measure(shop, CORNERS)
    lean = 60 * math.tan(math.radians(0.4))
    measure(shop, {"bottom": 178.60, "top": 178.60 + 2 * lean}, "--piece", "2")
    told = {one["grade"]: one["says"] for one in gaps(shop)}
    assert "re-square the bend, do not cut to it" in told["wait"]
    assert "finish 178.30 mm" in told["remark"]


def test_where_places_differ_it_says_that_the_smallest_alone_would_not_do(
    shop: Shop,
) -> None:
    apart = {"a": 180.4, "b": 180.5, "c": 180.35, "d": 180.4}
    measure(shop, apart)
    [advice] = gaps(shop)
    # The smallest less 0.3 lies nearer to the end of accept than filing scatters.
    assert figures(advice)["accept_low"] + 0.05 > 180.35 - 0.3
    assert figures(advice)["finish"] == pytest.approx(180.125, abs=0.006)
    assert (
        "not 180.05 mm, which the tightest place alone would give: the places differ "
        "by 0.15 mm" in advice["says"]
    )
    measure(shop, CORNERS)
    assert "tightest place alone" not in gaps(shop)[0]["says"]


def test_a_made_bar_is_told_as_it_is_at_its_tightest_and_loosest(shop: Shop) -> None:
    measure(shop, CORNERS)
    assert shop.logbook("measure", "crossbar", "length", "178.30", "--later").code == 0
    [advice] = gaps(shop)
    assert figures(advice)["gap_tight"] == pytest.approx(0.30)
    assert figures(advice)["gap_loose"] == pytest.approx(0.38)
    assert advice["grade"] == "remark"


def test_each_build_is_answered_and_an_earlier_one_stays_in_sight(shop: Shop) -> None:
    early = ("--when", "2026-03-07T11:40", "--later")
    measure(shop, CORNERS, *early[:2])
    words = ("measure", "crossbar", "length", "178.30", "--with", "300 mm caliper")
    assert shop.logbook(*words, *early).code == 0
    assert shop.logbook("build", "build 2", "--when", "2026-04-11T09:00").code == 0
    now, then = gaps(shop)
    assert now["says"].startswith("crossbar in base, build 2: cutting the crossbar")
    assert now["grade"] == "wait"
    assert then["says"].startswith("crossbar in base, build 1: is 0.30 mm to 0.38 mm")
    assert then["grade"] == "remark"
    [asked] = shop.asked("gaps", "--build", "build 1")["advice"]
    assert asked["says"] == then["says"]


def test_a_size_made_to_suit_needs_no_drawn_one(shop: Shop) -> None:
    assert shop.logbook("revise", "crossbar", "--to-suit", "length").code == 0
    [advice] = gaps(shop)
    # Likeliest: the drawn opening less the middle of the gap, 180 − 0.3.
    assert "made now, to 179.70 mm, the likeliest size, it would fit" in advice["says"]
    assert advice["grade"] == "wait"
    measure(shop, CORNERS)
    [advice] = gaps(shop)
    assert "finish 178.30 mm" in advice["says"]
    assert "To the drawing" not in advice["says"]
    assert "chance_as_drawn" not in figures(advice)


def test_a_reading_that_is_no_length_is_a_problem_and_the_rest_goes_on(
    shop: Shop,
) -> None:
    words = ("gap", "bar", "crossbar.length - base.missing", "--limits", "0 to 1")
    assert shop.logbook(*words, "--later").code == 0
    assert shop.logbook("measure", "base", "opening", "178", "--later").code == 0
    # The verb refuses another kind of unit; an editor of the file does not.
    [run] = shop.records("runs")
    run.write_text(run.read_text("utf-8").replace('"178 mm"', '"12 °C"'), "utf-8")
    said = shop.logbook("gaps", "--json")
    assert said.code == ProblemsFound.exit_code
    assert any("12 °C" in problem for problem in said.json["problems"])
    assert any("crossbar in base" in one["says"] for one in said.json["advice"])


def test_advice_kept_up_to_date_equals_advice_worked_out_anew(shop: Shop) -> None:
    advisor = Advisor()
    for step in (
        lambda: measure(shop, CORNERS),
        lambda: measure(shop, {"top": 179.4}, "--piece", "2"),
        lambda: shop.logbook("measure", "crossbar", "length", "178.3", "--later"),
        lambda: shop.logbook("undo"),
        lambda: shop.logbook("part", "crossbar", "--process", "filing", "--later"),
    ):
        step()
        snapshot = Project.open(shop.folder).snapshot
        kept, anew = advisor.update(snapshot), advise(snapshot)
        assert kept.problems == anew.problems
        assert list(map(as_facts, kept.advice)) == list(map(as_facts, anew.advice))


def test_a_mean_is_said_to_be_one_and_a_reading_what_it_counts_as(
    shop: Shop,
) -> None:
    measure(shop, CORNERS)
    for value in ("178.3", "178.2"):
        shop.asked("measure", "crossbar", "length", value)
    [advice] = gaps(shop)
    [bar] = [one for one in advice["assumed"] if one.startswith("crossbar-1")]
    assert "178.25 mm is the mean of 2" in bar
    # 0.05 as a half width, steps of 0.1 and the scatter of the two, by hand.
    random = max(0.1 / math.sqrt(12), 0.1 / math.sqrt(2)) / math.sqrt(2)
    whole = 2 * math.hypot(0.05 / math.sqrt(3), random)
    assert bar.endswith(f"; in all ±{whole:.2f} mm")


def test_an_older_piece_that_is_not_read_is_no_gap_of_its_own(shop: Shop) -> None:
    measure(shop, CORNERS)
    shop.asked("measure", "crossbar", "length", "178.3")
    shop.asked("dispose", "crossbar-1", "rework")
    shop.asked("piece", "crossbar")
    shop.asked("measure", "crossbar", "length", "178.25", "--piece", "2")
    says = [advice["says"] for advice in gaps(shop)]
    assert any("is 0." in one for one in says)
    assert not [one for one in says if "cannot be worked out" in one], says
