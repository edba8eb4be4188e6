"""Which side of a bend is held, what fouls, and what a figure must not be without."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.shop.bending.clamping import least_held, usual_sides
from logbook.shop.shown import answer_lines
from logbook.shop.sums import find_sum, work_out

CHANNEL: dict[str, str | tuple[str, ...]] = {
    "legs": ("60", "100", "60"),
    "radius": "3",
    "thickness": "2",
}


def test_the_second_bend_of_a_channel_is_not_held_by_the_bent_flange() -> None:
    answer = work_out("setup-sheet", CHANNEL)
    assert [row[3] for row in answer.tables[0].rows] == ["near side", "far side"]
    assert any("clamped near far" in line for line in answer.assumptions)
    near = work_out("setup-sheet", {**CHANNEL, "clamped": ("near", "near")})
    lines, other = answer["lines"], near["lines"]
    assert isinstance(lines, tuple)
    assert isinstance(other, tuple)
    assert lines[0] == other[0]
    # Held from the other side the line lies as far from the other tangent line:
    # BA − 2 R further on, less than nothing here.
    allowance = near.tables[2].rows[1][4]
    assert isinstance(allowance, float)
    assert lines[1] - other[1] == pytest.approx(allowance - 2 * 3)


def test_a_short_return_is_not_what_is_held() -> None:
    # Flat of the 12 mm return: 12 − 5 = 7 mm, less than the 10 mm of a clamp.
    legs = ("12", "60", "100", "60", "12")
    answer = work_out("setup-sheet", {**CHANNEL, "legs": legs})
    assert answer.tables[0].rows[0][3] == "far side"
    held = work_out("setup-sheet", {**CHANNEL, "legs": legs, "clamped": "near"})
    assert any("only 7.0 mm of flat" in line for line in held.warnings)


@given(
    st.lists(st.floats(0, 200), min_size=3, max_size=7).flatmap(
        lambda flats: st.tuples(st.just(flats), st.permutations(range(1, len(flats))))
    )
)
def test_the_side_held_never_has_more_bends_than_the_other(
    given_: tuple[list[float], list[int]],
) -> None:
    flats, order = given_
    sides = usual_sides(flats, order, 2.0)
    made: set[int] = set()
    for number in order:
        near = sum(each < number for each in made)
        far = len(made) - near
        held, other = (near, far) if sides[number - 1] == "near" else (far, near)
        assert held <= other
        made.add(number)


def test_thick_sheet_asks_for_more_to_hold() -> None:
    assert least_held(2.0) == 10
    assert least_held(3.0) == 12


def test_a_flange_longer_than_the_web_is_warned_of() -> None:
    def fouls(web: str, **more: str | tuple[str, ...]) -> bool:
        typed = {**CHANNEL, "legs": ("60", web, "60"), **more}
        lines = work_out("setup-sheet", typed).warnings
        return any("longer than the web" in line for line in lines)

    assert fouls("40")
    assert not fouls("100")
    # folded to opposite faces the flanges part
    assert not fouls("40", direction=("up", "down"))


def test_flanges_that_cross_are_warned_of() -> None:
    # 120° twice: an equilateral triangle, so over an inside web of 60 they meet
    # where both are longer than 60.
    def meets(flange: str) -> bool:
        typed = {**CHANNEL, "legs": (flange, "100", flange), "bend_angles": "120"}
        said = work_out("setup-sheet", {**typed, "legs_are": "inside corner"}).warnings
        return any("flanges meet" in line for line in said)

    assert meets("101")
    assert not meets("99")


@pytest.mark.parametrize("name", ["flat-length", "setup-sheet", "leg-from-flat"])
def test_din_6935_is_said_to_be_for_steel(name: str) -> None:
    typed: dict[str, str | tuple[str, ...]] = {**CHANNEL}
    if name == "leg-from-flat":
        typed["flat_length"] = "300"

    def said(**more: str) -> bool:
        lines = work_out(name, {**typed, **more}).assumptions
        return any("DIN 6935 is stated for steel" in line for line in lines)

    assert said()
    assert said(material="5052-H32")
    assert not said(material="mild steel")
    assert not said(material="5052-H32", neutral_factor="0.42")
    assert not said(rule="FAA")


@pytest.mark.parametrize("name", ["bend-allowance", "flat-length", "setup-sheet"])
def test_a_factor_no_bend_has_is_said_before_any_figure(name: str) -> None:
    typed = dict(find_sum(name).example) | {"neutral_factor": "5"}
    lines = list(answer_lines(work_out(name, typed)))
    first = next(at for at, line in enumerate(lines) if "warning: " in line)
    result = next(
        at for at, line in enumerate(lines) if line.startswith(("  allow", "  flat"))
    )
    assert "outside 0 to 0.5" in " ".join(lines[first:result])
    assert sum("outside 0 to 0.5" in line for line in lines) == 1


def test_help_says_that_each_bend_has_its_side() -> None:
    clamped = next(
        each for each in find_sum("setup-sheet").inputs if each.name == "clamped"
    )
    assert "one value per bend" in clamped.meaning
