"""Whose a size is, and which part a name means that is only partly in the line.

The parts and lines are invented; what moves along an axis is called by its letter, as
is common practice.
"""

from __future__ import annotations

import pytest

from logbook.plain.answers.accepted import unfit
from logbook.plain.answers.answering import answered
from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.plain.words.project_words import short_names
from logbook.plain.words.vocabulary import Vocabulary
from tests.plain.judge import NOW

LOOM = Vocabulary(
    now=NOW,
    parts=short_names(
        (
            "F Strap Clip", "Warp Rail Spacer", "Heddle Motor Plate", "cloth roller",
            "treadle", "comb", "collar", "Reed Cap Left",
            "breast beam", "Bobbins Rack Top",
        )
    ),
    characteristics={
        "F Strap Clip": ("slot", "angle"), "Heddle Motor Plate": ("bore", "belt"),
    },
)  # fmt: skip
"""A loom with its parts, two of which have sizes of their own."""


def about(line: Understanding) -> str:
    """Give the part the line is taken to be of, nothing where that is asked."""
    asked = any(one.needed and one.about == "part" for one in line.doubts)
    return "" if asked else line.facts.part


def offered(line: Understanding) -> tuple[str, ...]:
    """Give what is offered as the part, nothing where it is not asked."""
    asks = [one for one in line.doubts if one.needed and one.about == "part"]
    return asks[0].choices if asks else ()


@pytest.mark.parametrize(
    ("says", "owner"),
    [
        ("shuttle slot 1.2 mm too wide, filed it", "shuttle"),
        ("the pulley with the slot is 1.2 mm too wide", "pulley"),
        ("slot of the idler 3.4 should be 3.5", "idler"),
        ("x rail slot 1.2 mm too wide", "x rail"),
        ("idler bore 8.1 should be 8", "idler"),
        ("bore in the flywheel 12.1 should be 12", "flywheel"),
        ("slot on the idler 3.4", "idler"),
        ("pawl angle 44.2 should be 45", "pawl"),
        ("treadle slot 4.1 should be 4", "treadle"),
        ("belt snapped", "belt"),
        ("belt tension 38 N should be 40", "belt"),
    ],
)
def test_what_the_line_names_as_its_owner_has_the_size(says: str, owner: str) -> None:
    line = understand(says, LOOM)
    assert about(line) == owner or owner in offered(line)


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("slot 1.2 mm too wide", "F Strap Clip"),
        ("slot at the far end 3.4", "F Strap Clip"),
        ("filed the slot to 3.5", "F Strap Clip"),
        ("clip angle 89.4 should be 90", "F Strap Clip"),
        ("bore 8.1 should be 8", "Heddle Motor Plate"),
        ("belt 402 should be 400", "Heddle Motor Plate"),
    ],
)
def test_the_name_of_a_size_alone_decides(says: str, part: str) -> None:
    line = understand(says, LOOM)
    assert (about(line), line.verdict) == (part, Verdict.TAKEN)
    assert line.facts.what in ("", *LOOM.characteristics[part])


@pytest.mark.parametrize(
    ("says", "meant"),
    [
        ("warp rail 349.1 should be 350", "Warp Rail Spacer"),
        ("warp rail bent at the notch", "Warp Rail Spacer"),
        ("polished the warp rail with 400 grit", "Warp Rail Spacer"),
        ("heddle motor draws 1.2 A", "Heddle Motor Plate"),
        ("scrapped the warp rail", "Warp Rail Spacer"),
        ("pick rack top 127.2 should be 127.8", "Bobbins Rack Top"),
        ("y strap clip 2.3 should be 2", "F Strap Clip"),
        ("z strap clip warped in the sun", "F Strap Clip"),
        ("shaft collar bore 6.2", "collar"),
        ("shaft collar cracked at the screw", "collar"),
        ("beater comb 3.1 thick should be 3", "comb"),
    ],
)
def test_a_front_or_an_end_behind_another_word_is_asked(says: str, meant: str) -> None:
    line = understand(says, LOOM)
    assert meant in offered(line)
    own = says.removeprefix("polished the ").removeprefix("scrapped the ")
    assert any(own.startswith(one) for one in offered(line))
    assert all(own.split()[0] not in one.what for one in line.facts.readings)


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("heddel motor plate hole 22.4 should be 22.2", "Heddle Motor Plate"),
        ("hedle motor plate 3.1 thick", "Heddle Motor Plate"),
        ("motor plate bore 8.1 should be 8", "Heddle Motor Plate"),
        ("rail spacer 12.2 should be 12", "Warp Rail Spacer"),
        ("reed cap 3.1 should be 3", "Reed Cap Left"),
        ("left comb 3.1 should be 3", "comb"),
        ("the newest comb warped", "comb"),
        ("old treadle cracked", "treadle"),
    ],
)
def test_an_end_a_side_and_a_slip_are_of_the_known_part(says: str, part: str) -> None:
    line = understand(says, LOOM)
    assert (about(line), line.verdict) == (part, Verdict.TAKEN)
    assert all(one.what in ("", "hole", "bore", "thickness")
               for one in line.facts.readings)  # fmt: skip


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("y motor draws 1.35 A should be 1.2", "y motor"),
        ("x motor 54 C after 30 min in a 22 C room", "x motor"),
        ("z motor 0.9 A", "z motor"),
        ("x carriage runs 0.3 off square, shimmed it under the left wheel",
         "x carriage"),
        ("y rail 349.2 should be 350", "y rail"),
    ],
)  # fmt: skip
def test_a_letter_of_an_axis_begins_a_name(says: str, part: str) -> None:
    line = understand(says, LOOM)
    assert line.facts.part == part
    assert all(not one.what.startswith(part) for one in line.facts.readings)


@pytest.mark.parametrize(
    "says", ["x 80.2 should be 80", "y drifts 0.3 mm", "z is 0.2 off"]
)
def test_an_axis_by_itself_is_no_part(says: str) -> None:
    line = understand(says, LOOM)
    assert line.kind is Kind.NOTE or not line.facts.part or offered(line)


@pytest.mark.parametrize(
    ("says", "answer", "part"),
    [
        ("board gets 61 C after an hour", "control board", "control board"),
        ("board gets 61 C after an hour", "controller", "controller"),
        ("board gets 61 C after an hour", "comb", "comb"),
        ("sheet reached 48 C at noon", "breast beam", "breast beam"),
        ("22.14 now", "roller", "cloth roller"),
        ("22.14 now", "heddle motor plate bore", "Heddle Motor Plate"),
        ("22.14 now", "cloth roller front edge", "cloth roller"),
        ("22.14 now", "reed cap", "Reed Cap Left"),
    ],
)
def test_who_says_what_was_measured_is_not_asked_again(
    says: str, answer: str, part: str
) -> None:
    asked = understand(says, LOOM)
    doubt = asked.question
    assert doubt is not None
    assert doubt.about == "what"
    assert not unfit(doubt, answer, LOOM)
    line = answered(asked, doubt, answer, LOOM)
    assert (line.verdict, line.facts.part) == (Verdict.TAKEN, part)
    assert [one.value.text for one in line.facts.readings] == [
        one.value.text for one in asked.facts.readings
    ]


@pytest.mark.parametrize("answer", ["motor", "strap", "rail"])
def test_a_front_typed_as_the_part_is_asked_or_new(answer: str) -> None:
    asked = understand("22.14 now", LOOM)
    doubt = asked.question
    assert doubt is not None
    line = answered(asked, doubt, answer, LOOM)
    assert offered(line) or line.facts.part == answer
    assert any(one.startswith(answer) for one in (*offered(line), line.facts.part))


@pytest.mark.parametrize(
    "said", ["treadle cracked at the pin", "comb came off", "filed the comb to 3.1"]
)
def test_a_line_is_no_name_of_a_part_and_its_size(said: str) -> None:
    doubt = understand("22.14 now", LOOM).question
    assert doubt is not None
    assert unfit(doubt, said, LOOM)


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("part z nut", "z nut"), ("part M5x12", "M5x12"), ("part y drive belt",
        "y drive belt"), ("part x rail", "x rail"), ("part M3x8 screw", "M3x8 screw"),
    ],
)  # fmt: skip
def test_a_part_told_alone_may_begin_with_a_letter_or_be_a_thread(
    says: str, part: str
) -> None:
    line = understand(says, LOOM)
    assert (line.kind, line.facts.part) == (Kind.DRAWN, part)


@pytest.mark.parametrize("says", ["part a nut", "part 3 nuts", "part i broke"])
def test_a_count_and_a_letter_alone_are_no_part(says: str) -> None:
    assert not understand(says, LOOM).facts.part_is_new


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("hinge 2 width 40.1", "hinge"),
        ("gate 1 width 12.4", "gate"),
        ("knob 3 width 12.1", "knob"),
    ],
)
def test_a_numbered_thing_is_no_size_of_the_part_that_has_one_so_called(
    says: str, part: str
) -> None:
    words = Vocabulary(now=NOW, parts={"lid": ()}, characteristics={"lid": ["width"]})
    line = understand(says, words)
    assert (line.facts.part, line.facts.what) == (part, "width")
    assert len(line.facts.readings) == 1
    for asked in ("drawer 1 width 400.5", "shelf 2 width 398.5 mm"):
        assert understand(asked, words).verdict is Verdict.ASKED
    own = understand("width 40.1", words)
    assert (own.facts.part, own.verdict) == ("lid", Verdict.TAKEN)
