"""What was taken off, what is off most, and what a side of a size is called."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.plain.lines import understand
from logbook.plain.shown import in_one_line
from logbook.plain.sure.coverage import left_in_words
from logbook.plain.understanding import Kind, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.happenings import Deviation, Run
from logbook.records.kinds.workshop import Piece
from tests.plain.judge import NOW, PROJECT
from tests.plain.records_of import drafted, known, world

STAND = Vocabulary(
    now=NOW,
    parts={"base": (), "crossbar": (), "mask": (), "gate": (), "diffuser": ()},
    characteristics={"mask": ("aperture_width", "aperture_height")},
)


@pytest.mark.parametrize(
    "says",
    [
        "after lunch I took 0.3 off the crossbar with the saw, 20 minutes",
        "skimmed 0.2 off the crossbar",
        "removed 0.4 from the crossbar with a file",
        "another 0.2 to go on the crossbar",
        "crossbar still 0.4 to go",
        "sanded the crossbar 0.3 down",
        "sanded the rim of the gate 0.3 down, it was rubbing on the mask",
        "crossbar took 0.3 off",
    ],
)
def test_an_amount_taken_off_is_no_reading(says: str) -> None:
    line = understand(says, STAND)
    assert line.facts.readings == ()
    records = drafted(line, world(known(STAND)))
    assert not any(isinstance(one, Run) for one in records)


def test_an_amount_taken_off_in_so_much_time_is_work_done() -> None:
    says = "after lunch I took 0.3 off the crossbar with the saw, 20 minutes"
    line = understand(says, STAND)
    assert (line.kind, str(line.facts.minutes)) == (Kind.STEP, "20 minutes")
    assert "0.3 off" in in_one_line(line)


def test_what_was_filed_off_before_is_no_second_reading() -> None:
    line = understand("base opening now 178.9 after filing the left wall by 0.3", STAND)
    [one] = line.facts.readings
    assert line.verdict is Verdict.TAKEN
    assert (one.what, one.place, str(one.value)) == ("opening", "", "178.9 mm")


def test_how_far_a_size_is_off_stays_a_difference() -> None:
    assert str(understand("base opening is off by 0.3", STAND).facts.off) == "0.3 mm"


@pytest.mark.parametrize(
    "says",
    [
        "mask aperture came out 36.12 wide and 24.05 high",
        "mask aperture width is 36.12, height 24.05",
    ],
)
def test_the_sides_of_a_known_size_are_its_dimensions(says: str) -> None:
    line = understand(says, STAND)
    found = [(one.what, str(one.value)) for one in line.facts.readings]
    assert found == [("aperture_width", "36.12 mm"), ("aperture_height", "24.05 mm")]


def test_a_side_told_alone_is_of_what_was_told_before() -> None:
    unmeasured = replace(STAND, characteristics={})
    line = understand("mask aperture width is 36.12, height 24.05", unmeasured)
    assert [one.what for one in line.facts.readings] == [
        "aperture width", "aperture height",
    ]  # fmt: skip


def test_a_deviation_is_of_the_reading_furthest_from_what_was_wanted() -> None:
    says = "bore of the gate 8.05 at the top and 8.11 at the bottom, should be 8"
    records = drafted(understand(says, STAND), world(known(STAND)))
    [off] = [one for one in records if isinstance(one, Deviation)]
    assert (str(off.found), off.place) == ("8.11 mm", "bottom")


def test_no_harm_done_is_no_work() -> None:
    says = "the gate face got to 61 C after an hour under the lamp, no harm done"
    line = understand(says, PROJECT)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.READING)
    assert str(line.facts.readings[0].value) == "61 C"
    assert line.facts.hours is not None
    assert line.facts.hours.value == 1


def test_where_a_size_was_wanted_it_is_the_wanted_one() -> None:
    line = understand("the crossbar sits at 179.62 where 179.7 was wanted", STAND)
    assert line.verdict is Verdict.TAKEN
    assert [str(one.value) for one in line.facts.readings] == ["179.62 mm"]
    assert [str(one) for one in line.facts.wanted] == ["179.7 mm"]


def test_what_went_again_failed_with_its_cause_and_its_cure() -> None:
    line = understand(
        "diffuser went again at the left screw because I leant on the driver, "
        "a washer under the head stopped it",
        STAND,
    )
    assert (line.kind, line.facts.where) == (Kind.FAILURE, "left screw")
    assert line.facts.cause is not None
    assert line.facts.cause.said == "I leant on the driver"
    assert line.facts.cure == "a washer under the head stopped it"
    assert "(as said, not proven)" in in_one_line(line)


@pytest.mark.parametrize(
    ("says", "item", "due"),
    [
        ("ordered me 10 M2.5x6 screws", "M2.5x6 screws", ""),
        ("20 fibre washers are on their way, 3.60 euro, Thursday", "fibre washers",
         "2026-03-19"),
    ],
)  # fmt: skip
def test_an_order_names_what_was_ordered_and_when_it_comes(
    says: str, item: str, due: str
) -> None:
    facts = understand(says, STAND).facts
    assert facts.item == item
    assert (facts.due.isoformat() if facts.due else "") == due


def test_what_would_not_stick_says_so() -> None:
    shown = in_one_line(understand("binned the gate, sole would not stick", STAND))
    assert "sole would not stick" in shown
    bored = understand("bored the seat of the gate out to 22.03", STAND)
    assert "seat" in left_in_words(bored)


@pytest.mark.parametrize(
    "says",
    [
        "two crossbars came out 179.5 and 179.7 long",
        "2 crossbars measure 179.5 and 179.7 long",
    ],
)
def test_as_many_values_as_pieces_are_one_of_each(says: str) -> None:
    line = understand(says, STAND)
    assert line.verdict is Verdict.TAKEN
    assert "length of piece 2 179.7 mm" in in_one_line(line)
    records = drafted(line, world(known(STAND)))
    runs = [one for one in records if isinstance(one, Run)]
    pieces = {one.id: one.title for one in records if isinstance(one, Piece)}
    assert [
        (pieces[run.piece.id], str(run.readings[0].value)) for run in runs if run.piece
    ] == [("crossbar-1", "179.5 mm"), ("crossbar-2", "179.7 mm")]


def test_values_that_are_no_piece_s_each_stay_together() -> None:
    line = understand("crossbar came out 179.5 and 179.7 long", STAND)
    assert all(not one.piece for one in line.facts.readings)


@pytest.mark.parametrize(
    ("says", "found"),
    [
        ("lid 0.5 too narrow, should be 60", "59.5 mm"),
        ("lid 0.5 too wide, should be 60", "60.5 mm"),
    ],
)
def test_what_is_too_little_is_less_than_was_wanted(says: str, found: str) -> None:
    records = drafted(understand(says, PROJECT), world(known(PROJECT)))
    [off] = [one for one in records if isinstance(one, Deviation)]
    assert str(off.found) == found


def test_which_thing_was_worked_on_is_no_place_of_what_was_measured_then() -> None:
    line = understand("fitted the corner brackets of the base, diagonal 842.5", STAND)
    assert [one.place for one in line.facts.readings] == [""]
    there = understand("sawed the crossbar at the left end, 178.4", STAND)
    assert [one.place for one in there.facts.readings] == ["left end"]


def test_what_was_put_on_is_no_size_of_what_was_reworked() -> None:
    line = understand("shimmed the base with 0.4 brass, sits flat now", STAND)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.DISPOSITION)
    assert line.facts.readings == ()
    assert "0.4 brass" in left_in_words(line)


def test_a_verb_is_no_part_of_the_name_of_a_size() -> None:
    line = understand("powder coat adds 0.08 per face on the base", STAND)
    assert [one.what for one in line.facts.readings] == ["powder coat"]


def test_what_it_was_between_is_told_whole() -> None:
    line = understand("mask got pinched between gate and base", STAND)
    assert line.facts.where == "between gate and base"


def test_what_begins_like_a_question_without_its_sign_may_tell_of_work() -> None:
    line = understand("did the edges of the base with a file", STAND)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.STEP)
    assert understand("did the base fit?", STAND).kind is Kind.QUESTION


@pytest.mark.parametrize(
    "says",
    [
        "crossbar sawed at 178.9, filed to 178.6, goes in",
        "crossbar filed from 178.9 to 178.6, goes in",
    ],
)
def test_what_stands_last_is_what_it_was_brought_to(says: str) -> None:
    line = understand(says, STAND)
    assert line.kind is Kind.DISPOSITION
    assert [str(one.value) for one in line.facts.readings] == ["178.6 mm"]


def test_what_was_used_for_want_of_another_has_not_failed() -> None:
    says = "ran out of 3.2 rivets, used 4 mm and drilled the base out"
    line = understand(says, STAND)
    assert line.kind is not Kind.FAILURE


@pytest.mark.parametrize(
    "says",
    [
        "took the thicker plate for the mask",
        "took the other plate for the mask",
        "took the longer screws for the base",
        "took the measurements of the base",
        "took the drill to the base holes",
        "took the old gate for a template",
        "took the gate to the window to look",
        "took the corners off the base",
    ],
)
def test_what_is_taken_up_is_not_taken_apart(says: str) -> None:
    assert not understand(says, STAND).facts.undone


@pytest.mark.parametrize(
    "says",
    [
        "took the gate off",
        "took the gate off the base",
        "took the gate back off",
        "took the screws out of the gate",
        "took the gate and mask out",
    ],
)
def test_what_is_taken_off_or_out_again_is_taken_apart(says: str) -> None:
    assert understand(says, STAND).facts.undone
