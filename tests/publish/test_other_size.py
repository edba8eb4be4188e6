"""Where only the size of the other system is sold, the guide says what to do about it.

The parts and sizes are invented: a bought axle runs in a bush whose bore is made last.
"""

from __future__ import annotations

import pytest

from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")


@pytest.fixture
def running(stand: Stand) -> Stand:
    told(stand, "part", "bush", "--dimension", "bore=6.06", "--process", "turning")
    return stand


def row(stand: Stand, part: str) -> str:
    told(stand, "release", "1.2", "--anyway")
    guide = stand.look("guide", "1.2", "--print")[1]
    table = guide.partition("### What can stand in")[2].partition("\n#")[0]
    return next((x for x in table.splitlines() if x.startswith(f"| {part},")), "")


def gap(stand: Stand, *more: str) -> None:
    limits = ("--limits", "0.02 to 0.1")
    told(stand, "gap", "axle runs", "bush.bore - axle.diameter", *limits, *more)


@pytest.mark.parametrize(
    ("drawn", "instead", "bore"),
    [("6.0 mm", "1/4 in (6.35 mm)", "6.41 mm"), ("6.35 mm", "6 mm", "6.06 mm")],
)
def test_what_is_made_last_is_made_to_the_size_that_can_be_bought(
    running: Stand, drawn: str, instead: str, bore: str
) -> None:
    told(running, "part", "axle", "--dimension", f"diameter={drawn}",
         "--source", "bought")  # fmt: skip
    gap(running, "--last", "bush.bore")
    # The middle of the gap, 0.06 mm, beside 6.35 mm and 6 mm.
    assert row(running, "axle") == (
        f"| axle, diameter {drawn} | {instead} | by the drawings: make the bore of the "
        f"bush {bore} (gap “axle runs”) |"
    )


@pytest.mark.parametrize(
    ("bore", "said"),
    [
        ("6.41 ±0.02", "fits, with 0.06 mm of room"),
        ("6.41 ±0.2", "fits only if it comes out well, 0.06 mm"),
        ("6.06 ±0.02", "does not fit, −0.29 mm"),
    ],
)
def test_where_nothing_is_made_to_suit_it_is_said_whether_it_fits(
    running: Stand, bore: str, said: str
) -> None:
    told(running, "part", "bush", "--dimension", f"bore={bore}")
    told(running, "part", "axle", "--dimension", "diameter=6.0", "--source", "bought")
    gap(running)
    assert f"{said} (gap “axle runs”, wanted 0.02 mm to 0.1 mm)" in row(running, "axle")


def test_nothing_is_said_where_no_gap_or_joint_tells(running: Stand) -> None:
    told(running, "part", "axle", "--dimension", "diameter=6.0", "--source", "bought")
    assert row(running, "axle") == ""


def test_a_plate_of_the_other_system_is_told_with_the_screw_it_takes(
    stand: Stand,
) -> None:
    told(stand, "part", "rim", "--dimension", "thickness=6.0", "--process", "milling")
    told(stand, "joint", "rim to base", "M4x12", "--layer", "rim=6.0",
         "--layer", "base=2.0", "--nut", "plain", "--number", "2")  # fmt: skip
    said = row(stand, "rim")
    assert "| rim, thickness 6.0 mm | 1/4 in (6.35 mm) | by the drawings: joint" in said
    assert "“rim to base” with M4x12: " in said
