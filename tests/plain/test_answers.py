"""An answer settles one question; what was understood besides stays."""

from __future__ import annotations

from logbook.plain.answers.answering import answered
from logbook.plain.lines import understand
from logbook.plain.named.unnamed import which_part
from logbook.plain.shown import in_one_line
from logbook.plain.understanding import Kind, Verdict
from logbook.records.kinds.happenings import StepDone
from tests.plain.judge import PROJECT, of_parts
from tests.plain.records_of import drafted, known, world

FEET = of_parts("walker foot", "lamp foot", "walker upper leg")


def test_an_answer_to_which_part_leaves_the_next_question_and_the_kind() -> None:
    line = understand("yesterday around four sanded the foot, took 20 min", FEET)
    asked = line.question
    assert asked is not None
    assert asked.about == "part"
    line = answered(line, asked, "walker foot", FEET)
    assert line.verdict is Verdict.ASKED
    assert line.question is not None
    line = answered(line, line.question, "16:00", FEET)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.STEP)
    assert line.facts.part == "walker foot"
    assert line.facts.when is not None
    assert line.facts.when.hour == 16
    assert str(line.facts.minutes) == "20 min"


def test_the_fastener_that_was_fitted_is_kept_and_shown() -> None:
    says = "put M3 or M2.5 inserts into the upper leg"
    line = understand(says, FEET)
    assert line.question is not None
    assert line.question.about == "fastener"
    line = answered(line, line.question, "M3", FEET)
    assert line.verdict is Verdict.TAKEN
    assert line.facts.part == "walker upper leg"
    assert "fitted M3" in in_one_line(line)
    [step] = [
        one for one in drafted(line, world(known(FEET))) if isinstance(one, StepDone)
    ]
    assert step.prose == "Fitted: M3."


def test_a_second_number_is_asked_after_the_first() -> None:
    says = "walker foot length 1,234 and width 2,345"
    line = understand(says, FEET)
    for _ in range(2):
        assert line.verdict is Verdict.ASKED
        assert line.question is not None
        line = answered(line, line.question, line.question.choices[0], FEET)
    assert (line.verdict, line.kind, line.line) == (Verdict.TAKEN, Kind.READING, says)
    assert len(line.facts.readings) == 2


def test_a_part_nobody_can_place_stays_the_answer() -> None:
    line = understand("sanded the foot smooth", FEET)
    again = answered(line, which_part(("walker foot",)), "lamp foot", FEET)
    assert (again.kind, again.facts.part) == (Kind.STEP, "lamp foot")


def test_what_an_unread_word_tells_of_is_among_the_answers() -> None:
    line = understand("bed cupped 3 mm overnight, only oiled one side", PROJECT)
    assert line.question is not None
    so, failed, note = line.question.choices
    assert failed == "something failed"
    told = answered(line, line.question, failed, PROJECT)
    assert (told.kind, told.facts.part) == (Kind.FAILURE, "bed")
    done = answered(line, line.question, so, PROJECT)
    assert (done.kind, done.verdict) == (Kind.STEP, Verdict.TAKEN)
    assert answered(line, line.question, note, PROJECT).kind is Kind.NOTE


def test_the_kind_it_was_read_as_is_offered_once() -> None:
    ran = "ran the cable through the channel and clipped it"
    line = understand(f"{ran}, then closed the lid with rivets", PROJECT)
    assert line.question is not None
    assert "work done" not in line.question.choices
