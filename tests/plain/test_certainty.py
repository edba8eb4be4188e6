"""A line that leaves unread what should tell more is asked about, not taken."""

from __future__ import annotations

import pytest

from logbook.plain.answering import answered
from logbook.plain.certainty import DONE_ABOUT, NEITHER, WHY
from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.fresh import DEMO
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    "line",
    [
        "lid binds on the hinge side, paste squeeze-out",
        "cross-heads look cheap next to slotted",
        "base: keep 178.6, cut the bar to suit",
        "split the x-bar driving the last screw",
        "collar w/d 42.3",
    ],
)
def test_a_line_with_a_sign_of_a_misreading_is_not_taken(line: str) -> None:
    assert understand(line, PROJECT).verdict is not Verdict.TAKEN


@pytest.mark.parametrize(
    "line",
    [
        "crossbar 179.7",
        "diffuser cracked at the corner screw",
        "drilled the base, 6 holes, 15 min",
        "lamp face 58 C after 2 h, room 22",
        "bracket sheared at the bend. Naturally.",
        "counted 6 M3 pan head screws, 4 listed",
    ],
)
def test_a_plain_line_is_taken(line: str) -> None:
    assert understand(line, DEMO).verdict is Verdict.TAKEN


def test_the_bar_is_asked_about_with_the_crossbar_first() -> None:
    doubt = understand("the bar bent when I clamped it", PROJECT).question
    assert doubt is not None
    assert doubt.choices[0] == "crossbar"


@pytest.mark.parametrize("answer", [WHY, DONE_ABOUT, NEITHER])
def test_what_a_last_clause_tells_goes_where_the_answer_says(answer: str) -> None:
    said = "paste squeeze-out"
    line = understand(f"lid binds on the hinge side, {said}", PROJECT)
    assert line.question is not None
    taken = answered(line, line.question, answer, PROJECT)
    assert (taken.verdict, taken.kind) == (Verdict.TAKEN, Kind.FAILURE)
    cause = taken.facts.cause.said if taken.facts.cause else ""
    assert cause == (said if answer == WHY else "")
    assert taken.facts.cure == (said if answer == DONE_ABOUT else "")


def test_another_answer_keeps_the_line_as_a_note() -> None:
    line = understand("lid binds on the hinge side, paste squeeze-out", PROJECT)
    assert line.question is not None
    assert answered(line, line.question, "no idea", PROJECT).verdict is Verdict.KEPT
