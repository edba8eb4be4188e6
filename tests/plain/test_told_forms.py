"""How flat, square or leaning a thing is; what a figure nobody names is of."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

PARTS = "base crossbar bed lid lamp cable gate collar hinge drum"
WORDS = of_parts(*PARTS.split())


def read(says: str) -> list[tuple[str, str, str, str]]:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.READING, Verdict.TAKEN), says
    return [
        (one.what, one.place, one.state, str(one.value)) for one in line.facts.readings
    ]


@pytest.mark.parametrize(
    ("says", "what", "value"),
    [
        ("bed flat within 0.2", "flatness", "0.2 mm"),
        ("base is flat to within 0.1", "flatness", "0.1 mm"),
        ("crossbar straight to 0.05 over its length", "straightness", "0.05 mm"),
        ("drum round to 0.03", "roundness", "0.03 mm"),
        ("hinge leaf square to 0.1", "leaf squareness", "0.1 mm"),
        ("base leans in by 0.4 degrees", "lean", "0.4 degrees"),
        ("bed cupped up by 0.8", "cup", "0.8 mm"),
        ("inrush 3.1 A", "inrush", "3.1 A"),
        ("24V supply gives 23.6", "24V supply", "23.6 V"),
        ("whole lid 143 g", "weight", "143 g"),
    ],
)
def test_what_a_figure_is_of_is_told_by_the_word_before_it(
    says: str, what: str, value: str
) -> None:
    assert [(one[0], one[3]) for one in read(says)] == [(what, value)]


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("filed the crossbar flat to the line", Kind.STEP),
        ("base square to the bed", Kind.NOTE),
        ("bed warped, no longer flat", Kind.FAILURE),
    ],
)
def test_without_a_figure_they_tell_what_they_did(says: str, kind: Kind) -> None:
    assert understand(says, WORDS).kind is kind


def test_an_adjective_names_its_own_value() -> None:
    told = read("collar ID 20.05, OD 40.1, 6.35 thick")
    assert [one[0] for one in told] == ["ID", "OD", "thickness"]


def test_what_is_across_is_no_power() -> None:
    line = understand("the 3 W lamp measures 5.02 across", WORDS)
    assert [str(one.value) for one in line.facts.readings][-1] == "5.02 mm"


@pytest.mark.parametrize(
    ("says", "places"),
    [
        ("base opening 178.60 left front, 178.66 rear right",
         ["left front", "rear right"]),
        ("bed thickness: lf 18.60 rf 18.65 lb 18.62 rb 18.68",
         ["lf", "rf", "lb", "rb"]),
        ("hinge thickness 1.98 near the knuckle, 2.01 out at the leaf",
         ["knuckle", "leaf"]),
        ("collar 6.34..6.37 all round", ["smallest", "largest"]),
    ],
)  # fmt: skip
def test_no_place_goes_to_the_value_beside_its_own(
    says: str, places: list[str]
) -> None:
    assert [one[1] for one in read(says)] == places


@pytest.mark.parametrize(
    ("says", "states"),
    [
        ("lamp draws 1.38 A, drops to 1.31 once warm", ["", "warm"]),
        ("bed width at 55 % rh: 240.8", ["at 55 % rh"]),
        ("gate slot 36.18 x 24.17 as cut, 36.02 x 24.0 polished",
         ["as cut", "as cut", "polished", "polished"]),
        ("under full load the lamp sat at 61 C", ["under full load"]),
    ],
)  # fmt: skip
def test_a_state_is_of_its_own_values_only(says: str, states: list[str]) -> None:
    assert [one[2] for one in read(says)] == states


def test_repeats_said_to_be_so_stay_at_one_place() -> None:
    told = read("measured the base opening three times: 178.62 178.63 178.62")
    assert [one[1] for one in told] == ["", "", ""]


def test_who_tells_hours_and_the_room_tells_heat() -> None:
    assert read("lamp after 3 h: 58.2, ambient 22.4")[0][3] == "58.2 °C"


@pytest.mark.parametrize("says", ["lid weighs 2 lb", "lid 2.2 lb"])
def test_pounds_are_still_pounds(says: str) -> None:
    assert understand(says, WORDS).facts.readings[0].value.unit == "lb"


@pytest.mark.parametrize(
    ("says", "states"),
    [
        ("bed 18.4 thick before sanding, 18.1 after", ["before sanding", "after"]),
        ("hinge leaf 2.04 thick, 2.11 after powder coating",
         ["", "after powder coating"]),
        ("gate face 51 C with the fan, 63 C without", ["with the fan", "without"]),
        ("cable resistance 0.41 ohm, 0.40 with the plug cleaned",
         ["", "with the plug cleaned"]),
        ("lamp 1.4 A at switch on, settles to 1.31", ["at switch on", ""]),
        ("bed 238.9 wide, 31 % humidity", ["31 % humidity"]),
        ("base opening 178.6 at 20 C, 178.9 at 35 C", ["at 20 C", "at 35 C"]),
    ],
)  # fmt: skip
def test_before_after_with_and_without_are_states(says: str, states: list[str]) -> None:
    assert [one[2] for one in read(says)] == states


@pytest.mark.parametrize(
    ("says", "places"),
    [
        ("bed cup 0.8 wet side, 0.3 dry side", ["wet side", "dry side"]),
        ("bed width 240.8 bark side, 240.2 heart side", ["bark side", "heart side"]),
        ("bed moisture 11.5 %, garage end", ["garage end"]),
    ],
)
def test_a_side_behind_a_value_is_where_it_was_read(
    says: str, places: list[str]
) -> None:
    assert [one[1] for one in read(says)] == places


def test_a_trailing_adjective_names_all_values_alike() -> None:
    told = read("hinge leaf 0.78, 0.79 and 0.81 thick")
    assert [one[3] for one in told] == ["0.78 mm", "0.79 mm", "0.81 mm"]
    assert [one[0] for one in read("drum 0.78, 0.79 and 0.81 thick")] == [
        "thickness", "thickness", "thickness",
    ]  # fmt: skip
    assert [one[0] for one in read("drum 178.3, 12.5 thick")] == ["", "thickness"]


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("lid cracked before sanding", Kind.FAILURE),
        ("scrapped gate 2, 4.1 before cutting", Kind.DISPOSITION),
        ("sanded the bed to 18.1 before oiling", Kind.STEP),
    ],
)
def test_when_work_or_a_failure_was_is_no_state(says: str, kind: Kind) -> None:
    line = understand(says, WORDS)
    assert line.kind is kind
    assert not any(one.state for one in line.facts.readings)


@pytest.mark.parametrize(
    ("says", "sizes"),
    [
        ("dowel holes 8.05, dowels 7.98", ["dowel holes 8.05 mm", "dowels 7.98 mm"]),
        ("0.5 A fuse measured 0.9 ohm", ["0.5 A fuse 0.9 ohm"]),
        ("lamp draws 0.62 A free, 1.1 A stalled", ["current 0.62 A", "current 1.1 A"]),
    ],
)
def test_each_value_has_its_own_name(says: str, sizes: list[str]) -> None:
    assert [f"{one[0]} {one[3]}" for one in read(says)] == sizes


def test_places_of_a_part_named_for_the_first_time_are_its_places() -> None:
    told = read("reed 0.28 at the tip, 0.34 at the heel")
    assert [one[1] for one in told] == ["tip", "heel"]


def test_so_many_teeth_are_no_size() -> None:
    line = understand("40 tooth pulley, bore 5.02", WORDS)
    assert [str(one.value) for one in line.facts.readings] == ["5.02 mm"]
