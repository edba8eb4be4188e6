"""The screw of the other system beside one, held to published tables.

Diameters: ASME B1.1, basic major diameters 0.1120, 0.1640, 0.1900 and 0.2500 in (as in
handbook tables of unified threads; from memory), 25.4 mm to the inch. Coarse pitches:
40, 32, 24 and 20 threads to the inch (the same). That #4-40 is taken beside M3 and
#8-32 beside M4 is common practice, no source.
"""

from __future__ import annotations

import pytest

from logbook.shop.fastening.hole_widths import (
    inch_drills,
    made_for,
    nearest_drill,
    through_words,
    usual_hole,
)
from logbook.shop.fastening.other_thread import (
    lengths_beside,
    other_thread,
)


@pytest.mark.parametrize(
    ("thread", "other", "inches", "to_the_inch"),
    [
        ("M3", "#4-40", 0.1120, 40),
        ("M4x0.7", "#8-32", 0.1640, 32),
        ("M5", "#10-24", 0.1900, 24),
        ("M6", "1/4-20", 0.2500, 20),
        ("M8", "5/16-18", 0.3125, 18),
        ("M10", "3/8-16", 0.3750, 16),
    ],
)
def test_a_metric_screw_has_its_inch_neighbour(
    thread: str, other: str, inches: float, to_the_inch: int
) -> None:
    found = other_thread(thread)
    assert found is not None
    assert found.name == other
    assert found.diameter == pytest.approx(inches * 25.4)
    assert found.tapping.pitch == pytest.approx(25.4 / to_the_inch)


@pytest.mark.parametrize(
    ("thread", "other"), [("#4-40", "M3"), ("#8-32", "M4"), ("#10-32", "M5")]
)
def test_an_inch_screw_has_its_metric_neighbour(thread: str, other: str) -> None:
    found = other_thread(thread)
    assert found is not None
    assert found.name == other


@pytest.mark.parametrize("thread", ["M2.5", "M12", "M7", "a rivet"])
def test_what_is_near_to_none_has_none(thread: str) -> None:
    assert other_thread(thread) is None


def test_the_usual_hole_is_the_one_of_the_table() -> None:
    assert usual_hole("M4") == 4.5  # ISO 273, medium
    assert usual_hole("#8-32") == pytest.approx(0.196 * 25.4)  # ASME B18.2.8: #9
    assert usual_hole("M99") is None


def test_lengths_beside_are_the_next_below_and_above_or_the_same() -> None:
    inch, metric = other_thread("M4"), other_thread("#8-32")
    assert inch is not None
    assert metric is not None
    assert lengths_beside(20, inch) == ("3/4 in (19.1 mm)", "7/8 in (22.2 mm)")
    assert lengths_beside(19.05, inch) == ("3/4 in (19.1 mm)",)
    assert lengths_beside(3, inch) == ("1/4 in (6.4 mm)",)
    assert lengths_beside(12.7, metric) == ("12 mm", "16 mm")


@pytest.mark.parametrize(
    ("mm", "made"),
    [
        (4.3, ("close", "M4")),  # ISO 273: M4 fine 4.3, medium 4.5, coarse 4.8
        (4.5, ("usual", "M4")),
        (4.8, ("wide", "M4")),
        (3.4, ("usual", "M3")),
        (3.3, ("usual", "M3")),
        (2.5, ("tapping drill", "M3")),  # ISO 2306
        (4.0, ("", "")),
        (32.0, ("", "")),
    ],
)
def test_a_hole_tells_by_its_width_which_screw_it_is_for(
    mm: float, made: tuple[str, str]
) -> None:
    assert made_for(mm, ("M3", "M4")) == made


def test_3_3_mm_is_the_tapping_drill_of_m4_where_nothing_goes_through_it() -> None:
    assert made_for(3.3, ("M4",)) == ("tapping drill", "M4")


def test_holes_are_told_with_the_table_they_are_from() -> None:
    assert through_words("M4") == "4.3, 4.5, 4.8 mm (ISO 273)"
    assert through_words("#8-32") == "#15, #9, #3 (ASME B18.2.8)"
    assert through_words("M99") == ""


@pytest.mark.parametrize(
    ("mm", "drill"),
    [
        # Decimal equivalents of drills (ASME B94.11M, as in `shop/tables/holes.toml`).
        (4.5, "#16 (4.50 mm)"),
        (3.4, "#29 (3.45 mm)"),
        (3.3, "#30 (3.26 mm)"),
        (5.0, "#9 (4.98 mm)"),
        (12.7, "1/2 (12.70 mm)"),
    ],
)
def test_the_nearest_inch_drill_is_named_with_its_width(mm: float, drill: str) -> None:
    assert nearest_drill(mm) == drill


def test_inch_drills_are_told_of_metric_screws_only() -> None:
    assert inch_drills("M4") == "usual #16 (4.50 mm); tap #30 (3.26 mm)"
    assert inch_drills("#8-32") == ""
