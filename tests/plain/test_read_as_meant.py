"""Lines whose words look like another fact: each is read as the one that is meant."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.quantity import Absent
from tests.plain.fresh import PROJECTS


@pytest.mark.parametrize(
    ("project", "says", "kind", "part"),
    [
        ("files", "2 back covers out for anodising, 18.50, back monday",
         Kind.ORDER, "back cover"),
        ("lines", "lids to the waterjet place, 4 off, 42.00", Kind.ORDER, "lid"),
        ("demo", "M3 pan heads on the diffuser from now on, countersunk ones too wide",
         Kind.DECISION, "diffuser"),
        ("lines", "the bracket ripped at the slot", Kind.FAILURE, "bracket"),
        ("lines", "the crack in the bed is repaired with glue and a peg",
         Kind.DISPOSITION, "bed"),
        ("lines", "the drawer sticks and will not open", Kind.FAILURE, "drawer"),
        ("lines", "drilled 6 mm holes in the shelf", Kind.STEP, "shelf"),
        ("lines", "leave the dent in the lid", Kind.DECISION, "lid"),
        ("lines", "bracket 1 went into the scrap", Kind.DISPOSITION, "bracket"),
    ],
)  # fmt: skip
def test_it_is_read_as_it_is_meant(
    project: str, says: str, kind: Kind, part: str
) -> None:
    line = understand(says, PROJECTS[project])
    assert (line.verdict, line.kind, line.facts.part) == (Verdict.TAKEN, kind, part)


def test_what_was_ripped_from_a_board_did_not_fail() -> None:
    line = understand("I ripped the bed from the wide board", PROJECTS["lines"])
    assert line.kind is Kind.STEP


@pytest.mark.parametrize(
    "says", ["I put the glue back on the shelf", "the keys are in the drawer"]
)
def test_where_something_lies_is_no_part(says: str) -> None:
    assert understand(says, PROJECTS["lines"]).facts.part == ""


@pytest.mark.parametrize(
    ("says", "values", "off"),
    [
        ("collar 6.31 over the faces", ["6.31 mm"], None),
        ("the bed is 0.8 under a straightedge", ["0.8 mm"], None),
        ("collar 0.3 over the drawing", [], "0.3 mm"),
        ("lid sits 0.4 under the face of the base", [], "0.4 mm"),
        ("crossbar 0.4 under", [], "0.4 mm"),
        ("countersinks in the lid 6.1 to 6.4 dia", ["6.1 mm", "6.4 mm"], None),
        ("drilled 8 mm dowel holes in the bed", ["8 mm"], None),
    ],
)
def test_what_lies_over_or_under_is_told_from_what_is_off(
    says: str, values: list[str], off: str | None
) -> None:
    facts = understand(says, PROJECTS["lines"]).facts
    assert [str(one.value) for one in facts.readings] == values
    assert (str(facts.off) if facts.off else None) == off


def test_a_known_size_said_not_to_be_measured_is_named() -> None:
    line = understand("crossbar length not measured yet", PROJECTS["demo"])
    assert (line.kind, line.facts.what) == (Kind.READING, "length")
    assert line.facts.absent is Absent.NOT_MEASURED


def test_what_is_left_as_it_is_is_used_so() -> None:
    line = understand("leave the scratch on the base", PROJECTS["demo"])
    assert line.facts.disposition == "use as is"


def test_inches_by_inches_are_two_sides() -> None:
    line = understand('bracket measures 1 1/4" by 3/4"', PROJECTS["lines"])
    assert line.verdict is Verdict.TAKEN
    assert [str(one.value) for one in line.facts.readings] == ["1 1/4 in", "3/4 in"]


@pytest.mark.parametrize(
    "says",
    [
        "cable now sits inside channel",
        "the cable lies in its channel now",
        "cable runs through the sleeve",
        "clamped the cable into the channel",
        "taped the cable into its channel",
        "folded the cable into the groove",
    ],
)
def test_what_lies_where_it_belongs_is_inside(says: str) -> None:
    line = understand(says, PROJECTS["lines"])
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.STEP)
    assert (line.facts.part, line.facts.inside) == ("cable", True)


@pytest.mark.parametrize(
    "says",
    ["the cable is not in the channel", "is the cable in the channel?",
     "cable sits in the channel too tight", "lamp is in the case",
     "collar is in the box with the lamp", "clamped the lid in the vice",
     "folded the base in the brake", "taped the mask in place"],
)  # fmt: skip
def test_what_does_not_lie_there_is_not_inside(says: str) -> None:
    line = understand(says, PROJECTS["lines"])
    assert not (line.kind is Kind.STEP and line.facts.inside)


@pytest.mark.parametrize(
    ("says", "cause"),
    [
        ("lid cracked while drilling, no spare", ""),
        ("lid cracked, no replacement left", ""),
        ("lid cracked, no backing board", "no backing board"),
    ],
)
def test_what_there_is_none_of_afterwards_is_no_cause(says: str, cause: str) -> None:
    line = understand(says, PROJECTS["lines"])
    assert line.verdict is Verdict.TAKEN
    assert (line.facts.cause.said if line.facts.cause else "") == cause


def test_a_slip_of_a_name_is_offered_as_typed() -> None:
    line = understand("maks 36.1 wide", PROJECTS["demo"])
    assert line.question is not None
    assert line.question.choices[:2] == ("mask", "maks")


def test_work_with_the_size_it_has_now_asks_nothing() -> None:
    for says in ("sanded the crossbar ends, now 178.45", "sanded the bed, now 19.5"):
        line = understand(says, PROJECTS["lines"])
        assert (line.verdict, len(line.facts.readings)) == (Verdict.TAKEN, 1)


def test_an_aperture_by_its_sides_is_two_sizes() -> None:
    line = understand("mask aperture 36.18 by 24.17", PROJECTS["demo"])
    assert line.verdict is Verdict.TAKEN
    assert [one.what for one in line.facts.readings] == [
        "aperture width",
        "aperture height",
    ]


def test_another_one_made_reworks_none() -> None:
    line = understand("no spare mask, recut one", PROJECTS["demo"])
    assert (line.kind, line.facts.disposition) == (Kind.STEP, "")
    line = understand("recut the mask", PROJECTS["demo"])
    assert line.facts.disposition == "rework"


@pytest.mark.parametrize("says", ["last bracket 2.05", "the newest bracket is 2.05"])
def test_the_last_one_names_no_size(says: str) -> None:
    facts = understand(says, PROJECTS["lines"]).facts
    assert (facts.part, facts.what) == ("bracket", "")
    assert [str(one.value) for one in facts.readings] == ["2.05 mm"]


def test_what_a_piece_had_is_not_where_it_failed() -> None:
    for says, where in (
        ("diffuser 2 with pads cracked again", ""),
        ("diffuser 2 cracked at the tab", "tab"),
    ):
        assert understand(says, PROJECTS["lines"]).facts.where == where
