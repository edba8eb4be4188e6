"""What an answer makes of a line is what is written: no value of it is lost."""

from __future__ import annotations

import pytest

from logbook.plain.answers.answering import answered
from logbook.records.kinds.happenings import Deviation, Disposal, Note, Run
from tests.plain.judge import of_parts
from tests.plain.on_record import asked, on_record, told

WORDS = of_parts("phase wire", "encoder disc", "foot", "slat")


@pytest.mark.parametrize(
    ("says", "off"),
    [
        ("phase wires cut 310, 312 and 309, should be 310", ("312 mm", "place 2")),
        ("encoder discs cut 31, 33 and 30, should be 31", ("33 mm", "place 2")),
        ("slats sawn 400, 402 and 401, should be 400", ("402 mm", "place 2")),
    ],
)
def test_values_said_to_be_measured_have_places_of_their_own(
    says: str, off: tuple[str, str]
) -> None:
    snapshot = on_record(WORDS)
    line = asked(WORDS, says, snapshot)
    draft = told(WORDS, line, "measured", snapshot)
    [run] = [one for one in draft.new if isinstance(one, Run)]
    assert len({one.place for one in run.readings}) == len(run.readings)
    [deviation] = [one for one in draft.new if isinstance(one, Deviation)]
    assert (str(deviation.found), deviation.place) == off


@pytest.mark.parametrize(
    "says",
    [
        "this morning I sanded the heel of the foot, it's 3.0 there now",
        "this morning I filed the toe of the foot, it's 2.9 there now",
    ],
)
def test_work_said_to_be_done_with_a_piece_keeps_its_size(says: str) -> None:
    snapshot = on_record(WORDS)
    line = asked(WORDS, says, snapshot)
    assert line.question is not None
    choice = "what is done with a piece"
    assert choice in line.question.choices
    told_so = answered(line, line.question, choice, WORDS)
    assert told_so.facts.disposition == "rework"
    draft = told(WORDS, line, choice, snapshot)
    assert [one for one in draft.new if isinstance(one, Run)]
    assert [one for one in draft.new if isinstance(one, Disposal)]
    assert not [one for one in draft.new if isinstance(one, Note)]
