"""What is made to suit waits until the others are read at all their named places."""

from __future__ import annotations

from typing import Any

import pytest

from tests.cli.shop import Shop

CORNERS = ("front left", "front right", "back left", "back right")


@pytest.fixture
def second(shop: Shop) -> Shop:
    """A base read at four corners in build 1, a second one begun, nothing read."""
    shop.asked("build", "build 1")
    shop.asked("part", "base", "--dimension", "opening=180.0 ±1.2")
    shop.asked("part", "crossbar", "--dimension", "length=179.7 ±0.1")
    shop.asked(
        "gap", "bar in the opening", "base.opening - crossbar.length",
        "--limits", "0.1 to 0.5", "--last", "crossbar.length", "--one-instrument",
    )  # fmt: skip
    read(shop, *(f"{place}={178.6 + at / 100}" for at, place in enumerate(CORNERS)))
    shop.asked("build", "build 2")
    return shop


def read(shop: Shop, *values: str) -> None:
    shop.asked("measure", "base", "opening", *values, "--met-by", "machine")


def gap(shop: Shop) -> dict[str, Any]:
    told: list[dict[str, Any]] = shop.asked("gaps")["advice"]
    return next(one for one in told if "build 2" in one["says"])


def test_one_of_four_places_is_no_end_of_the_wait(second: Shop) -> None:
    read(second, "front left=178.6")
    told = gap(second)
    assert told["grade"] == "wait"
    assert "1 of 4 places of base opening read" in told["says"]
    assert "base opening at front right, back left, back right" in told["says"]
    assert "preliminary, by what is read so far: finish 178.3" in told["says"]
    assert "accept_low" not in {one["name"] for one in told["numbers"]}


def test_read_at_all_of_them_it_is_made(second: Shop) -> None:
    for place in CORNERS:
        assert gap(second)["grade"] == "wait"
        read(second, f"{place}=178.6")
    told = gap(second)
    assert told["grade"] == "remark"
    assert "accept 178." in told["says"]


def test_what_is_known_of_one_place_is_never_a_wider_permission(second: Shop) -> None:
    def span() -> float:
        at = {one["name"]: float(one["value"]) for one in gap(second)["numbers"]}
        late = "accept_low" not in at
        so_far = "_so_far" if late else ""
        return at[f"accept_high{so_far}"] - at[f"accept_low{so_far}"]

    spans = []
    for place, value in zip(CORNERS, (178.83, 179.02, 178.9, 178.95), strict=True):
        read(second, f"{place}={value}")
        spans.append(span())
    assert spans == sorted(spans, reverse=True)


def test_it_can_be_gone_past_with_a_reason(second: Shop) -> None:
    read(second, "front left=178.6")
    second.asked("override", "bar in the opening", "--reason", "checked")
    told = second.asked("holds", "--all")["advice"]
    mine = [
        one for one in told if one["says"].startswith("bar in the opening, build 2")
    ]
    assert [one["passed"] for one in mine] == ["checked already"]


def test_a_size_read_at_no_named_place_is_read_at_none_of_four(second: Shop) -> None:
    read(second, "178.6")
    assert "0 of 4 places of base opening read" in gap(second)["says"]


def test_other_places_than_before_are_another_way_to_measure(second: Shop) -> None:
    read(second, "top=178.6", "bottom=178.62")
    assert gap(second)["grade"] == "remark"


def test_made_before_all_was_read_it_says_so(second: Shop) -> None:
    read(second, "front left=178.6")
    second.asked("measure", "crossbar", "length", "178.33")
    told = gap(second)
    assert "is 0.27 mm" in told["says"]
    assert "1 of 4 places of base opening read" in told["says"]


def test_a_slip_that_was_read_again_takes_no_other_place_with_it(second: Shop) -> None:
    read(second, *(f"{place}=178.6" for place in CORNERS))
    second.logbook("say", "--yes", "base opening 78.6 at front left")
    read(second, "front left=178.61")
    assert gap(second)["grade"] == "remark"


def test_the_limits_it_was_made_to_stay_known(second: Shop) -> None:
    read(second, *(f"{place}=178.6" for place in CORNERS))
    before = {one["name"]: one["value"] for one in gap(second)["numbers"]}
    second.asked("measure", "crossbar", "length", "178.33")
    after = {one["name"]: one["value"] for one in gap(second)["numbers"]}
    for was, stays in (
        ("finish", "right"), ("accept_low", "right_low"), ("accept_high", "right_high"),
    ):  # fmt: skip
        assert after[stays] == before[was]


@pytest.mark.parametrize("slip", ["176.47", "179.17", "187.9"])
def test_one_reading_put_right_leaves_the_other_places_read(
    second: Shop, slip: str
) -> None:
    values = ("179.42", "179.51", slip, "179.39")
    places = [f"{place}={value}" for place, value in zip(CORNERS, values, strict=True)]
    second.asked("measure", "base", "opening", *places, "--met-by", "machine", "--yes")
    read(second, "back left=179.47")
    told = gap(second)
    assert "waits" not in told["says"]
    assert "accept_low" in {one["name"] for one in told["numbers"]}
    [said] = [one for one in told["assumed"] if "before" in one]
    assert f"read {float(slip):.2f} mm at back left before" in said
    assert "the others as they were read" in said


def test_two_readings_put_right_leave_the_other_places_read(second: Shop) -> None:
    values = ("179.42", "187.9", "176.47", "179.39")
    places = [f"{place}={value}" for place, value in zip(CORNERS, values, strict=True)]
    second.asked("measure", "base", "opening", *places, "--met-by", "machine", "--yes")
    read(second, "back left=179.47")
    read(second, "front right=179.51")
    assert "waits" not in gap(second)["says"]


def test_a_place_that_moved_away_from_the_others_asks_for_them_anew(
    second: Shop,
) -> None:
    read(second, *(f"{place}=178.6" for place in CORNERS))
    read(second, "front left=178.9")
    told = gap(second)
    assert "1 of 4 places of base opening read; still to be read" in told["says"]
    assert any("till read anew" in one for one in told["assumed"])
