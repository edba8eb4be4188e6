"""The guide says what follows the sheet, for who has another than the one drawn.

Check values. Screw: M4x16 is 16 −/+0.35 mm long (ISO 4759-1, js15), its pitch 0.7 mm;
the hexagon nut M4 is 3.2 mm at most (ISO 4032). Bend: an allowance of 0.01743 R +
0.0078 T for each degree (FAA-H-8083-31), so that 2 (R + T) less that of 90° takes off
2 − 0.702 = 1.298 mm for each mm of T. The layers are invented.
"""

from __future__ import annotations

import pytest

from logbook.shop.bending.bends import allowance_by_rule
from tests.publish.stand import Stand, page, told
from tests.publish.test_screw_holes import FOUR, drawn_with

pytestmark = pytest.mark.xdist_group("publish")


def row(stand: Stand, part: str) -> list[str]:
    """Give the cells of a part: as drawn, how far it may differ, what follows."""
    guide = page(stand, "guide", "--draft")
    table = guide.partition("### If your sheet or board")[2].partition("\n## ")[0]
    rows = [x for x in table.splitlines() if x.startswith(f"| {part} |")]
    return [cell.strip() for cell in rows[0].strip("|").split("|")][1:] if rows else []


def plated(stand: Stand, thick: str = "6.0 mm") -> Stand:
    told(stand, "part", "plate", "--material", "steel", "--thickness", thick)
    told(stand, "line", "plate", "1")
    layers = ("--layer", f"plate={thick}", "--layer", "base=2.0 ±0")
    told(stand, "joint", "plate to base", "M4x16", *layers, "--nut", "plain")
    return stand


def test_a_screw_says_up_to_which_thickness_it_is_long_enough(drawn: Stand) -> None:
    material, may_be, follows = row(plated(drawn), "plate")
    assert (material, may_be) == ("steel, 6.0 mm thick", "nobody has said")
    # 15.65 at the shortest, less 2.0 of the base, 3.2 of the nut, a pitch of 0.7: 9.75
    # for the thickest sheet, whose own limits are not known.
    assert follows == (
        "M4x16 of “plate to base”: long enough up to 9.7 mm, the other layers as drawn"
    )


def test_a_gauge_is_told_as_it_is_and_nothing_is_worked_out_of_it(
    drawn: Stand,
) -> None:
    told(drawn, "part", "base", "--thickness", "14 ga aluminium")
    told(drawn, "step", "Fold the base", "--makes", "base", "--set", "bend radius 2 mm")
    material, _, follows = row(drawn, "base")
    assert "14 ga aluminium" in material
    assert "its flat pattern is drawn for 14 ga aluminium" in follows
    assert "less off the outside legs for each mm" in follows


def test_a_screw_too_short_as_drawn_allows_no_thickness(drawn: Stand) -> None:
    assert row(plated(drawn, "12.0 mm"), "plate") == []


def test_limits_and_what_matters_are_how_far_it_may_differ(drawn: Stand) -> None:
    plated(drawn)
    told(drawn, "line", "plate", "--critical", "the thickness: 5 to 7 mm will do")
    assert row(drawn, "plate")[1] == "matters: the thickness: 5 to 7 mm will do"
    told(drawn, "part", "plate", "--dimension", "thickness=6.0 ±0.5")
    assert row(drawn, "plate")[1].startswith("5.5 mm to 6.5 mm; matters: ")


def test_what_is_folded_says_for_which_sheet_and_radius_its_pattern_is(
    drawn: Stand,
) -> None:
    drawn_with(drawn, *((x, y, 3.4) for x, y in FOUR))
    follows = row(drawn, "base")[2]
    assert (
        "its flat pattern (60.0 × 60.0 mm) is drawn for 2.0 mm and an inside radius "
        "nobody has said" in follows
    )
    assert "each 90° bend takes 1.3 mm less off the outside legs" in follows
    assert "what matters stays as drawn: opening" in follows
    told(drawn, "step", "Fold the base", "--makes", "base", "--set", "bend radius 2 mm")
    follows = row(drawn, "base")[2]
    assert "drawn for 2.0 mm and the bend radius as set, 2 mm: with another" in follows
    # 2 (R + T) − 90 (0.01743 R + 0.0078 T) of R = 2 mm and T = 2.0, 1.6002, 2.032 mm.
    assert (
        "that radius kept and inside, each 90° bend takes off the outside legs "
        "3.5 mm at 2.0 mm, 2.9 mm at 0.063 in, 3.5 mm at 0.080 in" in follows
    )


def test_the_rule_is_that_of_the_bend_sums() -> None:
    def off(thick: float) -> float:
        return 2 * (3.0 + thick) - allowance_by_rule("FAA", 90.0, 3.0, thick, 0.0)

    assert off(2.0) - off(1.0) == pytest.approx(1.298, abs=0.0005)


def test_parts_of_which_nobody_said_anything_are_named_in_one_line(
    drawn: Stand,
) -> None:
    plated(drawn)
    told(drawn, "part", "lid", "--thickness", "1 mm", "--material", "steel")
    told(drawn, "line", "lid", "1")
    guide = page(drawn, "guide", "--draft")
    assert "lid nobody has said how far it may differ, or what follows it." in guide
