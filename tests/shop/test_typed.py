"""What people type for a sum: figures, units, lists and words as they come."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from logbook.cli import sums as verb
from logbook.errors import BadInput, NeedsAnswer
from logbook.shop.given import Input, Range
from logbook.shop.sums import find_sum, work_out
from logbook.shop.typed import read_inputs

Typed = dict[str, str | Sequence[str]]

_GROWTH = {"length": "300 mm", "temperature_change": "20 K"}
_PARTS = {"radius": "2 mm", "thickness": "1 mm", "neutral_factor": "0.42"}


@pytest.mark.parametrize(
    ("name", "typed", "plain", "result"),
    [
        # powers of ten and the many spellings of one coefficient
        *(
            (
                "thermal-growth",
                {**_GROWTH, "expansion": said},
                {**_GROWTH, "expansion": "23"},
                "change",
            )
            for said in (
                "23e-6", "23E-6/K", "2.3e-5 1/K", "23 ppm/K", "23 µm/m/K", "23 ppm/°C",
                "23 × 10^-6 /K", "0.000023", "23 1e-6/K",
            )
        ),
        ("lean", {"offset": "7e-1", "height": "1e2 mm"},
         {"offset": "0.7", "height": "100"}, "lean"),
        ("lean", {"offset": "0.7", "height": "1e-4 m"},
         {"offset": "0.7", "height": "0.1"}, "lean"),
        ("tip-shift", {"angle_error": "24'", "leg": "100"},
         {"angle_error": "0.4°", "leg": "100"}, "shift"),
        ("tip-shift", {"angle_error": "0°24′", "leg": "100"},
         {"angle_error": "0.4 deg", "leg": "100"}, "shift"),
        ("thread-percent",
         {"diameter": "1/4 in", "pitch": "20 tpi", "drill": "0.201 in"},
         {"diameter": "0.25 in", "pitch": "0.05 in", "drill": "0.201 in"}, "percent"),
        # lists: commas, blanks, one unit behind the last
        ("flat-length", {**_PARTS, "legs": "20,30,20"},
         {**_PARTS, "legs": ("20", "30", "20")}, "flat_length"),
        ("flat-length", {**_PARTS, "legs": "20.5,30"},
         {**_PARTS, "legs": ("20.5", "30")}, "flat_length"),
        ("flat-length", {**_PARTS, "legs": ("20,5", "30")},
         {**_PARTS, "legs": ("20.5", "30")}, "flat_length"),
        ("flat-length", {**_PARTS, "legs": ("1", "2", "1 in")},
         {**_PARTS, "legs": ("1 in", "2 in", "1 in")}, "flat_length"),
        # shares the other way round
        ("spares", {"wanted": "4", "good": "0.8"}, {"wanted": "4", "good": "80 %"},
         "make"),
        ("wood-moisture", {"humidity": "0.5"}, {"humidity": "50"}, "moisture"),
        ("student-t", {"dof": "9", "coverage": "95"}, {"dof": "9"}, "t"),
        ("guard-band", {"probability": "95"}, {"probability": "95 %"}, "factor"),
        ("tolerance-factor", {"count": "9", "coverage": "90", "confidence": "99 %"},
         {"count": "9", "coverage": "0.9", "confidence": "0.99"}, "factor"),
        # words for a choice
        ("general-tolerance", {"nominal": "180", "class": "coarse"},
         {"nominal": "180", "class": "c"}, "deviation"),
        ("general-tolerance", {"nominal": "180", "class": "ISO 2768-mK"},
         {"nominal": "180", "class": "m"}, "deviation"),
        ("kerf-path", {"size": "36", "kerf": "0.2", "contour": "hole"},
         {"size": "36", "kerf": "0.2", "contour": "inside"}, "path"),
        ("tape-error", {"class": "2", "length": "2.4 m"},
         {"class": "II", "length": "2.4 m"}, "mpe"),
        ("standard-uncertainty", {"half_width": "0.03", "shape": "uniform"},
         {"half_width": "0.03"}, "u"),
        ("washer-cover", {"size": "M4x0.7", "hole": "6", "washer": "ISO 7093"},
         {"size": "M4", "hole": "6", "washer": "iso7093"}, "worst"),
        ("screw-head", {"standard": "DIN 912", "size": "M4"},
         {"standard": "iso4762", "size": "M4"}, "k"),
        ("edge-distance", {"layer": "5052 aluminium sheet", "screw": "M4"},
         {"layer": "metal", "screw": "M4"}, "centre_to_edge"),
        ("edge-distance", {"layer": "PETG print", "screw": "M4"},
         {"layer": "printed part", "screw": "M4"}, "centre_to_edge"),
        ("thread-percent", {"diameter": "M3", "pitch": "0.5", "drill": "2.5"},
         {"diameter": "3", "pitch": "0.5", "drill": "2.5"}, "percent"),
        ("process-scatter", {"process": "drilling", "feature": "hole diameter"},
         {"process": "twist drill"}, "offset"),
        ("process-scatter", {"process": "sawing"}, {"process": "hacksaw and file"},
         "scatter"),
        # threads, drills, gauges, fits
        ("tap-drill", {"thread": "1/4-20 UNC"}, {"thread": "1/4-20"}, "drill_diameter"),
        ("tap-drill", {"thread": "10-32"}, {"thread": "#10-32"}, "drill_diameter"),
        ("tap-drill", {"thread": "#10-32 UNF-2B"}, {"thread": "#10-32"},
         "drill_diameter"),
        ("tap-drill", {"thread": "M6x1-6H"}, {"thread": "M6"}, "drill_diameter"),
        ("clearance-hole", {"size": "1/4 in"}, {"size": "1/4"}, "normal_diameter"),
        ("clearance-hole", {"size": "No. 8"}, {"size": "#8"}, "normal_diameter"),
        ("clearance-hole", {"size": "M4x0.7"}, {"size": "M4"}, "medium"),
        ("drill-size", {"name": "letter F"}, {"name": "F"}, "diameter"),
        ("numbered-screw", {"number": "#8"}, {"number": "8"}, "diameter"),
        ("gauge", {"gauge": "18 ga steel"}, {"metal": "steel", "gauge": "18"},
         "thickness"),
        ("gauge", {"metal": "steel", "gauge": "18 ga"},
         {"metal": "steel", "gauge": "18"}, "thickness"),
        ("fit", {"fit": "25 H7/g6"}, {"nominal": "25", "fit": "H7/g6"},
         "max_clearance"),
        ("fit", {"fit": "Ø25H7-g6"}, {"nominal": "25", "fit": "H7/g6"},
         "max_clearance"),
        ("limit-deviations", {"class": "25H7"}, {"nominal": "25", "class": "H7"},
         "largest"),
        ("joint", {"screw": "M4x0.7x16", "layers": ("3 ±0.1", "2"), "nut": "DIN 985"},
         {"screw": "M4 × 16", "layers": ("3 ±0.1", "2"), "nut": "din985"},
         "stand_through_min"),
        # units behind readings and limits
        ("readings", {"readings": ("3 1/2 in", "3 5/8", "3 3/4")},
         {"readings": ("3.5", "3.625", "3.75")}, "sd"),
        ("readings", {"readings": ("1 in", "25.4 mm", "2 in")},
         {"readings": ("1", "1", "2")}, "sd"),
        ("accept-or-reject", {"measured": "10.1 ±0.02", "lower": "9.9",
                              "upper": "10.15"},
         {"measured": "10.1", "nominal": "10.025", "tolerance": "0.125",
          "uncertainty": "0.02"}, "acceptance_high"),
        ("thermal-growth",
         {"material": "brass", "length": "300", "from": "68 °F", "to": "40C"},
         {"material": "brass", "length": "300", "temperature_change": "20 K"},
         "change"),
        ("bend-radius", {"material": "steel", "thickness": "2",
                         "tensile_strength": "65 ksi"},
         {"material": "steel", "thickness": "2", "tensile_strength": "448.159 MPa"},
         "least_radius"),
    ],
)  # fmt: skip
def test_other_spellings_mean_the_same(
    name: str, typed: Typed, plain: Typed, result: str
) -> None:
    found, wanted = work_out(name, typed), work_out(name, plain)
    unit = wanted.result(result).unit or found.result(result).unit
    assert found.result(result).unit in {"", unit}
    one, other = found[result], wanted[result]
    assert one == pytest.approx(other, rel=1e-9)


@pytest.mark.parametrize(
    ("name", "typed", "said"),
    [
        ("lean", {"offset": "1e400", "height": "1"}, "power of ten beyond reason"),
        ("lean", {"offset": "1e-400", "height": "1"}, "power of ten beyond reason"),
        ("flat-length", {**_PARTS, "legs": ("1 in", "2", "3")}, "some without a unit"),
        ("readings", {"readings": ("1 mm", "2 kg")}, "kg is a mass, mm is a length"),
        ("readings", {"readings": ("20 °C", "70 °F")}, "accepted: one scale"),
        ("tip-shift", {"angle_error": "3 ft", "leg": "1"}, "accepted: an angle"),
        ("coated-hole", {"hole": "4.5", "layer_low": "60"}, "above 0 up to 1 mm"),
        ("bow", {"length": "300", "gap": "151"}, "up to half the length"),
        ("bow", {"length": "300", "gap": "1", "span": "301"}, "up to the 300 mm"),
        ("buy", {"need": "9", "pack_sizes": ("5", "9"), "prices": "2"}, "one each"),
        ("thread-percent", {"diameter": "3", "pitch": "0.5", "drill": "3"},
         "less than the thread's diameter"),
        ("gauge", {"gauge": "18 ga steel", "metal": "stainless"}, "one metal"),
        ("gauge", {"gauge": "18"}, "gauges differ by metal"),
        ("readings", {"readings": "12 ga steel"}, "12 ga steel is a gauge"),
        ("thermal-growth", {**_GROWTH, "expansion": "1e9 °F"}, "expansion: "),
        ("fit", {"fit": "H7/g6"}, "as 25 H7/g6"),
        ("fit", {"fit": "25 H7/g6", "nominal": "30"}, "accepted: one of them"),
        ("fit", {"fit": "600 H7/g6"}, "above 0 up to 500 mm"),
        ("accept-or-reject", {"measured": "1", "nominal": "1"}, "go together"),
        ("accept-or-reject",
         {"measured": "1", "nominal": "1", "tolerance": "1", "upper": "3"},
         "one of the two"),
        ("accept-or-reject",
         {"measured": "1 ±0.1", "upper": "2", "uncertainty": "0.1"}, "given twice"),
        ("joint", {"screw": "M4x0.5x16", "layers": "3", "nut": "plain"},
         "no coarse thread"),
        ("student-t", {"dof": "0"}, "dof: found 0; accepted: above 0"),
        ("mean-interval", {"mean": "1", "sd": "1", "count": "1.5"},
         "accepted: a whole number"),
    ],
)  # fmt: skip
def test_what_cannot_be_meant_is_refused_in_one_sentence(
    name: str, typed: Typed, said: str
) -> None:
    with pytest.raises(BadInput) as refused:
        work_out(name, typed)
    assert said in str(refused.value)
    assert "\n" not in str(refused.value)
    assert "accepted" in str(refused.value)


def test_a_list_that_may_be_one_number_is_asked_back() -> None:
    with pytest.raises(NeedsAnswer) as asked:
        work_out("flat-length", {**_PARTS, "legs": "100,200,300"})
    assert asked.value.choices == ("100 200 300", "100200300")


def test_what_was_taken_for_something_else_is_said() -> None:
    share = work_out("spares", {"wanted": "4", "good": "0.8"})
    assert "good: 0.8 taken as 80 %" in share.assumptions
    legs = work_out("flat-length", {**_PARTS, "legs": ("1", "2", "1 in")})
    assert "legs: all of them in in, typed once at the end" in legs.assumptions
    beside = {"bend_angle": "90", "radius": "0.16", "thickness": "0.04 in"}
    answer = work_out("bend-allowance", beside)
    assert "radius: 0.16 taken as millimetres" in answer.assumptions


def test_readings_answer_in_the_unit_they_came_in() -> None:
    found = work_out("readings", {"readings": ("178.60 mm", "178.65", "178.62")})
    assert found.result("mean").unit == "mm"
    assert found.result("count").unit == ""
    bare = work_out("readings", {"readings": ("178.60", "178.65", "178.62")})
    assert bare.result("mean").unit == ""
    warm = work_out("readings", {"readings": ("20.1 °C", "20.4 °C")}, "inch")
    assert warm.result("sd").unit == "°C"


def test_limits_are_in_the_unit_of_the_reading() -> None:
    typed = {"measured": "90.4°", "nominal": "90", "tolerance": "0.5"}
    answer = work_out("accept-or-reject", {**typed, "uncertainty": "0.2"})
    assert answer.result("acceptance_high").shown == "90.3°"
    assert answer["proof"] == "not proven"
    plain = work_out("accept-or-reject", {"measured": "1", "upper": "2"})
    assert plain.result("acceptance_high").unit == "mm"


def test_the_uncertainty_behind_a_reading_decides_and_is_not_carried_on() -> None:
    typed = {"measured": "10.13 ±0.02 mm", "lower": "9.9", "upper": "10.14"}
    answer = work_out("accept-or-reject", typed)
    assert answer["verdict"] == "accept"
    assert answer["proof"] == "not proven"
    assert answer.result("guard_band").uncertainty is None


def test_an_alloy_without_its_temper_takes_the_one_that_cracks_first() -> None:
    answer = work_out("bend-radius", {"material": "5052", "thickness": "2 mm"})
    hard = work_out("bend-radius", {"material": "5052-H38", "thickness": "2 mm"})
    assert answer["least_radius"] == hard["least_radius"]
    assert "5052-H38 is taken" in answer.warnings[0]


def test_screws_in_wood_go_by_grain() -> None:
    answer = work_out(
        "edge-distance", {"layer": "beech", "screw": "M4", "distance": "20 mm"}
    )
    assert answer.number("end_low") == pytest.approx(28)
    assert answer["enough_to_end"] is False
    assert answer["enough_to_edge"] is True


def test_a_self_tapping_screw_in_a_brittle_layer_is_warned_of() -> None:
    typed = {"layer": "acrylic", "screw": "M3", "head": "self-tapping"}
    assert "self-tapping" in work_out("edge-distance", typed).warnings[0]


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (0.0, float("inf"), "above 0 mm"),
        (0.0, 1.0, "above 0 up to 1 mm"),
        (0.0, None, "above 0 mm"),
    ],
)
def test_a_range_without_an_end_is_said_without_one(
    low: float, high: float | None, said: str
) -> None:
    assert Range(low, high, low_out=True).said("mm") == said


def test_words_of_the_shell_become_one_list() -> None:
    words = ["--readings", "178.60", "mm", "178.65", "178.62"]
    typed = verb.read_options(find_sum("readings"), words)
    assert typed == {"readings": ["178.60 mm", "178.65", "178.62"]}


def test_a_result_named_after_its_unit_stays_in_it() -> None:
    answer = work_out("nearest-fraction", {"length": "0.394 in"})
    assert answer.result("length_mm").unit == "mm"
    assert answer.number("length_mm") == pytest.approx(0.394 * 25.4)


def test_a_printed_resin_is_brittle_in_both_sums() -> None:
    assert work_out("edge-distance", {"layer": "resin", "hole": "3.2"})["brittle"]
    assert work_out("brittle", {"material": "SLA resin"})["brittle"]


@pytest.mark.parametrize(
    ("typed", "values"),
    [
        ("178.60 178.65", (178.60, 178.65)),
        ("178.60 178.65 mm", (178.60, 178.65)),
        ("178.60 mm 178.65 mm", (178.60, 178.65)),
        ("178.60 ±0.02 178.65 ± 0.02", (178.60, 178.65)),
        ("3 1/2 in", (88.9,)),
        ("1 in 2 in", (25.4, 50.8)),
    ],
)
def test_a_list_in_quotes_may_be_divided_by_blanks(
    typed: str, values: tuple[float, ...]
) -> None:
    given_ = read_inputs(
        [Input("readings", "readings", "mm", many=True)], {"readings": typed}
    )
    assert given_.numbers("readings") == pytest.approx(values)


def test_a_blank_inside_a_thousand_divides_nothing() -> None:
    with pytest.raises(BadInput, match="accepted"):
        read_inputs(
            [Input("readings", "readings", "mm", many=True)], {"readings": "1 000"}
        )
