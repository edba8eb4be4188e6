"""Screws into inserts and tapped holes, in the worst case; all sizes are invented.

The figures are arithmetic on ISO 4759-1 (from memory): an M3 screw of 10 mm is 10
± 0.29 mm long, of 6 mm 6 ± 0.24 mm (js15 of ISO 286).
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.cli.shop import Shop


def told(shop: Shop, fastener: str, *words: str) -> dict[str, Any]:
    shop.asked("joint", "lid to box", fastener, "--head", "pan", *words)
    [one] = shop.asked("joints")["advice"]
    figures = {number["name"]: number["value"] for number in one["numbers"]}
    return {**one, **figures}


def test_a_screw_longer_than_its_insert_is_deep_bottoms_and_names_the_next(
    shop: Shop,
) -> None:
    found = told(shop, "M3x10", "--layer", "lid=1.5 ±0.1", "--thread-depth", "5.7 mm")
    # 10.29 − 1.4 = 8.89 mm reach into 5.7 mm of thread, 9.71 − 1.6 = 8.11 at least.
    assert found["reach"] == pytest.approx(8.89)
    assert found["grade"] == "check"
    assert "M3x10 bottoms and would clamp nothing: up to 8.9 mm" in found["says"]
    assert found["says"].endswith("take M3x6")
    assert "the hole ends with its thread, 5.7 mm deep" in found["assumed"]


def test_the_one_it_names_is_good(shop: Shop) -> None:
    found = told(shop, "M3x6", "--layer", "lid=1.5 ±0.1", "--thread-depth", "5.7 mm")
    # 5.76 − 1.6 = 4.16 mm bite at least; 6.24 − 1.4 = 4.84 mm stay above the bottom.
    assert found["bites"] == pytest.approx(4.16)
    assert found["grade"] == "remark"
    assert "take" not in found["says"]


def test_a_screw_that_hardly_bites_is_told_with_a_longer_one(shop: Shop) -> None:
    found = told(shop, "M3x4", "--layer", "lid=2.0 ±0.1", "--thread-depth", "8 mm")
    assert found["bites"] < 3
    assert "are wanted at least: take M3x" in found["says"]


def test_the_part_that_is_tapped_is_not_clamped(shop: Shop) -> None:
    layers = ("--layer", "lid=2.0 ±0.1", "--layer", "box=12.0 ±0.2")
    found = told(shop, "M3x10", *layers, "--thread-depth", "9 mm")
    # Through both it would end inside the box: 10.29 − 1.9 = 8.39 mm reach into it.
    assert found["reach"] == pytest.approx(8.39)
    [thread] = [one for one in found["numbers"] if one["name"] == "thread"]
    assert "in box" in thread["meaning"]
    assert found["grade"] == "remark"


def test_where_no_length_does_both_that_is_said(shop: Shop) -> None:
    found = told(shop, "M3x10", "--layer", "lid=1.5 ±0.1", "--thread-depth", "2.5 mm")
    assert found["says"].endswith("no listed length does both")
