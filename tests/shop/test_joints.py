"""Screw joints: worst case, ring, bottoming, the next length, layers as typed."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import BadInput
from logbook.shop.fastening.joint import Layer, Ring, Stand, choose_length, work_joint
from logbook.shop.fastening.layers import read_layer
from logbook.shop.fastening.screws import (
    Nut,
    next_lengths,
    nut,
    screw,
)
from logbook.shop.sums import work_out
from logbook.shop.tables import table

COLLAR = {
    "screw": "M4x16",
    "layers": (
        "washer 0.8",
        "collar 6.35 ±0.05",
        "base 2.0 aluminium II",
        "fibre washer 0.7 ±0.05",
        "washer 0.8",
    ),
    "nut": "thin self-locking",
}


def test_a_collar_in_quarter_inch_leaves_the_screw_short_and_names_the_next() -> None:
    answer = work_out("joint", COLLAR)
    assert answer.number("stand_through") == pytest.approx(0.35)
    assert answer.number("pitches") == pytest.approx(0.5)
    assert answer.number("stand_through_min") == pytest.approx(-0.39)
    assert answer["verdict"] == Stand.MAY_BE_SHORT
    assert answer["ring_worst"] == Ring.IN_RING
    assert answer["choose"] == "M4×20"
    assert any("check what is behind it" in line for line in answer.warnings)
    assert answer.note == "a calculation, not an approval"


def test_layers_without_limits_are_not_passed_over() -> None:
    answer = work_out("joint", {**COLLAR, "layers": ("collar 6.35", "base 2")})
    assert any("No limits for collar, base" in line for line in answer.warnings)


def test_the_worst_case_is_the_worst_of_all_corners() -> None:
    bolt, used = screw("M4", 16), nut("M4", "din985")
    layers = [read_layer(text, "M4") for text in COLLAR["layers"]]
    ends = [(layer.low, layer.high) for layer in layers]
    corners = [
        length - height - sum(stack)
        for length in (bolt.low, bolt.high)
        for height in (used.low, used.high)
        for stack in itertools.product(*ends)
    ]
    found = work_joint(bolt, layers, used)
    assert found.low == pytest.approx(min(corners))
    assert found.high == pytest.approx(max(corners))


LAYERS = st.lists(
    st.tuples(st.floats(0.3, 8), st.floats(0, 0.3)).map(
        lambda pair: Layer("sheet", pair[0], pair[0] - pair[1], pair[0] + pair[1])
    ),
    min_size=1,
    max_size=4,
)


@given(LAYERS, st.floats(0.01, 1))
def test_a_thicker_stack_never_lets_more_stand_through(
    layers: list[Layer], more: float
) -> None:
    thin = work_joint(screw("M5", 30), layers, nut("M5", "iso7040"))
    washer = Layer("shim", more, more, more)
    thick = work_joint(screw("M5", 30), [*layers, washer], nut("M5", "iso7040"))
    assert thick.low < thin.low
    assert thick.high < thin.high
    assert thick.low <= thick.through <= thick.high


@given(LAYERS)
def test_the_chosen_length_is_the_shortest_that_always_stands_through(
    layers: list[Layer],
) -> None:
    used = nut("M4", "iso7040")
    chosen = choose_length("M4", layers, used, "iso4762")
    assert chosen is not None
    assert chosen.low >= 0.7 - 1e-9
    shorter, _ = next_lengths(chosen.screw.length, "iso4762")
    assert shorter is not None
    assert work_joint(screw("M4", shorter), layers, used).low < 0.7


def test_no_listed_length_is_said() -> None:
    thick = [Layer("beam", 120, 119, 121)]
    assert choose_length("M4", thick, nut("M4", "plain"), "iso7045") is None
    answer = work_out(
        "joint", {"screw": "M4x60", "layers": "beam 120 ±1", "nut": "plain"}
    )
    assert answer["choose"] == "none listed"
    assert answer["next_up"] == "M4×65"


def test_ring_is_below_within_or_through() -> None:
    used = nut("M4", "iso7040")
    ends = {2.5: Ring.BELOW, 4.0: Ring.IN_RING, 6.0: Ring.THROUGH}
    for end, place in ends.items():
        layer = Layer("stack", 16 - end, 16 - end, 16 - end)
        assert work_joint(screw("M4", 16), [layer], used).ring is place
    plain = work_joint(screw("M4", 16), [layer], nut("M4", "plain"))
    assert plain.ring is Ring.NONE


def test_nuts_of_one_thread_differ_by_more_than_a_pitch() -> None:
    assert nut("M4", "iso7040").high - nut("M4", "din985").high == pytest.approx(1.0)
    assert nut("M5", "ISO 4032").high == 4.7
    assert nut("M5", "DIN 934").high == 4.0


def test_every_nut_is_no_lower_than_its_metal() -> None:
    for name in ("iso4032", "din934", "iso4035", "iso7040", "iso10511", "din985"):
        for size in table("fasteners", f"nut_{name}").names():
            one = nut(size, name)
            assert one.metal <= one.low <= one.high, (name, size)


def test_a_measured_nut_wins() -> None:
    answer = work_out("joint", {**COLLAR, "nut_height": "4.8 mm"})
    assert answer.number("stand_through") == pytest.approx(0.55)
    assert answer.number("nut_top") == 4.8


def test_a_screw_that_bottoms_is_said() -> None:
    answer = work_out(
        "screw-in-hole",
        {"screw": "M3x10", "layers": "2 ±0.1", "threaded": "5.7", "depth": "6.2"},
    )
    assert answer["bottoms"] is True
    assert "clamps nothing" in answer.warnings[0]


@pytest.mark.parametrize(
    ("text", "name", "low", "high"),
    [
        ("washer", "washer iso7089", 0.7, 0.9),
        ("washer 0.8", "washer", 0.7, 0.9),
        ("large washer", "washer iso7093", 0.9, 1.1),
        ("3 acrylic cast", "acrylic cast", 2.3, 3.7),
        ("acrylic cast 3", "acrylic cast", 2.3, 3.7),
        ("base 2.0 5052-H32", "base", 1.91, 2.09),
        ("collar 1/4 in ±0.002 in", "collar", 6.2992, 6.4008),
        ("collar 6.35 mm ±0.05", "collar", 6.3, 6.4),
    ],
)
def test_layers_are_read_as_a_bench_says_them(
    text: str, name: str, low: float, high: float
) -> None:
    found = read_layer(text, "M4")
    assert found.name == name
    assert (found.low, found.high) == pytest.approx((low, high))


@pytest.mark.parametrize(
    "text", ["", "collar", "0 steel", "-3 steel", "3 unobtainium", "nan", "±0.1"]
)
def test_a_layer_that_cannot_be_read_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match="accepted"):
        read_layer(text, "M4")


@pytest.mark.parametrize(
    ("sum_name", "inputs", "said"),
    [
        ("joint", {**COLLAR, "screw": "M4"}, "accepted: size x length"),
        ("joint", {**COLLAR, "screw": "M4x0"}, "outside the table"),
        ("joint", {**COLLAR, "screw": "M4x900"}, "outside the table"),
        ("joint", {**COLLAR, "screw": "M99x16"}, "is not in the table"),
        ("joint", {**COLLAR, "nut": "wing"}, "is no nut here"),
        ("joint", {**COLLAR, "screw": "M12x50"}, "accepted: M3, M4"),
        ("joint", {**COLLAR, "nut_height": "-5"}, "accepted: above 0 mm"),
        ("clearance-hole", {"size": "M99"}, "is not in the table"),
        (
            "drill-size",
            {"name": "#99"},
            "is no drill in the table; accepted: #1 to #60",
        ),
        ("tap-drill", {"thread": "M4x9"}, "accepted: below 4"),
        ("screw-head", {"standard": "iso9999", "size": "M4"}, "has no head table"),
        ("sink-depth", {"sink": "3", "hole": "4"}, "accepted: a wider sink"),
        ("countersink", {"size": "M4", "standard": "iso4762"}, "is not countersunk"),
        ("solid-rivet", {"diameter": "0", "grip": "2"}, "accepted: above 0"),
        ("blind-rivet", {"diameter": "3.2", "stack": "90"}, "accepted: 0.5 to 22 mm"),
        ("blind-rivet", {"diameter": "7", "stack": "3"}, "accepted: 2.4"),
        ("blind-rivet-inch", {"code": "99"}, "is not in the table"),
        ("edge-distance", {"layer": "cheese", "hole": "3"}, "is not in the table"),
        ("edge-distance", {"layer": "acrylic"}, "accepted: a hole, or a screw"),
        ("wood-screw-distances", {"diameter": "4", "angle": "120"}, "accepted"),
        ("heat-set-insert", {"size": "M3", "hole": "9"}, "accepted: a smaller hole"),
        ("rivet-nut", {"size": "M20"}, "is not in the table"),
        ("screw-length", {"clamped": "5"}, "pitch or factor"),
        ("numbered-screw", {"number": "99"}, "accepted: 0 to 24"),
        ("tape-error", {"class": "IV", "length": "2 m"}, "accepted: I, II, III"),
        ("caliper-error", {"range": "1 m"}, "accepted: up to 300 mm"),
    ],
)
def test_bad_input_gets_one_sentence(
    sum_name: str, inputs: dict[str, str], said: str
) -> None:
    with pytest.raises(BadInput) as refused:
        work_out(sum_name, inputs)
    assert said in str(refused.value)
    assert "\n" not in str(refused.value)


def test_a_nut_may_be_made_up_by_whoever_knows_it() -> None:
    own = Nut("own", 4.0, 3.9, 3.0, ringed=False, source="measured")
    found = work_joint(screw("M4", 20), [Layer("plate", 10, 10, 10)], own)
    assert found.through == pytest.approx(6.0)
    assert found.engagement_low == 3.0


def test_a_screw_far_too_short_is_told_the_length_that_is_chosen() -> None:
    typed = {"screw": "M4x16", "layers": "30", "nut": "locknut"}
    answer = work_out("joint", typed)
    assert answer["choose"] == "M4×40"
    said = next(line for line in answer.warnings if "less than one pitch" in line)
    assert said.endswith("take M4×40.")
    assert "M4×40" in [row[0] for row in answer.tables[0].rows]
    assert any("iso4762" in line for line in answer.assumptions)


@pytest.mark.parametrize("typed", ["M4x16", "M4x20", "M4x30"])
@pytest.mark.parametrize("layer", ["11 ±0.2", "16 ±1", "18", "24.4 ±0.05"])
def test_no_warning_names_another_length_than_the_answer(
    typed: str, layer: str
) -> None:
    answer = work_out("joint", {"screw": typed, "layers": layer, "nut": "plain"})
    for line in answer.warnings:
        if "take " in line:
            assert f"take {answer['choose']}" in line


@pytest.mark.parametrize(
    ("text", "thick", "name"),
    [
        ("6 mm plate 6.35", 6.35, "plate (6 mm nominal)"),
        ("plate 6 mm 6.35", 6.35, "plate (6 mm nominal)"),
        ("1/4 in plate 0.248", 0.248 * 25.4, "plate (1/4 in nominal)"),
        ("6 mm plate 6.35 ±0.05", 6.35, "plate (6 mm nominal)"),
    ],
)
def test_of_nominal_and_measured_the_measured_counts(
    text: str, thick: float, name: str
) -> None:
    found = read_layer(text, "M4")
    assert found.name == name
    assert found.thick == pytest.approx(thick)
    assert found.known == ("±" in text)


@pytest.mark.parametrize("text", ["60 strip 2", "304 stainless 2", "2 mm bar 20 mm"])
def test_two_figures_that_cannot_be_one_thickness_are_named(text: str) -> None:
    with pytest.raises(BadInput, match=r"two figures, .*accepted: one thickness"):
        read_layer(text, "M4")


def test_an_alloy_may_stand_before_or_behind_its_thickness() -> None:
    behind = read_layer("2 mm 5052", "M4")
    for text in ("5052 2 mm", "5052-H32 2 mm", "base 5052 2.0", "aluminium 5052 2"):
        found = read_layer(text, "M4")
        assert (found.low, found.high) == (behind.low, behind.high), text
        assert found.known
