"""Whose fault it is where both are named: the drawing, not my saw. All invented."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("line", "whose"),
    [
        ("0.4 short, that's the drawing, not my saw", "the drawing"),
        ("the slot being tight is the drawing, not my saw", "the drawing"),
        ("hole is 1 too low, file is off, isn't my drill press", "the drawing"),
        ("screw holes 2 off: the plan, not our printer", "the drawing"),
        ("flange leans, that's the file, not my folding brake", "the drawing"),
        ("2 too wide is the drawing, not me", "the drawing"),
        ("0.2 too wide is my saw, not the drawing", "my machine"),
        ("keep the drawing, not my sketch", ""),
    ],
)
def test_who_is_said_not_to_be_at_fault_is_not(line: str, whose: str) -> None:
    read = understand(line, PROJECT)
    assert (read.kind, read.facts.met_by_others) == (Kind.DECISION, whose)


def test_neither_a_sketch_nor_a_way_of_working_is_a_fault_of_the_drawing() -> None:
    read = understand("folded by the drawing, not my way", PROJECT)
    assert read.facts.met_by_others == ""


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("the collar's going back to the supplier, wrong thickness", "disposition"),
        ("diffuser's going back to the dealer, scratched", "disposition"),
        ("going back to the old gate, the new one sags", "decision"),
        ("clip lets go of the cable in the heat", "failure"),
        ("the gate keeps letting go", "failure"),
    ],
)
def test_what_goes_back_to_a_shop_is_returned_and_what_lets_go_failed(
    line: str, kind: str
) -> None:
    assert understand(line, PROJECT).kind.value == kind


def test_a_member_of_a_machine_is_no_part_of_the_design() -> None:
    facts = understand("tailstock slipped, bar is tapered", PROJECT).facts
    assert facts.part == "bar"
    assert facts.cause is not None
    assert facts.cause.said == "tailstock slipped"
