"""What becomes of a piece in other words: kindling, mended, worked until it goes."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("says", "piece"),
    [
        ("handle 2 is kindling now", "handle 2"),
        ("shuttle 3 into the firewood", "shuttle 3"),
        ("threw panel 2 on the scrap heap", "panel 2"),
        ("collar 3 goes in the scrap tin", "collar 3"),
        ("keel 1 went to the skip", "keel 1"),
        ("scrapped pad 4, torn skin", "pad 4"),
        ("board 4 is scrap, three pads gone", "board 4"),
        ("neck 1 ended as firewood", "neck 1"),
    ],
)
def test_a_piece_by_its_number_that_went_to_waste_is_scrapped(
    says: str, piece: str
) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.DISPOSITION, Verdict.TAKEN)
    assert (line.facts.disposition, line.facts.piece) == ("scrap", piece)
    assert (line.facts.readings, line.facts.quantity) == ((), None)


@pytest.mark.parametrize(
    "says",
    [
        "the fire needs kindling",
        "seat 2 is in the bin store",
        "hole 4 goes in the waste side",
        "skip 2 of the washers",
    ],
)
def test_what_only_speaks_of_waste_scraps_nothing(says: str) -> None:
    line = understand(says, PROJECT)
    assert not (line.verdict is Verdict.TAKEN and line.facts.disposition == "scrap")


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("sanded the lid to 5.6, drops into the groove", "lid"),
        ("turned the spigot to 11.9, seats in the bore", "spigot"),
        ("pared the peg to 7.9 and it turns", "peg"),
        ("baffle routed out to 182.5, woofer drops in", "baffle"),
        ("planed 0.4 off the door and it closes", "door"),
        ("filed the bracket to 12.1 and the pin slips in", "bracket"),
        ("ground the collar back to 30.0, axle passes through", "collar"),
    ],
)
def test_what_was_worked_on_until_it_goes_is_reworked(says: str, part: str) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.DISPOSITION, Verdict.TAKEN)
    assert (line.facts.disposition, line.facts.part) == ("rework", part)


@pytest.mark.parametrize(
    "says",
    [
        "sanded the lid to 5.6, drops too deep",
        "planed the bed to 19.5, 40 min",
        "filed the bracket to 12.1, screw hit the wall",
        "sanded the lid to 6, runs in the varnish",
    ],
)
def test_what_does_not_go_is_not_said_to(says: str) -> None:
    line = understand(says, PROJECT)
    assert not (line.verdict is Verdict.TAKEN and line.facts.disposition)


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("fixed the chipped slide holder with filler", "slide holder"),
        ("fixed the cracked lid with epoxy", "lid"),
        ("fixed the split gate with two dowels", "gate"),
    ],
)
def test_what_was_broken_and_is_fixed_is_repaired(says: str, part: str) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.DISPOSITION, Verdict.TAKEN)
    assert (line.facts.disposition, line.facts.part) == ("repair", part)


def test_what_is_whole_is_fixed_to_something_and_not_repaired() -> None:
    line = understand("fixed the collar to the base with screws", PROJECT)
    assert line.facts.disposition == ""


def test_a_plank_that_was_mended_is_asked_about() -> None:
    line = understand("repaired the split plank with epoxy", PROJECT)
    assert line.question is not None
    assert line.question.choices == ("plank", "no part")


@pytest.mark.parametrize(
    ("says", "value"),
    [
        ("my crimper squashes 0.2 too far, the drawing is fine", "0.2 mm"),
        ("my bender opens up 1.5 deg, nothing wrong in the drawing", "1.5 deg"),
        ("the 0.5 wobble is my scroll saw, pattern is right", "0.5 mm"),
        ("our kiln shrinks it 3 %, template is right", "3 %"),
        ("my belt grinder takes 0.5 too much at the ends, plan ok", "0.5 mm"),
        ("plan is right, my fence was off by 0.5", "0.5 mm"),
    ],
)
def test_a_fault_of_this_shop_is_told_whatever_the_machine(
    says: str, value: str
) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.DECISION, Verdict.TAKEN)
    assert (line.facts.met_by_others, line.facts.part) == ("my machine", "")
    assert [one.value.text for one in line.facts.readings] == [value]


@pytest.mark.parametrize(
    "says",
    [
        "the 0.3 gap in lid 2 is my fault, drawing is right",
        "drawing says 178, my saw left 178.4",
        "my drawing is wrong by 0.5",
    ],
)
def test_what_is_no_fault_of_a_machine_is_not_told_as_one(says: str) -> None:
    line = understand(says, PROJECT)
    told = line.facts.met_by_others == "my machine"
    assert not (line.verdict is Verdict.TAKEN and told)
