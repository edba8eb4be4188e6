"""Results beside the main figure: ranges, centres, warnings, tables in inches."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from logbook.errors import BadInput
from logbook.shop.bending.bends import bend, flat_parts
from logbook.shop.bending.neutral import chart_factor
from logbook.shop.bending.radii import din_radius
from logbook.shop.bending.springback import let_go
from logbook.shop.making.process import process_rows
from logbook.shop.materials.film_base import film_base
from logbook.shop.measuring.form import square_error
from logbook.shop.sums import work_out

CHANNEL = {
    "legs": "60; 100; 60",
    "radius": "3",
    "thickness": "2",
    "neutral_factor": "0.42",
}


def test_bend_centres_lie_between_the_tangent_lines() -> None:
    answer = work_out("flat-length", CHANNEL)
    # 55 + BA/2 and 55 + BA + 90 + BA/2, BA = π/2 (3 + 0.42 · 2)
    arc = math.pi / 2 * 3.84
    assert answer["bend_centres"] == pytest.approx((55 + arc / 2, 145 + arc * 1.5))


def test_legs_to_the_outermost_face_differ_beyond_a_right_angle_only() -> None:
    sharp, right = bend(120, 3, 2, 0.42), bend(90, 3, 2, 0.42)
    to_corner, to_face = "outside corner", "outermost face"
    assert flat_parts([60, 60], [right], to_corner) == pytest.approx(
        flat_parts([60, 60], [right], to_face)
    )
    # beyond 90° the outermost face lies R + T from the tangent line
    assert flat_parts([60, 60], [sharp], to_face) == pytest.approx([55, 55])
    assert flat_parts([60, 60], [sharp], to_corner) == pytest.approx([51.3397] * 2)


def test_inside_sizes_take_off_the_radius_only() -> None:
    right = bend(90, 3, 2, 0.42)
    assert flat_parts([60, 60], [right], "inside corner") == pytest.approx([57, 57])
    assert flat_parts([60, 60], [right], "flat part") == pytest.approx([60, 60])


def test_springback_is_added_to_every_bend_or_to_each() -> None:
    one = work_out("setup-sheet", {**CHANNEL, "springback": "2°"})
    assert one["set_bend_angles"] == pytest.approx((92, 92))
    two = work_out("setup-sheet", {**CHANNEL, "springback": ["2", "3"]})
    assert two["set_bend_angles"] == pytest.approx((92, 93))


def test_setup_sheet_in_inches_turns_its_tables_too() -> None:
    answer = work_out("setup-sheet", CHANNEL, "inch")
    column = answer.tables[0].columns[2]
    assert (column.name, column.unit, column.places) == ("line", "in", 3)
    assert answer.tables[0].rows[0][2] == pytest.approx(58 / 25.4)
    assert answer.tables[0].rows[0][6] == 90.0


def test_order_follows_the_bender_who_knows_better() -> None:
    answer = work_out("setup-sheet", {**CHANNEL, "order": ["2", "1"]})
    assert [row[1] for row in answer.tables[0].rows] == [2, 1]
    assert not any("ends inward" in said for said in answer.assumptions)


def test_bend_down_turns_the_back_face_up() -> None:
    answer = work_out("setup-sheet", {**CHANNEL, "direction": ["up", "down"]})
    assert [row[4] for row in answer.tables[0].rows] == ["marked face", "back face"]


def test_din_radius_takes_the_next_band_when_sharp_or_along_the_grain() -> None:
    # DIN 6935 rows as read: 3.0 mm in the band to 3 mm, 5.0 in the band to 4 mm
    assert din_radius(3, 390, 120, across=True) == 3.0
    assert din_radius(3, 390, 121, across=True) == 5.0
    assert din_radius(3, 390, 90, across=False) == 5.0
    assert din_radius(3, 391, 90, across=True) == 4.0
    assert din_radius(3, 640, 90, across=True) == 5.0
    with pytest.raises(BadInput, match="tensile strength: found 641"):
        din_radius(3, 641, 90, across=True)
    with pytest.raises(BadInput, match="needs the next thicker band"):
        din_radius(19, 390, 130, across=True)


def test_alloy_tables_warn_beyond_what_they_are_made_for() -> None:
    typed = {"material": "6061-T6", "thickness": "1 mm"}
    assert work_out("bend-radius", {**typed, "bend_angle": "90"}).warnings == ()
    sharp = work_out("bend-radius", {**typed, "bend_angle": "91"})
    assert "a sharper bend wants more" in sharp.warnings[0]
    along = work_out("bend-radius", {**typed, "grain": "along"})
    assert "rolling direction" in along.warnings[0]


def test_sheet_thicker_than_the_table_is_told_its_range() -> None:
    with pytest.raises(BadInput, match=r"thickness: found 9 mm; .*up to 6\.55 mm"):
        work_out("bend-radius", {"material": "5052-H32", "thickness": "9 mm"})


def test_neutral_factors_of_all_rules_stand_beside_each_other() -> None:
    typed = {"thickness": "2", "radius": "3", "temper": "half-hard"}
    answer = work_out("neutral-factor", {**typed, "rule": "handbook"})
    # 0.64 / (π/2)
    assert answer.number("neutral_factor") == pytest.approx(0.40744, abs=1e-5)
    assert answer.number("greatest") == pytest.approx(0.0078 / 0.01743)
    spread = answer.number("greatest") - answer.number("least")
    assert answer.number("doubt_of_flat") == pytest.approx(math.pi * spread)


def test_chart_gives_its_cells_and_the_middle_between_them() -> None:
    inch = 25.4
    assert chart_factor("aluminium", 0.032 * inch, 0.03 * inch) == pytest.approx(0.398)
    half = chart_factor("aluminium", 0.032 * inch, 0.045 * inch)
    assert half == pytest.approx((0.398 + 0.394) / 2)
    assert chart_factor("aluminium", 0.125 * inch, 0.188 * inch) == pytest.approx(0.406)


def test_included_angle_is_the_other_way_to_say_the_bend_angle() -> None:
    shared = {"radius": "3", "thickness": "2", "neutral_factor": "0.4"}
    turned = work_out("bend-allowance", {**shared, "bend_angle": "30"})
    inside = work_out("bend-allowance", {**shared, "included_angle": "150"})
    assert turned.number("allowance") == pytest.approx(inside.number("allowance"))
    assert inside.number("bend_angle") == pytest.approx(30)


def test_room_for_growth_shows_the_upper_figure_of_the_material() -> None:
    typed = {"material": "acrylic", "distance": "200", "screw": "4"}
    answer = work_out("room-for-growth", {**typed, "temperature_change": "20 K"})
    # 81e-6 · 200 · 20 = 0.324 each way
    assert answer.number("hole_high") == pytest.approx(4.648)
    frame = {**typed, "frame_expansion": "23.6", "temperature_change": "20 K"}
    less = work_out("room-for-growth", frame)
    assert less.number("movement") == pytest.approx((75 - 23.6) * 1e-6 * 200 * 20)


def test_growth_between_two_temperatures_in_any_scale() -> None:
    typed = {"expansion": "12", "length": "1000"}
    celsius = {**typed, "from_temperature": "0 °C", "to_temperature": "40 °C"}
    fahrenheit = {**typed, "from_temperature": "32 °F", "to_temperature": "104 °F"}
    assert work_out("thermal-growth", celsius).number("change") == pytest.approx(0.48)
    assert work_out("thermal-growth", fahrenheit).number("change") == pytest.approx(
        0.48
    )


def test_plating_just_within_the_allowance_fits() -> None:
    typed = {"size": "M4", "layer": "5.5 µm"}
    assert work_out("coated-thread", typed)["fits"] is True
    assert work_out("coated-thread", {**typed, "layer": "5.6 µm"})["fits"] is False


def test_coating_by_name_takes_its_outward_share() -> None:
    answer = work_out("coated-hole", {"hole": "5", "coating": "anodise type III"})
    # 25 to 75 µm, half of it outward, on both walls
    assert answer.number("hole_max") == pytest.approx(4.975)
    assert answer.number("hole_min") == pytest.approx(4.925)
    one = work_out("coated-size", {"size": "20", "coating": "powder", "faces": "1"})
    assert one.number("size_high") == pytest.approx(20.075)


def test_left_over_pieces_are_what_the_packs_hold_beyond_the_need() -> None:
    typed = {"need": "26", "spares": "2", "in_stock": "5"}
    packs = {"pack_sizes": ["10", "50"], "prices": ["1.90 EUR", "6.50 EUR"]}
    answer = work_out("buy", {**typed, **packs})
    # 26 + 2 − 5 = 23, three packs of ten
    assert answer["pieces"] == 30
    assert answer["left_over"] == 7


def test_layout_rows_are_in_the_units_they_say() -> None:
    typed = {"stock": "100x200", "blanks": "90x95", "count": "2", "kerf": "2"}
    rows = work_out("blanks-from-stock", {**typed, "grain": "kept"}).tables[0].rows
    assert sorted((row[2], row[3]) for row in rows) == [(0.0, 0.0), (0.0, 97.0)]


def test_frame_with_equal_diagonals_is_square() -> None:
    assert square_error(180, 100, 206, 206) == 0
    with pytest.raises(BadInput, match="diagonals such a frame can have"):
        square_error(100, 100, 300, 10)


def test_diagonals_that_do_not_belong_to_the_sides_are_doubted() -> None:
    typed = {"width": "180", "height": "100", "diagonals": "210; 209"}
    assert (
        "do not belong to these sides" in work_out("out-of-square", typed).warnings[0]
    )


def test_twist_of_a_flat_board_is_nothing() -> None:
    shared = {"length": "240", "width": "180"}
    flat = work_out("twist", {**shared, "corners": ["0", "1", "1", "0"]})
    assert flat.number("twist") == pytest.approx(0)
    warped = work_out("twist", {**shared, "corners": ["0", "0", "0.6", "0"]})
    assert warped.number("rock") == pytest.approx(0.3)


def test_gap_of_a_bow_falls_with_the_square_of_the_span() -> None:
    typed = {"length": "300", "gap": "0.4", "span": "150"}
    assert work_out("bow", typed).number("gap_over_span") == pytest.approx(0.1)
    straight = work_out("bow", {"length": "300", "gap": "0"})
    assert straight.result("radius").shown == "unlimited"
    assert straight.to_json()["results"]["radius"]["value"] is None


def test_process_is_found_by_name_and_feature() -> None:
    (row,) = process_rows("filament printing", "hole diameter")
    assert row.number("offset") < 0
    assert row.source == "common practice, no source (common practice)"
    with pytest.raises(BadInput, match="process: found “guessing”; accepted: "):
        process_rows("guessing")
    with pytest.raises(BadInput, match="feature: found “smell”; accepted: bend angle"):
        process_rows("hand folding", "smell")


@pytest.mark.parametrize(
    ("edge", "year", "said"),
    [
        ("Safety, embossed", None, "acetate, not nitrate"),
        ("both Nitrate and Safety, printed", None, "probably a later copy"),
        ("none", 1919, "assume nitrate"),
        ("none", 1920, "unknown: treat as nitrate until tested"),
        ("none", 1960, "not likely nitrate"),
    ],
)
def test_film_is_judged_the_cautious_way(
    edge: str, year: int | None, said: str
) -> None:
    # US National Park Service film base decision tree, read
    assert film_base(edge, year).startswith(said)


@given(
    st.floats(0.5, 20), st.floats(0.5, 5), st.floats(50, 600), st.floats(60e3, 210e3)
)
def test_a_bend_let_go_opens_and_its_middle_keeps_its_length(
    radius: float, thickness: float, stress: float, modulus: float
) -> None:
    assume(radius * stress / (modulus * thickness) < 0.45)
    found = let_go(radius, thickness, stress, modulus)
    assert found.radius > radius
    assert found.kept < 1
    middle = radius + thickness / 2, found.radius + thickness / 2
    assert middle[0] == pytest.approx(middle[1] * found.kept)
    assert let_go(radius, thickness, stress * 1.05, modulus).kept < found.kept


def test_sheet_over_too_large_a_radius_springs_flat() -> None:
    with pytest.raises(BadInput, match="springs flat again; accepted: below 359 mm"):
        let_go(500, 2, 195, 70_000)
    typed = {"bend_angle": "90", "radius": "3", "thickness": "2", "yield": "195"}
    with pytest.raises(BadInput, match="modulus is missing"):
        work_out("springback-estimate", typed)


def test_a_table_that_ends_leaves_the_word_to_the_other() -> None:
    thick = {"material": "6061-T6", "thickness": "0.258 in"}
    answer = work_out("bend-radius", thick)
    assert answer["aircraft_multiples"] == (3.0, 4.0)
    with pytest.raises(BadInput, match="up to 6"):
        work_out("bend-radius", {**thick, "thickness": "10 mm"})


def test_a_setup_sheet_of_a_metal_without_a_table_asks_for_a_coupon() -> None:
    typed = {"legs": ("40", "80", "40"), "radius": "2", "thickness": "1.5"}
    answer = work_out("setup-sheet", {**typed, "material": "stainless"})
    assert any("bend a coupon first" in line for line in answer.warnings)
    known = work_out("setup-sheet", {**typed, "material": "5052"})
    assert any("temper of 5052 not given" in line for line in known.warnings)
