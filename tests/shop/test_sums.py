"""Every sum is declared whole, has a working example, and is in the shell."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path

import pytest

from logbook.cli import sums as verb
from logbook.errors import BadInput, LogbookError
from logbook.shop import topics
from logbook.shop.answers import NOT_AN_APPROVAL
from logbook.shop.given import Kind
from logbook.shop.sums import Sum, all_sums, find_sum, work_out
from logbook.shop.tables import HOW
from logbook.units import UNITS
from tests.shop.every_sum import SUMS, shell

SHOP = Path(topics.__file__).parent


@pytest.mark.parametrize("each", SUMS)
def test_sum_says_what_it_takes_and_where_it_comes_from(each: Sum) -> None:
    assert each.title
    assert each.formula
    assert each.source
    assert each.how in HOW
    assert each.example
    for one in each.inputs:
        assert one.meaning, one.name
        assert one.accepted, one.name
        assert one.name not in {"json", "units", "help"}
        if one.kind is Kind.QUANTITY:
            assert one.unit in UNITS, one.name
        if one.kind is Kind.CHOICE:
            assert one.choices, one.name


@pytest.mark.parametrize("each", SUMS)
def test_worked_example_works_out(each: Sum) -> None:
    answer = work_out(each, each.example)
    assert answer.results
    assert all(result.shown for result in answer.results)
    assert (answer.note == NOT_AN_APPROVAL) == each.relied_on
    json.dumps(answer.to_json())


@pytest.mark.parametrize("each", SUMS)
def test_names_of_inputs_are_not_taken_twice(each: Sum) -> None:
    words = [
        word.replace("_", "-") for one in each.inputs for word in {one.name, *one.also}
    ]
    assert [word for word, count in Counter(words).items() if count > 1] == []


def test_names_of_sums_are_not_taken_twice() -> None:
    words = [word for each in all_sums() for word in {each.name, *each.also}]
    assert [word for word, count in Counter(words).items() if count > 1] == []


def test_every_module_with_sums_is_a_topic() -> None:
    declared = {
        ".".join(path.relative_to(SHOP).with_suffix("").parts)
        for path in SHOP.rglob("*.py")
        if "\nSUMS = (" in path.read_text("utf-8")
        or "\nSUMS: " in path.read_text("utf-8")
    }
    assert declared == {module for _, module in topics.TOPICS}


def test_several_values_may_follow_an_input(
    capsys: pytest.CaptureFixture[str],
) -> None:
    typed = ["--legs", "60", "mm", "100", "60 mm", "--radius", "3", "mm"]
    typed += ["--thickness=2", "--neutral-factor", "0.42", "--json"]
    assert shell("flat-length", *typed) == 0
    held = json.loads(capsys.readouterr().out)
    assert held["results"]["flat_length"]["value"] == pytest.approx(212.0637, abs=1e-3)
    assert held["results"]["flat_length"]["unit"] == "mm"
    assert held["note"] == NOT_AN_APPROVAL


def test_negative_figures_are_values_not_options() -> None:
    typed = verb.read_options(find_sum("lean"), ["--offset", "-0.2", "--height", "100"])
    assert typed == {"offset": ["-0.2"], "height": ["100"]}


def test_results_follow_the_units_typed_or_asked_for() -> None:
    inches = {"bend_angle": "90", "radius": "1/8 in", "thickness": "0.04 in"}
    assert work_out("bend-allowance", inches).result("allowance").unit == "in"
    asked = work_out("bend-allowance", inches, "mm").result("allowance")
    assert asked.unit == "mm"
    mixed = {**inches, "thickness": "1 mm"}
    assert work_out("bend-allowance", mixed).result("allowance").unit == "mm"
    warm = work_out("heat-margin", find_sum("heat-margin").example, "inch")
    assert warm.result("hottest").unit == "°F"
    assert warm.number("hottest") == pytest.approx(64 * 1.8 + 32)


def test_gauge_is_taken_where_a_thickness_is_asked() -> None:
    typed = {"bend_angle": "90", "radius": "2 mm", "thickness": "18 ga steel"}
    answer = work_out("bend-allowance", typed)
    assert answer.number("setback") == pytest.approx(2 + 0.0478 * 25.4)
    assert "a measured thickness wins" in answer.assumptions[0]


@pytest.mark.parametrize(
    ("name", "typed", "said"),
    [
        ("flat-length", {"legs": "20; 30", "radius": "2", "thickness": "0"},
         "thickness: found 0; accepted: above 0 mm"),
        ("flat-length", {"legs": "20; 30", "radius": "2", "thickness": "-1"},
         "thickness: found -1; accepted: above 0 mm"),
        ("flat-length", {"legs": "20; 30", "radius": "-0.1", "thickness": "1"},
         "radius: found -0.1; accepted: at least 0 mm"),
        ("flat-length",
         {"legs": "20; 30", "radius": "2", "thickness": "1", "bend_angles": "180"},
         "bend angles: found 180; accepted: between 0 and 180°, each of several"),
        ("flat-length", {"legs": "20; 30", "radius": "2 °C", "thickness": "1"},
         "radius: °C is a temperature, mm is a length; accepted: a length"),
        ("flat-length", {"legs": "20; 30", "radius": "nan", "thickness": "1"},
         "radius: “nan” is no figure; accepted: at least 0 mm"),
        ("flat-length", {"legs": "20; 30", "radius": "inf", "thickness": "1"},
         "radius: “inf” is no figure; accepted: at least 0 mm"),
        ("flat-length", {"legs": "20; 30", "radius": "2"},
         "thickness is missing (sheet thickness, measured); accepted: above 0 mm"),
        ("flat-length", {"legs": "2; 30", "radius": "2", "thickness": "1"},
         "legs: leg 1 of 2 mm is shorter than its bends take; accepted: at least 3 mm"),
        ("flat-length",
         {"legs": "20;30", "radius": "2", "thickness": "1", "bend_angles": "90;90"},
         "bend angles: found 2 for 1 bends; accepted: one for all or one for each"),
        ("bend-allowance",
         {"bend_angle": "60", "included_angle": "60", "radius": "2", "thickness": "1"},
         "bend angle 60° and included angle 60° do not add up to 180°"),
        ("bend-din", {"radius": "0.02", "thickness": "1"},
         "radius: found 0.02 mm in 1 mm sheet; accepted for DIN 6935: at least 0.0501"),
        ("neutral-factor",
         {"radius": "9", "thickness": "1", "material": "aluminium", "rule": "chart"},
         "radius: found 9 mm; accepted in the chart: 0.762 to 4.78 mm"),
        ("sheet-limits", {"material": "steel", "thickness": "5"},
         "sheet); accepted: over 0.6 up to and including 3 mm"),
        ("bend-radius", {"material": "cheese", "thickness": "1"},
         "material: found “cheese”; accepted: 2024-O"),
        ("gauge", {"metal": "steel", "gauge": "99"},
         "99 ga steel is not in the table (steel sheet by gauge); accepted: 3 to"),
        ("gauge", {"metal": "steel", "gauge": "1.5"},
         "gauge: found 1.5; accepted: a whole number at least 0"),
        ("wood-moisture", {"humidity": "101"},
         "humidity: found 101; accepted: from 0 to 100 %"),
        ("wood-movement", {"species": "balsa", "width": "9", "moisture_change": "1"},
         "“balsa” is not in the table"),
        ("heat-margin", {"material": "PETG", "measured": "20 °C", "room": "22 °C"},
         "measured: found 20 °C in a room of 22 °C"),
        ("kerf-path", {"size": "0.1", "kerf": "0.2", "contour": "inside"},
         "size: found 0.1 mm inside a cut of 0.2 mm"),
        ("blanks-from-stock", {"stock": "400", "blanks": "1x1", "kerf": "1"},
         "stock: found “400”; accepted: two sizes, 180x95 mm"),
        ("blanks-from-stock", {"stock": "4x0", "blanks": "1x1", "kerf": "1"},
         "stock: found “4x0”; accepted: sizes above 0 mm"),
        ("cut-list", {"pieces": "300", "bar": "200", "kerf": "1"},
         "pieces: found 300 mm; accepted: up to the bar of 200 mm"),
        ("buy", {"need": "3", "pack_sizes": "5; 6", "prices": "1 EUR; 2 USD"},
         "prices: found EUR and USD; accepted: one currency"),
        ("setup-sheet",
         {"legs": "20;30;20", "radius": "2", "thickness": "1", "order": "1; 1"},
         "order: found 1, 1; accepted: each bend from 1 to 2 once"),
        ("lean", {"offset": "1", "heigth": "2"},
         "there is no input “heigth”; accepted: offset, height"),
        ("lean", {"offset": ["1", "2"], "height": "2"},
         "offset: found several, 1, 2; accepted: one value"),
    ],
)  # fmt: skip
def test_bad_input_is_refused_in_one_sentence(
    name: str, typed: dict[str, str], said: str
) -> None:
    with pytest.raises(BadInput) as refused:
        work_out(name, typed)
    assert said in str(refused.value)
    assert "accepted" in str(refused.value)
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize(
    ("words", "values"),
    [
        (["60", "mm", "100", "60", "in"], ["60 mm", "100", "60 in"]),
        (["60", "±", "0.1", "mm", "100"], ["60 ± 0.1 mm", "100"]),
        (["60 ±0.1", "100", "±0.2"], ["60 ±0.1", "100 ±0.2"]),
        (["60; 100"], ["60; 100"]),
    ],
)
def test_units_and_spreads_belong_to_the_figure_before_them(
    words: list[str], values: list[str]
) -> None:
    typed = verb.read_options(find_sum("flat-length"), ["--legs", *words])
    assert typed == {"legs": values}


def test_words_of_a_list_of_texts_stay_apart() -> None:
    words = ["--stock", "400x150", "300x100", "--blanks", "180x95 mm"]
    assert verb.read_options(find_sum("blanks-from-stock"), words) == {
        "stock": ["400x150", "300x100"],
        "blanks": ["180x95 mm"],
    }


@pytest.mark.parametrize(
    ("word", "thickness"),
    [("aluminum", 1.291), ("alu", 1.291), ("stainless steel", 1.588), ("crs", 1.519)],
)
def test_metals_are_known_by_their_other_names(word: str, thickness: float) -> None:
    answer = work_out("gauge", {"metal": word, "gauge": "16"})
    assert answer.number("thickness") == pytest.approx(thickness, abs=0.001)


@pytest.mark.parametrize(
    ("word", "low"),
    [
        ("5052-H32", 1.86),
        ("EN AW-5754", 1.86),
        ("aluminum 1050", 1.88),
        ("cold-rolled steel", 1.88),
        ("acrylic extruded", 1.8),
        ("plywood", 1.54),
    ],
)
def test_sheets_are_known_by_their_trade_names(word: str, low: float) -> None:
    answer = work_out("sheet-limits", {"material": word, "thickness": "2"})
    assert answer.number("low") == pytest.approx(low, abs=1e-9)


def test_unclear_sheet_is_asked_back() -> None:
    with pytest.raises(BadInput, match="accepted: acrylic cast, acrylic extruded"):
        work_out("sheet-limits", {"material": "acrylic", "thickness": "3"})
    with pytest.raises(BadInput, match="accepted: aluminium I, aluminium II"):
        work_out("sheet-limits", {"material": "aluminum", "thickness": "2"})


JUNK = (
    "", "0", "-1", "nan", "inf", "∞", "1e400", "1/0", "5 mm 6", "½", "3 °C",
    "999999999999", "0.0000001 mm", "1 ±1", "±1", "9" * 119, "A" * 500, "180x95",
    "12 ga steel", "99 ga steel", "1e9 °F", "1,2,3", "1.5,2", "20 tpi", "0 tpi", "M4",
    "25 H7/g6", "a: 1 2", "1°30'", "-3 %", "3 1/2 in", "\u202e1", "１２",
)  # fmt: skip


@pytest.mark.parametrize("each", SUMS)
def test_whatever_is_typed_gives_an_answer_or_one_sentence(each: Sum) -> None:
    for one in each.inputs:
        for junk in JUNK:
            said = answered(each, {**each.example, one.name: junk})
            assert said, (one.name, junk)
            assert "\n" not in said, (one.name, junk)


def answered(each: Sum, typed: dict[str, str | tuple[str, ...]]) -> str:
    """Give the results as shown, or the sentence that refuses them."""
    try:
        answer = work_out(each, typed)
    except LogbookError as refusal:
        return str(refusal) if "accepted" in str(refusal) else ""
    json.dumps(answer.to_json(), allow_nan=False)
    return "; ".join(result.shown for result in answer.results)


def test_a_fit_is_shown_with_signs_and_limits_in_mm() -> None:
    # ISO 286-2: 25 H7 +21 0, g6 −7 −20 µm
    answer = work_out("fit", {"fit": "25 H7/g6"})
    assert answer.result("hole").shown == "+21, 0 µm"
    assert answer.result("shaft").shown == "-7, -20 µm"
    assert answer.result("hole_limits").shown == "25.000, 25.021 mm"
    assert answer.result("shaft_limits").shown == "24.980, 24.993 mm"
