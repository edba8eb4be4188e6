"""Joints as a user logs them, told in the worst case; all sizes are invented."""

from __future__ import annotations

from typing import Any

import pytest

from tests.cli.shop import Shop


def collar(shop: Shop, fastener: str = "M4x16") -> None:
    shop.asked(
        "joint", "collar to base", fastener, "--nut", "thin self-locking",
        "--nut-height", "5.0 mm", "--layer", "washer=0.8 ±0.1",
        "--layer", "collar=6.0 ±0.05", "--layer", "base=2.0 ±0.09",
        "--layer", "fibre washer=0.7 ±0.05", "--layer", "washer=0.8 ±0.1",
    )  # fmt: skip


def told(shop: Shop) -> dict[str, Any]:
    [one] = shop.asked("joints")["advice"]
    figures = {number["name"]: number["value"] for number in one["numbers"]}
    return {**one, **figures}


def test_a_thicker_plate_makes_the_screw_too_short_and_names_the_next(
    shop: Shop,
) -> None:
    collar(shop)
    # Arithmetic on DIN 985 (M4: 5.0 mm high): 16 − 10.3 − 5.0 = 0.7, one pitch.
    assert told(shop)["through"] == pytest.approx(0.7)
    shop.asked(
        "deviation", "collar", "came in 1/4 in plate", "--dimension", "thickness",
        "--wanted", "6 mm", "--found", "1/4 in",
    )  # fmt: skip
    found = told(shop)
    assert found["through"] == pytest.approx(0.35)
    assert found["lowest"] < 0
    assert found["grade"] == "check"
    assert "M4x16 may be too short" in found["says"]
    assert "take M4x20" in found["says"]
    assert "check what is behind it" in found["says"]
    assert found["standing"] == "a calculation, not an approval"


def test_a_thickness_read_as_a_fraction_is_good_to_a_sixty_fourth(shop: Shop) -> None:
    collar(shop)
    shop.asked("measure", "collar", "thickness=1/4 in", "--nominal", "6 mm")
    found = told(shop)
    assert found["through"] == pytest.approx(0.35)
    assert -1.5 < found["lowest"] < found["highest"] < 2


def test_the_longer_screw_asks_for_nothing_more(shop: Shop) -> None:
    collar(shop, "M4x20")
    found = told(shop)
    assert found["grade"] == "remark"
    assert found["lowest"] > 0.7
    assert found["says"].endswith("M4x20 stands through, by more than three pitches")


def test_a_screw_long_only_where_its_layers_are_thin_is_said_to_be_so(
    shop: Shop,
) -> None:
    shop.asked(
        "joint", "collar to base", "M4x20", "--nut", "thin self-locking",
        "--nut-height", "5.0 mm", "--layer", "collar=12.0 ±1.0",
    )  # fmt: skip
    found = told(shop)
    # 20 − 12 − 5 = 3 mm, give or take the millimetre; three pitches are 2.1 mm.
    assert 0.7 < found["lowest"] < 2.1 < found["highest"]
    assert "at its longest by more than three pitches" in found["says"]


def test_a_countersunk_hole_near_the_edge_of_a_brittle_plate_is_flagged(
    shop: Shop,
) -> None:
    shop.asked("part", "diffuser", "--material", "opal polystyrene", "--thickness", "4")
    near = ["--head", "countersunk", "--layer", "diffuser=4 mm", "--edge", "4 mm"]
    shop.asked("joint", "diffuser to base", "M3x10", *near)
    found = told(shop)
    assert found["grade"] == "check"
    assert "4 mm from the edge of diffuser, at least 9 mm is wanted" in found["says"]
    assert "wedges brittle diffuser" in found["says"]
    # No published rule for polystyrene was found, and the advice says so.
    assert any("none found" in source for source in found["sources"])
    far = ["--head", "pan", "--layer", "diffuser=4 mm", "--edge", "12 mm"]
    shop.asked("joint", "diffuser to base", "M3x10", *far)
    assert shop.asked("joints")["advice"] == []


def test_what_is_no_screw_is_a_problem_and_the_rest_goes_on(shop: Shop) -> None:
    collar(shop)
    shop.asked("joint", "odd one", "a bolt", "--layer", "base=2 mm")
    answer = shop.logbook("joints", "--json").json
    assert [one["about"].split()[0] for one in answer["advice"]] == ["collar"]
    assert any("a bolt" in problem for problem in answer["problems"])


def test_a_joint_through_a_part_with_a_known_fault_is_marked_in_the_shell(
    shop: Shop,
) -> None:
    collar(shop, "M4x20")
    far = ["--head", "pan", "--layer", "diffuser=4 mm", "--edge", "12 mm"]
    shop.asked("joint", "diffuser to base", "M3x10", *far)
    assert "known fault" not in shop.logbook("joints").out
    for part, what in (("collar", "too thick"), ("diffuser", "cracked")):
        shop.asked("failure", part, what, "--cure", "M4x20", "--met-by", "drawing")
    marked, beside = "known fault: too thick", "known fault: diffuser to base"
    said = shop.logbook("joints").out
    assert f"by more than three pitches\n    {marked}" in said
    assert beside in said, "there is nothing else to say of it"
    alone = shop.logbook("joints", "diffuser to base").out
    assert marked not in alone
    assert "no joint is on record" not in alone
    [one, other] = shop.logbook("joints", "--json").json["known_faults"]
    assert one["joint"].startswith("collar to base ")
    assert other["faults"][0]["says"].startswith("cracked")
