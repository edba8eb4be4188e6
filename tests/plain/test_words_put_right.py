"""A line that denies words on record puts these right, in the entry that says them."""

from __future__ import annotations

import pytest

from logbook.plain.understanding import Kind, Verdict
from logbook.records.kinds.happenings import Failure, Note, Order, Run
from tests.plain.judge import of_parts
from tests.plain.on_record import asked, on_record, told

WORDS = of_parts("gate", "lid", "mask")
BOUGHT = "bought 2 spools of PETG and a bag of M2.5x8 screws, 24 euro"
NOT_THESE = [
    "slip of the pen, screws were M3x8 not M2.5x8",
    "I meant M3x8 screws not M2.5x8",
    "typo: the screws were M3x8 not M2.5x8",
    "correction, M3x8 screws, not M2.5x8",
    "sorry not M2.5x8 but M3x8",
    "the screws were M3x8, not M2.5x8",
    "oops I wrote M2.5x8, it was M3x8",
]


@pytest.mark.parametrize("says", NOT_THESE)
def test_what_was_bought_is_put_right_in_every_order_that_says_it(says: str) -> None:
    snapshot = on_record(WORDS, BOUGHT)
    line = asked(WORDS, says, snapshot)
    assert line.verdict is Verdict.ASKED
    assert line.question is not None
    assert "“M2.5x8” is on record, in “" in line.question.question
    assert "put “M3x8” there instead?" in line.question.question
    draft = told(WORDS, line, "put it right", snapshot)
    assert draft.new == []
    orders = [one for one in draft.amended if isinstance(one, Order)]
    assert "bag of M3x8 screws" in {one.item for one in orders}
    assert {one.title for one in orders} == {
        BOUGHT.replace("M2.5x8", "M3x8"),
        "bag of M3x8 screws",
    }


@pytest.mark.parametrize("says", NOT_THESE[:5])
def test_what_is_not_put_right_is_a_note(says: str) -> None:
    snapshot = on_record(WORDS, BOUGHT)
    draft = told(WORDS, asked(WORDS, says, snapshot), "only a note", snapshot)
    assert draft.amended == []
    [note] = draft.new
    assert isinstance(note, Note)


def test_where_it_failed_and_why_are_put_right() -> None:
    snapshot = on_record(WORDS, "gate cracked at the left because the PLA was wet")
    line = asked(
        WORDS,
        "slip of the pen, the gate cracked at the right not at the left",
        snapshot,
    )
    draft = told(WORDS, line, "put it right", snapshot)
    [failure] = [one for one in draft.amended if isinstance(one, Failure)]
    assert failure.title == "gate cracked at the right because the PLA was wet"
    assert failure.where == "right"
    line = asked(WORDS, "sorry it was PETG not PLA", snapshot)
    [failure] = [
        one
        for one in told(WORDS, line, "put it right", snapshot).amended
        if isinstance(one, Failure)
    ]
    assert failure.cause is not None
    assert failure.cause.said == "the PETG was wet"


@pytest.mark.parametrize(
    "says",
    [
        "slip of the pen, the pins were M3x8 not M2.5x8",
        "typo: the lid was oak not beech",
        "wrong: the lid is 4 mm, not 3 mm",
        "mistyped, gate was scrapped not the lid",
    ],
)
def test_what_is_denied_of_nothing_on_record_is_no_fact_of_its_own(says: str) -> None:
    line = asked(WORDS, says, on_record(WORDS, "bought 10 clips for the lid"))
    assert line.verdict is not Verdict.TAKEN
    assert line.question is None or line.question.choices == ("only a note",)


def test_the_last_reading_is_put_right_by_one_figure() -> None:
    snapshot = on_record(WORDS, "lid gap 3.1", "mask slot 36.2", "gate slot 2.1")
    line = asked(WORDS, "wrote that wrong, mask slot was 36.1", snapshot)
    assert line.question is not None
    assert "36.2 mm is on record" in line.question.question
    [run] = told(WORDS, line, "put it right", snapshot).amended
    assert isinstance(run, Run)
    assert [str(one.value) for one in run.readings] == ["36.1 mm"]


def test_a_choice_among_stuffs_stays_a_choice() -> None:
    snapshot = on_record(WORDS, "printed the gate in PLA")
    line = asked(WORDS, "gate: PETG not PLA", snapshot)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.DECISION)
