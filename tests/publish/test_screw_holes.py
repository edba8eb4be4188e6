"""The guide tells which holes the screws ask for: on record, as drawn, by the tables.

Check values: holes for M3 are 3.2, 3.4 and 3.6 mm, for M4 4.3, 4.5 and 4.8 mm (ISO
273), the drills before their taps 2.5 and 3.3 mm (ISO 2306). The plates are invented.
"""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from tests.publish.stand import Stand, page, told

pytestmark = pytest.mark.xdist_group("publish")

Hole = tuple[float, float, float]


def flat(holes: Sequence[Hole], width: float = 60, height: float = 60) -> str:
    """Give a plate as DXF, in millimetres: x, y and width of each hole."""
    corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    points = " ".join(f"10 {x} 20 {y}" for x, y in corners)
    rounds = " ".join(
        f"0 CIRCLE 8 CUT 10 {x} 20 {y} 40 {wide / 2}" for x, y, wide in holes
    )
    words = (
        "0 SECTION 2 HEADER 9 $INSUNITS 70 4 0 ENDSEC 0 SECTION 2 ENTITIES "
        f"0 LWPOLYLINE 8 CUT 90 4 70 1 {points} {rounds} 0 ENDSEC 0 EOF"
    )
    return words.replace(" ", "\n") + "\n"


def drawn_with(stand: Stand, *holes: Hole) -> Stand:
    """Draw the base anew as a plate with these holes."""
    stand.bench.write("drawings/base.dxf", flat(holes))
    stand.commit_files("Draw the base anew")
    told(stand, "revise", "base", "--redrawn")
    return stand


def holes_of(stand: Stand, part: str) -> list[str]:
    """Give the cells of a part's row: its screws, on record, in the file."""
    guide = page(stand, "guide", "--draft")
    table = guide.partition("### Holes for the screws")[2].partition("\n## ")[0]
    rows = [x for x in table.splitlines() if x.startswith(f"| {part} |")]
    return [cell.strip() for cell in rows[0].strip("|").split("|")][1:] if rows else []


FOUR = ((5.0, 5.0), (55.0, 5.0), (5.0, 55.0), (55.0, 55.0))


def test_holes_are_told_by_the_screw_their_width_is_for(drawn: Stand) -> None:
    drawn_with(drawn, *((x, y, 3.4) for x, y in FOUR))
    screws, recorded, in_file = holes_of(drawn, "base")
    assert screws == "4 × M3×10 (diffuser to base)"
    assert recorded == "nobody has said"
    assert in_file == (
        "4 round holes of 3.4 mm, outermost centres 50.0 × 50.0 mm apart; "
        "3.4 mm is a usual hole for M3"
    )


def test_a_tapping_drill_is_known_as_one(drawn: Stand) -> None:
    drawn_with(drawn, *((x, y, 2.5) for x, y in FOUR))
    assert "2.5 mm is the tapping drill of M3" in holes_of(drawn, "base")[2]


def test_a_hole_made_wide_says_how_much_room_it_leaves(drawn: Stand) -> None:
    drawn_with(drawn, *((x, y, 4.0) for x, y in FOUR), (30, 30, 32))
    in_file = holes_of(drawn, "base")[2]
    assert "4 mm leaves M3 1 mm of room, more than a wide hole" in in_file
    assert "32 mm leaves" not in in_file


def test_more_screws_than_holes_are_told_with_the_thread_that_has_none(
    drawn: Stand,
) -> None:
    drawn_with(drawn, (10, 30, 4.5), (50, 30, 4.5))
    layers = ("--layer", "base=2.0", "--number", "2")
    told(drawn, "joint", "lamp to base", "M4x16", *layers)
    assert holes_of(drawn, "base")[2].endswith(
        "4.5 mm is a usual hole for M4; too few for 6 screws, none of it for M3: where "
        "the others go nobody has said"
    )


def test_what_is_on_record_is_told_and_a_slot_is_no_missing_round_hole(
    drawn: Stand,
) -> None:
    drawn_with(drawn, *((x, y, 3.4) for x, y in FOUR))
    slot = ("--layer", "base=2.0", "--hole", "4.5 mm", "--slot", "8 mm")
    told(drawn, "joint", "lamp to base", "M4x16", *slot, "--number", "2")
    _, recorded, in_file = holes_of(drawn, "base")
    assert recorded == (
        "nobody has said (diffuser to base); 4.5 mm, slot 8 mm long (lamp to base)"
    )
    assert "too few" not in in_file


def test_the_tables_say_what_is_usual_for_each_thread(drawn: Stand) -> None:
    told(drawn, "line", "M4x20 screw", "4", "--bought-as", "ISO 7380 M4x20")
    guide = page(drawn, "guide", "--draft")
    assert "| M3 | 3.2, 3.4, 3.6 mm (ISO 273) | 2.5 mm (ISO 2306) | usual" in guide
    assert "| M4 | 4.3, 4.5, 4.8 mm (ISO 273) | 3.3 mm (ISO 2306) | usual" in guide


def test_a_screw_of_the_list_that_no_joint_takes_is_named(drawn: Stand) -> None:
    assert "in no joint on record" not in page(drawn, "guide", "--draft")
    told(drawn, "line", "M3 screw", "4", "--bought-as", "ISO 7380 M3x6")
    told(drawn, "line", "M3x10 screw", "4")
    assert (
        "On the list, but in no joint on record: M3 screw. Through what it goes, into "
        "what and how tight, nobody has said." in page(drawn, "guide", "--draft")
    )
