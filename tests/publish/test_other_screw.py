"""Screws of the other system that may stand in: what the thread tables say of them.

Check values: #8-32 is 0.164 in thick (ASME B1.1), the usual hole for M4 is 4.5 mm
(ISO 273, medium), the drill before a #8-32 tap #29 (ASME tables, as in
`shop/tables/holes.toml`). The list and the joint are invented.
"""

from __future__ import annotations

import pytest

from logbook.publish.guide.screws_taken import screw_named
from tests.publish.stand import Stand, page, told
from tests.publish.test_screw_holes import drawn_with

pytestmark = pytest.mark.xdist_group("publish")


def rows(stand: Stand) -> list[str]:
    guide = page(stand, "guide", "--draft")
    table = guide.partition("### What can stand in")[2].partition("\n#")[0]
    return [
        one
        for one in table.splitlines()
        if "| by thread tables" in one or "; by thread tables" in one
    ]


def test_a_screw_is_told_with_its_neighbour_and_all_that_changes_with_it(
    drawn: Stand,
) -> None:
    told(drawn, "line", "M4x20 screw", "4", "--bought-as", "ISO 7380 M4x20")
    [row] = [one for one in rows(drawn) if "#8-32" in one]
    assert row == (
        "| M4x20 screws | #8-32 (4.17 mm) | by thread tables: through the 4.5 mm hole "
        "usual for M4 with 0.33 mm of room; into no nut, insert or thread for M4: "
        "these become #8-32 too (tapping drill #29, 3.45 mm); lengths beside: for "
        "M4x20 3/4 in (19.1 mm) or 7/8 in (22.2 mm) |"
    )


def test_it_is_held_to_the_narrowest_hole_on_record(drawn: Stand) -> None:
    hole = ("--layer", "lid=6 mm", "--hole-in", "lid")
    told(drawn, "joint", "lid to base", "M4x16", *hole, "--hole", "4.3 mm")
    [row] = [one for one in rows(drawn) if "#8-32" in one]
    assert "through the 4.3 mm hole on record with 0.13 mm of room" in row
    told(drawn, "joint", "lid to base", "M4x16", *hole, "--hole", "4.1 mm")
    [row] = [one for one in rows(drawn) if "#8-32" in one]
    assert "does not go through the 4.1 mm hole on record" in row


def test_a_hole_that_a_file_draws_for_it_counts_too(drawn: Stand) -> None:
    drawn_with(drawn, (10, 30, 4.3), (50, 30, 4.3))
    told(drawn, "joint", "lamp to base", "M4x16", "--layer", "base=2.0")
    [row] = [one for one in rows(drawn) if "#8-32" in one]
    assert "through the 4.3 mm hole in the file of the base with 0.13 mm of room" in row


def test_one_that_somebody_tried_is_told_once_with_what_came_of_it(
    drawn: Stand,
) -> None:
    told(drawn, "line", "M4x20 screw", "4", "--substitute", "#8-32 x 3/4 in: held")
    [row] = [one for one in rows(drawn) if "#8-32" in one]
    assert row.startswith("| M4x20 screw | #8-32 x 3/4 in | held; by thread tables: ")


def test_a_design_without_screws_says_nothing_of_them(drawn: Stand) -> None:
    told(drawn, "line", "M4 washer", "4")
    told(drawn, "line", "M12x80 bolt", "1")
    assert [one for one in rows(drawn) if "M3" not in one] == []


@pytest.mark.parametrize(
    ("words", "thread", "mm"),
    [
        ("ISO 7380 M4x20", "M4", 20.0),
        ("M4x0.7x20", "M4", 20.0),
        ("#8-32 x 3/4 in", "#8-32", 19.05),
        ('1/4-20 × 1 1/4"', "1/4-20", 31.75),
    ],
)
def test_a_screw_is_known_by_how_it_is_named(
    words: str, thread: str, mm: float
) -> None:
    found = screw_named(words)
    assert found is not None
    assert (found.thread, found.length) == (thread, mm)


@pytest.mark.parametrize("words", ["M4 washer", "blind rivet 3.2x8", "M10x1.25x40"])
def test_what_is_no_screw_of_a_known_thread_is_none(words: str) -> None:
    assert screw_named(words) is None
