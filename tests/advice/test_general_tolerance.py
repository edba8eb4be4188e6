"""Sizes that only the general tolerance holds are judged by it; sizes are invented."""

from __future__ import annotations

from typing import Any

import pytest

from logbook.project import Project
from logbook.records.kinds.design import Characteristic
from logbook.records.sizes.definition import dimension
from logbook.records.sizes.limits_held import as_held, held_text
from tests.cli.shop import Shop

# ISO 2768-1 Table 1, class c: ±0.5 mm over 6 to 30 mm, ±1.2 mm over 120 to 400 mm
# (from memory).
BED = ("part", "bed", "--dimension", "width=240")


@pytest.fixture
def coarse(shop: Shop) -> Shop:
    """A project whose drawings invoke ISO 2768-c, and a board drawn without limits."""
    shop.asked("project", "--tolerance", "ISO 2768-c")
    shop.asked(*BED)
    return shop


def held_of(shop: Shop, name: str) -> str:
    snapshot = Project.open(shop.folder).snapshot
    item = snapshot.lookup(name, Characteristic)
    return held_text(as_held(snapshot, dimension(snapshot, None, item)))


def pieces(shop: Shop, part: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = shop.asked("conformity", part)["pieces"]
    return found


def test_it_holds_only_where_it_is_invoked(shop: Shop) -> None:
    shop.asked(*BED)
    assert held_of(shop, "width") == "240 mm, no limits drawn"
    shop.asked("measure", "bed", "width", "250")
    assert shop.records("deviations") == []
    shop.asked("project", "--tolerance", "ISO 2768-c")
    assert held_of(shop, "width") == "240 mm ±1.2 mm by ISO 2768-c"


@pytest.mark.parametrize(
    ("size", "text"),
    [
        ("20.0 ±0.1", "20.0 mm (19.9 mm to 20.1 mm)"),
        ("20.0", "20.0 mm ±0.5 mm by ISO 2768-c"),
        # The standard gives nothing below 0.5 mm, nor of angles by Table 1.
        ("0.4", "0.4 mm, no limits drawn"),
        ("90°", "90°, no limits drawn"),
        ("", "no size drawn"),
    ],
)
def test_what_is_drawn_wins_and_what_is_not_tabulated_has_none(
    coarse: Shop, size: str, text: str
) -> None:
    if size:
        coarse.asked("part", "lever", "--dimension", f"reach={size}")
    else:
        coarse.asked("measure", "lever", "reach", "20")
    assert held_of(coarse, "reach") == text


@pytest.mark.parametrize(
    ("name", "size", "text"),
    [
        # Class c, Table 2: ±0.4 mm from 0.5 to 3 mm, ±1 mm over 3 to 6 mm, ±2 mm
        # above (read); Table 1 would give ±0.2, ±0.3, ±0.5 mm.
        ("corner radius", "2", "2 mm ±0.4 mm by ISO 2768-c"),
        ("edge chamfer", "4", "4 mm ±1 mm by ISO 2768-c"),
        ("fillet", "8", "8 mm ±2 mm by ISO 2768-c"),
        ("radiused end", "8", "8 mm ±0.5 mm by ISO 2768-c"),
        ("radius", "0.4", "0.4 mm, no limits drawn"),
    ],
)
def test_radii_and_chamfers_have_a_table_of_their_own(
    coarse: Shop, name: str, size: str, text: str
) -> None:
    coarse.asked("part", "lever", "--dimension", f"{name}={size}")
    assert held_of(coarse, name) == text


def test_limits_are_said_in_the_unit_of_the_size_and_judged_exactly(
    coarse: Shop,
) -> None:
    # 0.5 mm is 0.019685 in; the limits of 1 in are 25.4 ± 0.5 mm.
    coarse.asked("part", "lever", "--dimension", "reach=1 in")
    assert held_of(coarse, "reach") == "1 in ±0.020 in by ISO 2768-c"
    coarse.asked("measure", "lever", "reach", "25.90 mm")
    assert coarse.records("deviations") == []
    coarse.asked("measure", "lever", "reach", "25.91 mm", "--piece", "2")
    assert len(coarse.records("deviations")) == 1
    assert "±0.020 in" in coarse.logbook("conformity", "lever").out


def test_a_reading_outside_leads_to_a_deviation_and_one_inside_does_not(
    coarse: Shop,
) -> None:
    coarse.asked("measure", "bed", "width", "241.1")
    assert coarse.records("deviations") == []
    assert pieces(coarse, "bed")[0]["verdict"] == "accept"
    coarse.asked("measure", "bed", "width", "241.4", "--piece", "2")
    [made] = coarse.records("deviations")
    assert "241.4 mm should be 240 mm" in made.read_text("utf-8")
    says = coarse.logbook("conformity", "bed-2").out
    assert "width 241.40 mm, drawn 240 mm ±1.2 mm by ISO 2768-c" in says


def test_what_is_said_at_the_bench_is_judged_alike(coarse: Shop) -> None:
    assert coarse.logbook("say", "bed width 239.5 mm", "--yes").code == 0
    assert coarse.records("deviations") == []
    assert coarse.logbook("say", "bed width 238.2 mm", "--yes").code == 0
    assert len(coarse.records("deviations")) == 1


def test_it_does_not_ask_for_a_reading(coarse: Shop) -> None:
    coarse.asked("piece", "bed")
    coarse.asked("part", "rail", "--dimension", "width=20.0 ±0.1")
    coarse.asked("piece", "rail")
    assert pieces(coarse, "bed")[0]["verdict"] == "no limits drawn"
    assert pieces(coarse, "rail")[0]["verdict"] == "unmeasured"


def test_what_is_made_to_suit_a_gap_is_not_held_to_it(coarse: Shop) -> None:
    coarse.asked("part", "base", "--dimension", "opening=180.0")
    coarse.asked("part", "crossbar", "--dimension", "length=179.7",
                 "--no-limits", "length")  # fmt: skip
    coarse.asked("gap", "bar in it", "base.opening - crossbar.length",
                 "--limits", "0.1 to 0.5", "--last", "crossbar.length")  # fmt: skip
    assert held_of(coarse, "opening") == "180.0 mm ±1.2 mm by ISO 2768-c"
    assert held_of(coarse, "length") == "179.7 mm, no limits drawn"
    coarse.asked("measure", "crossbar", "length", "178.3")
    assert coarse.records("deviations") == []


def test_a_test_piece_tells_how_far_it_is_off_and_nobody_is_asked(
    coarse: Shop,
) -> None:
    coarse.asked("part", "bend trial strip", "--dimension", "leg=30.0")
    coarse.asked("measure", "bend trial strip", "leg", "29.30")
    assert coarse.records("deviations") == []
    assert pieces(coarse, "bend trial strip-1")[0]["verdict"] == "no limits drawn"


def test_a_change_is_told_with_the_limits_that_hold(coarse: Shop) -> None:
    coarse.asked("measure", "bed", "width", "240.9")
    told = coarse.asked("impact", "bed", "--dimension", "width=243")
    assert (
        "width 240 mm ±1.2 mm by ISO 2768-c → 243 mm ±1.2 mm by ISO 2768-c"
        in told["change"]
    )
    [piece] = told["pieces"]
    assert "width is" in piece["because"]
    assert "under 243 mm ±1.2 mm by ISO 2768-c" in piece["because"]
    told = coarse.asked("impact", "bed", "--dimension", "width=241")
    assert "within 241 mm ±1.2 mm" in told["pieces"][0]["because"]
