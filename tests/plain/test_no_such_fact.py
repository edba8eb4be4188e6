"""What stands in a line and is none of the facts it looks like, or is another."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.fresh import DEMO
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("says", "instead"),
    [
        ("screws on the lid, not rivets", "rivets"),
        ("the mask stays laser card, not printed", "printed"),
        ("for the gate only PETG, no PLA more", ""),
        ("we pilot the bed first now, no exceptions", ""),
    ],
)
def test_what_a_choice_is_against_is_no_reason_for_it(says: str, instead: str) -> None:
    line = understand(says, PROJECT)
    assert line.kind is Kind.DECISION
    assert (line.facts.cause, line.facts.instead_of) == (None, instead)


@pytest.mark.parametrize(
    "says",
    [
        "mask came out short, and the card is used up",
        "nut dropped inside the base, can't get it out",
        "since last night the bed grew by 0.3 mm",
        "the saw takes 3.4, so that is my own trouble",
    ],
)
def test_what_came_of_it_is_no_cause(says: str) -> None:
    assert understand(says, PROJECT).facts.cause is None


@pytest.mark.parametrize(
    ("says", "where"),
    [
        ("diffuser cracked as the hole was too near the edge", ""),
        ("day 3: gate sagged", ""),
        ("gate rev B sagged again", ""),
        ("lamp trips on cold start", ""),
        ("gate sagged beside the lamp", "beside the lamp"),
        ("bed split along the grain @ rear screw", "rear screw"),
    ],
)
def test_a_place_is_where_it_happened_and_nothing_else(says: str, where: str) -> None:
    line = understand(says, DEMO)
    assert (line.kind, line.facts.where) == (Kind.FAILURE, where)


@pytest.mark.parametrize(
    ("says", "values"),
    [
        ("lamp 23.6 V under load, 24.1 idle", ["23.6 V", "24.1 V"]),
        ("lid outside 37C, inside 49", ["37C", "49 °C"]),
        ("lamp glass after the long run: 54 °C", ["54 °C"]),
        ("lamp CCT 4870K, lamp 2", ["4870K"]),
        ("cable insulation resistance 200 Mohm", ["200 Mohm"]),
    ],
)
def test_a_figure_is_of_the_unit_its_neighbours_have(
    says: str, values: list[str]
) -> None:
    found = understand(says, PROJECT).facts.readings
    assert [one.value.text for one in found] == values


@pytest.mark.parametrize("says", ["lm at the bed 3400", "lamp 1800 mah full"])
def test_a_figure_of_another_trade_is_no_length(says: str) -> None:
    assert understand(says, PROJECT).verdict is not Verdict.TAKEN


@pytest.mark.parametrize(
    ("says", "off"),
    [
        ("crossbar short 0.2", "0.2"),
        ("bracket sits 2 mm lower than I drew it", "2 mm"),
        ("crossbar came out 1.2 short of what I drew", "1.2"),
    ],
)
def test_how_far_a_size_is_off_is_no_size(says: str, off: str) -> None:
    line = understand(says, PROJECT)
    assert (line.said("off"), line.facts.readings) == (off, ())


@pytest.mark.parametrize(
    "says",
    ["leakage 0.03 mA", "shrinkage .4 % on the long side", "fan 100 % from layer 2",
     "uprights lean 0.4"],
)  # fmt: skip
def test_what_is_no_thing_makes_no_part_unasked(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.verdict is not Verdict.TAKEN or not line.facts.part_is_new


@pytest.mark.parametrize(
    ("says", "inside"),
    [
        ("lid riveted down, cable and tie both inside", True),
        ("sealed the channel with silicone, cable already in", True),
        ("lid riveted down, nothing inside", False),
        ("tucked the cable away inside the base", True),
    ],
)
def test_what_was_shut_in_is_inside(says: str, inside: bool) -> None:
    assert understand(says, PROJECT).facts.inside is inside


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("going to the hardware shop on saturday", Kind.NOTE),
        ("diffuser snapped in over the leds", Kind.STEP),
        ("collar 2 going back, wrong thickness", Kind.DISPOSITION),
        ("gave up on base 2, in the scrap it goes", Kind.DISPOSITION),
        ("drilled thru the cable!! it was under the bed", Kind.FAILURE),
    ],
)
def test_a_word_that_can_tell_two_kinds_is_taken_for_neither_alone(
    says: str, kind: Kind
) -> None:
    line = understand(says, PROJECT)
    assert line.verdict is not Verdict.TAKEN or line.kind is kind
