"""A line that corrects a reading, or tells what the last failure did not, amends it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.plain.answers.answering import answered
from logbook.plain.answers.held import held_to_records
from logbook.plain.lines import understand
from logbook.plain.understanding import Understanding, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.happenings import Deviation, Failure, Note, Run
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain import on_record as before
from tests.plain.judge import NOW

WORDS = Vocabulary(
    now=NOW,
    parts={"base": (), "diffuser": ()},
    characteristics={"base": ("opening",)},
)


def on_record(*lines: str) -> Snapshot:
    return before.on_record(WORDS, *lines)


def asked(says: str, snapshot: Snapshot) -> Understanding:
    return before.asked(WORDS, says, snapshot)


def told(line: Understanding, answer: str, snapshot: Snapshot) -> Draft:
    return before.told(WORDS, line, answer, snapshot)


RIGHT = "base opening (right) 178.9 should be 180"
OOPS = [
    "oops the base opening right was 178.6 not 178.9",
    "base opening right 178.6 not 178.9",
    "base opening right is 178.6, i logged 178.9, slip",
    "the base opening i logged as 178.9 was 178.6, misread the caliper",
]


@pytest.mark.parametrize("says", OOPS)
def test_one_answer_puts_the_reading_right_and_its_deviation(says: str) -> None:
    snapshot = on_record("base opening left 178.4", RIGHT)
    line = asked(says, snapshot)
    assert line.verdict is Verdict.ASKED
    assert line.question is not None
    assert "178.9 mm is on record" in line.question.question
    draft = told(line, "put it right", snapshot)
    assert draft.new == []
    [run] = [one for one in draft.amended if isinstance(one, Run)]
    assert [str(one.value) for one in run.readings] == ["178.6 mm"]
    [off] = [one for one in draft.amended if isinstance(one, Deviation)]
    assert (str(off.found), str(off.wanted)) == ("178.6 mm", "180 mm")


@pytest.mark.parametrize("says", OOPS)
def test_unasked_it_is_a_note_and_changes_nothing(says: str) -> None:
    snapshot = on_record(RIGHT)
    draft = told(asked(says, snapshot), "only a note", snapshot)
    assert draft.amended == []
    [note] = draft.new
    assert isinstance(note, Note)


def test_a_reading_after_the_one_on_record_is_a_reading() -> None:
    snapshot = on_record("base opening 178.9")
    line = asked("base opening 178.6 should be 180", snapshot)
    assert (line.verdict, line.amends) == (Verdict.TAKEN, None)


@pytest.mark.parametrize(
    ("says", "cause", "cure"),
    [
        ("cause: the drill was blunt", "the drill was blunt", ""),
        ("because the drill was blunt", "the drill was blunt", ""),
        ("cure: a step drill, slowly", "", "a step drill, slowly"),
    ],
)
def test_what_the_last_failure_lacks_is_told_later(
    says: str, cause: str, cure: str
) -> None:
    snapshot = on_record("base cracked", "diffuser cracked")
    line = asked(says, snapshot)
    assert line.question is not None
    assert "“diffuser cracked”" in line.question.question
    draft = told(line, "yes, of that", snapshot)
    assert draft.new == []
    [failure] = draft.amended
    assert isinstance(failure, Failure)
    assert failure.title == "diffuser cracked"
    assert (failure.cause.said if failure.cause else "", failure.cure) == (cause, cure)


def test_what_is_told_already_is_not_told_again() -> None:
    snapshot = on_record("diffuser cracked because the drill was blunt")
    assert asked("cause: it was cold", snapshot).amends is None


def test_a_line_of_its_own_stays_what_it_is() -> None:
    snapshot = on_record("diffuser cracked")
    line = asked("cure: a step drill, slowly", snapshot)
    doubt = line.question
    assert doubt is not None
    own = answered(line, doubt, "a line of its own", WORDS)
    own = held_to_records(own, snapshot, {doubt.question})
    plain = understand("cure: a step drill, slowly", WORDS)
    assert replace(own, typed="") == replace(plain, typed="")


@pytest.mark.parametrize(
    "says",
    [
        "the lamp was not on, and the spare sheet lies under the bench",
        "sanded the bed, the fan was not on",
        "the diffuser cracked though the lamp was not on",
        "the clamp is not in",
    ],
)
def test_what_was_not_so_corrects_no_entry_that_happens_to_say_the_word(
    says: str,
) -> None:
    snapshot = on_record("screw the bed on, 1 min", "put the lamp in")
    line = asked(says, snapshot)
    assert line.amends is None
    assert "on record" not in "".join(doubt.question for doubt in line.doubts)


def test_what_a_correction_tells_besides_is_kept_as_a_note_of_what_it_put_right() -> (
    None
):
    snapshot = on_record("ordered 20 M2.5x8 screws")
    more = "the spare sheet lies under the bench beside the door"
    line = asked(f"the screws were M3x8, not M2.5x8, and {more}", snapshot)
    draft = told(line, "put it right", snapshot)
    assert any("M3x8" in one.title for one in draft.amended)
    [note] = draft.new
    assert isinstance(note, Note)
    assert more in note.title
    assert [ref.id for ref in note.about] == [draft.amended[0].id]


@pytest.mark.parametrize(
    ("first", "says", "now"),
    [
        ("base opening 178.9", "no, 178.6", ["178.6 mm"]),
        ("base opening 178.9 should be 180", "sorry, 178.6 not 178.9", ["178.6 mm"]),
        ("base opening 178.9", "oops 178.6 mm", ["178.6 mm"]),
        ("diffuser 120.2 x 80.4", "no, diffuser was 80.1", ["120.2 mm", "80.1 mm"]),
        ("base opening 178.9", "wait, no: it was 178.6", ["178.6 mm"]),
        ("base opening 178.9", "no, the opening is 178.6", ["178.6 mm"]),
    ],
)
def test_a_figure_said_anew_puts_right_what_was_read_just_before(
    first: str, says: str, now: list[str]
) -> None:
    snapshot = on_record(first)
    line = asked(says, snapshot)
    assert line.question is not None
    assert line.question.about == "amend"
    draft = told(line, "put it right", snapshot)
    [run] = [one for one in draft.amended if isinstance(one, Run)]
    assert [str(one.value) for one in run.readings] == now


@pytest.mark.parametrize(
    ("first", "says"),
    [
        ("base opening 178.9", "no 4 mm screws left"),
        ("base opening 178.9", "no, it should be 180"),
        ("base opening 178.9", "no, diffuser was 120.4"),
        ("base opening 178.9", "no, 12.4 V"),
        ("glued the diffuser", "no, 178.6"),
        ("base opening 178.9", "sorry, 20.3 not 20.4"),
        ("diffuser 120.2 x 120.3", "no, 120.1"),
    ],
)
def test_a_figure_of_something_else_puts_nothing_right(first: str, says: str) -> None:
    line = asked(says, on_record(first))
    assert line.amends is None


def test_the_number_of_a_piece_is_no_figure_of_what_is_put_right() -> None:
    snapshot = on_record("base 1 opening 178.9", "base 2 opening 178.6")
    for says in ("opening of base 1 was 178.4 not 178.9", "base 1 178.4 not 178.9"):
        line = asked(says, snapshot)
        assert line.question is not None
        assert "178.9 mm is on record" in line.question.question
        assert "put 178.4 mm there" in line.question.question


def test_what_is_neither_read_nor_drawn_is_asked_before_it_is_wanted() -> None:
    snapshot = on_record("base opening 179.2 should be 180")
    line = asked("base opening is 178.6 not 178.9", snapshot)
    assert line.question is not None
    assert "178.9 mm is on no record" in line.question.question
    _, only_measured, _ = line.question.choices
    draft = told(line, only_measured, snapshot)
    assert not [one for one in draft.new if isinstance(one, Deviation)]
    assert [
        str(r.value) for one in draft.new if isinstance(one, Run) for r in one.readings
    ] == ["178.6 mm"]
    plain = asked("base opening is 178.6 not 180", snapshot)
    assert plain.verdict is Verdict.TAKEN
