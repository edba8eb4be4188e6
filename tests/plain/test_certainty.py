"""A line that leaves unread what should tell more is asked about, not taken."""

from __future__ import annotations

import pytest

from logbook.plain.answers.answering import answered
from logbook.plain.drafts.drafting import titled
from logbook.plain.lines import understand
from logbook.plain.sure.unread import DONE_ABOUT, NEITHER, WHY
from logbook.plain.understanding import Kind, Verdict
from tests.plain.fresh import DEMO
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    "line",
    [
        "lid binds on the hinge side, paste lump",
        "cross-heads look cheap next to slotted",
        "base: keep 178.6, cut the bar to suit",
        "split the x-rail driving the last screw",
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
    said = "paste lump"
    line = understand(f"lid binds on the hinge side, {said}", PROJECT)
    assert line.question is not None
    taken = answered(line, line.question, answer, PROJECT)
    assert (taken.verdict, taken.kind) == (Verdict.TAKEN, Kind.FAILURE)
    cause = taken.facts.cause.said if taken.facts.cause else ""
    assert cause == (said if answer == WHY else "")
    assert taken.facts.cure == (said if answer == DONE_ABOUT else "")


def test_another_answer_keeps_the_line_as_a_note() -> None:
    line = understand("lid binds on the hinge side, paste lump", PROJECT)
    assert line.question is not None
    assert answered(line, line.question, "no idea", PROJECT).verdict is Verdict.KEPT


def test_a_size_that_two_sizes_share_their_name_with_is_asked_about() -> None:
    line = understand("mask aperture 36.15 should be 36", DEMO)
    doubt = line.question
    assert line.verdict is Verdict.ASKED
    assert doubt is not None
    assert set(doubt.choices[:2]) == {"aperture width", "aperture height"}
    taken = answered(line, doubt, "aperture width", DEMO)
    assert [one.what for one in taken.facts.readings] == ["aperture width"]
    new = answered(line, doubt, doubt.choices[2], DEMO)
    assert [one.what for one in new.facts.readings] == ["aperture"]
    assert understand("mask aperture height 24.1", DEMO).verdict is Verdict.TAKEN


def test_a_new_piece_made_is_no_rework_of_the_one_that_failed() -> None:
    facts = understand("diffuser-2 cracked again, drilled a new one", DEMO).facts
    assert (facts.cure, facts.disposition) == ("drilled a new one", "")


def test_the_warmth_told_behind_the_room_is_the_rooms() -> None:
    line = "the room was cold, 12 °C, glue did not take on the collar"
    facts = understand(line, DEMO).facts
    assert str(facts.room) == "12 °C"
    assert not facts.readings


@pytest.mark.parametrize(
    ("line", "title"),
    [
        ("note: sanded", "sanded"),
        ("decided to use M3x8 for the lid", "use M3x8 for the lid"),
        ("decided: ply for the base", "ply for the base"),
        ("decided against rivets for the lid", "decided against rivets for the lid"),
    ],
)
def test_a_title_leaves_out_the_word_its_kind_says(line: str, title: str) -> None:
    assert titled(understand(line, DEMO)) == title
