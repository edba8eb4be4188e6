"""The rule for a size made to suit that is printed for strangers, and the bench's own.

Whoever follows the printed rule must come out inside of what the bench accepts.
"""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.publish.html import anchor
from logbook.shop.chains.suit import Side, Wanted, make_to_suit
from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")

LOW, HIGH = 0.1, 0.5
HALFWAY, NO_SIZE = 0.1, 0.4
"""What the guide says of places that differ, in mm; the test below reads it there."""


def as_printed(places: list[float]) -> float:
    """Give the size the guide's rule leads to, in mm."""
    apart = max(places) - min(places)
    start = min(places) if apart < HALFWAY - 1e-9 else (min(places) + max(places)) / 2
    return start - 0.3


def test_the_guide_says_what_holds_where_the_places_differ(published: Stand) -> None:
    text = published.run("guide", "1.0", "--print")[1]
    rule = next(line for line in text.splitlines() if "make the length of the" in line)
    assert "= measured opening of the base − 0.3 mm" in rule
    assert "Of several places the smallest counts" in rule
    assert f"differ by {HALFWAY} mm or more, take halfway between the " in rule
    assert "smallest and the largest instead" in rule
    assert re.search(rf"by more than {NO_SIZE} mm, no one size suits", rule)


def test_a_drawn_size_says_in_its_table_that_it_is_made_to_suit_and_leads_to_the_gap(
    published: Stand,
) -> None:
    text = published.run("guide", "1.1", "--print")[1]
    table = text.partition("### Crossbar")[2].partition("\n### ")[0]
    row = next(line for line in table.splitlines() if line.startswith("| length"))
    gap = "bar between the uprights"
    assert "| 179.7 mm (179.6 mm to 179.8 mm); made to suit: measured opening " in row
    assert f"; see gap [{gap}](#{anchor(gap)}) | gap 0.1 mm to 0.5 mm |" in row
    heading = next(line for line in text.splitlines() if line.endswith(gap[1:]))
    assert anchor(heading.lstrip("# ")) == anchor(gap)


def told_of(
    stand: Stand, name: str, formula: str, last: str, limits: str = "0.1 to 0.3"
) -> str:
    """Put a gap on record, release it, and give what the guide says to do for it."""
    how = ("--limits", limits, "--last", last)
    assert stand.run("gap", name, formula, *how)[0] == 0
    assert stand.run("release", "1.2", "--anyway")[0] == 0
    text = stand.run("guide", "1.2", "--print")[1]
    return text.partition(f"### {name.capitalize()}\n")[2].partition("\n#")[0]


def test_each_gap_names_what_is_made_first_since_each_has_its_own_last(
    stand: Stand,
) -> None:
    for part, size in (("collar", "height=5"), ("lamp", "thickness=4")):
        stand.run("part", part, "--dimension", size)
    gap = "base.opening - collar.height - lamp.thickness"
    told = told_of(stand, "collar under the lamp", gap, "collar.height")
    assert "Make the base first. Measure the opening of the base, the thickness" in told
    bar = stand.run("guide", "1.2", "--print")[1].partition("### Bar between")[2]
    assert "Make the base first. Measure the opening of the base." in bar


def test_what_is_only_bought_is_measured_as_it_is(stand: Stand) -> None:
    for part, size in (("collar", "bore=5"), ("lamp", "thickness=4")):
        stand.run("part", part, "--dimension", size)
    told = told_of(stand, "lamp in it", "collar.bore - lamp.thickness", "collar.bore")
    assert "first" not in told
    assert "\nMeasure the thickness of the lamp." in told


def test_a_hole_made_to_suit_has_its_rule_in_measured_sizes_too(stand: Stand) -> None:
    for part, size in (("collar", "bore=5"), ("pin", "diameter=4.9")):
        stand.run("part", part, "--dimension", size)
    told = told_of(stand, "pin in it", "collar.bore - pin.diameter", "collar.bore")
    assert "Make the pin first. Measure the diameter of the pin." in told
    rule = "Then make the bore of the collar = measured diameter of the pin + 0.2 mm, "
    assert rule in told
    assert "Of several places the largest counts" in told


def test_a_gap_that_is_no_plain_sum_says_its_rule_as_a_whole_sentence(
    stand: Stand,
) -> None:
    for part, size in (("collar", "bore=5"), ("pin", "diameter=2.4")):
        stand.run("part", part, "--dimension", size)
    gap = "collar.bore - 2 * pin.diameter"
    told = told_of(stand, "pins in it", gap, "collar.bore")
    rule = "Then make the bore of the collar so that the gap “pins in it” comes to "
    assert f"{rule}0.1 mm to 0.3 mm, whatever the drawing says." in told


@given(st.lists(st.floats(180.0, 180.0 + NO_SIZE), min_size=1, max_size=4))
def test_the_printed_rule_keeps_the_limits_up_to_where_it_says_that_none_suits(
    places: list[float],
) -> None:
    made = as_printed(places)
    assert all(LOW - 1e-9 <= place - made <= HIGH + 1e-9 for place in places)


@pytest.mark.parametrize(
    ("limits", "said"),
    [("0.05 to 0.2", "0.03 mm"), ("0.1 to 0.3", "0.05 mm"), ("0.2 to 0.8", "0.15 mm")],
)
def test_from_where_on_halfway_is_taken_is_told_as_finely_as_it_can_be_read(
    stand: Stand, limits: str, said: str
) -> None:
    for part, size in (("collar", "bore=5"), ("pin", "diameter=4.9")):
        stand.run("part", part, "--dimension", size)
    gap = "collar.bore - pin.diameter"
    text = told_of(stand, "pin in it", gap, "collar.bore", limits)
    assert f"differ by {said} or more, take halfway" in text


@given(
    st.lists(st.floats(180.0, 180.0 + NO_SIZE), min_size=1, max_size=4),
    st.floats(0.0, HALFWAY),
)
def test_what_the_printed_rule_gives_the_bench_accepts(
    places: list[float], doubt: float
) -> None:
    found = make_to_suit(places, Wanted(LOW, HIGH, doubt, 0.2, 0.05))
    if found.possible:
        low, high = found.accept_low - 1e-9, found.accept_high + 1e-9
        assert low <= as_printed(places) <= high


@pytest.mark.parametrize("side", Side)
def test_at_the_very_limit_of_the_printed_rule_the_bench_says_the_same(
    side: Side,
) -> None:
    # Read with nothing in doubt: the limit alone decides, as it does on the page.
    for apart in (0.06, 0.08, HALFWAY, 0.12, 0.16):
        places = [180.1, 180.1 + apart]
        found = make_to_suit(places, Wanted(LOW, HIGH, 0.0, 0.2, 0.05, side=side))
        rule = as_printed(places)
        if side is Side.AROUND:
            rule = -as_printed([-one for one in places])
        assert found.finish == pytest.approx(rule, abs=1e-6)


def test_the_known_fault_of_a_size_made_to_suit_gives_the_rule_too(
    stand: Stand,
) -> None:
    told = ("--dimension", "length", "--found", "178.3", "--met-by", "drawing")
    cure = ("--cure", "make it 0.3 mm shorter than the smallest")
    stand.run("deviation", "crossbar", "bar cannot be as drawn", *told, *cure)
    page = stand.run("errata", "1.0", "--print")[1]
    own = page.partition("Bar cannot be as drawn\n")[2]
    rule = "length is made to suit: measured opening of the base − 0.3 mm; of several"
    assert rule in own
    assert f"differ by {HALFWAY} mm or more, take halfway between" in own
