"""Terse lines: hours without a colon, what there is none of, pieces counted first."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.plain.answers.answering import answered
from logbook.plain.lines import understand
from logbook.plain.understanding import Doubt, Kind, Verdict
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("says", "minutes", "when"),
    [
        ("9 to 10 glued the base, 24h before load", 60, "2026-03-14T09:00"),
        ("yesterday 2 to 4 sanded the bed", 120, "2026-03-13"),
        ("14 to 16 soldered the lamp", 120, "2026-03-14T14:00"),
        ("yday 16:00 sawed the crossbar", None, "2026-03-13T16:00"),
    ],
)
def test_bare_hours_before_work_are_no_sizes(
    says: str, minutes: int | None, when: str
) -> None:
    facts = understand(says, PROJECT).facts
    assert not facts.readings
    assert facts.hours is None
    assert (facts.minutes.to("min") if facts.minutes else None) == minutes
    assert facts.when is not None
    assert facts.when.isoformat().startswith(when)


@pytest.mark.parametrize(
    ("says", "none"),
    [
        ("M3x10 in the lid, out of M3x8", "M3x8"),
        ("no 3mm ply left, cut the base from 4 birch", "3mm ply"),
        ("lid in acrylic 4, no 5 to be had", "no 5"),
        ("ran out of PLA, printed the gate in PETG", "PLA"),
    ],
)
def test_what_was_used_for_want_of_another_is_used_instead(
    says: str, none: str
) -> None:
    line = understand(says, PROJECT)
    assert line.verdict is Verdict.TAKEN
    assert line.kind is Kind.SUBSTITUTION
    assert line.facts.instead_of == none


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("gave up on rivets, went with screws for the lid", Kind.DECISION),
        ("gate gave up after an hour", Kind.FAILURE),
        ("ran out of PLA halfway through the gate", Kind.FAILURE),
        ("glued the crack in the diffuser", Kind.DISPOSITION),
    ],
)
def test_giving_something_up_is_no_failure(says: str, kind: Kind) -> None:
    assert understand(says, PROJECT).kind is kind


@pytest.mark.parametrize(
    "says",
    [
        "put the rivets in first, cant reach em after",
        "screw the bed on before the lid, no room after",
        "print came off the bed",
        "bed 60 C, first layer good",
    ],
)
def test_an_order_of_work_and_a_machines_own_bed_are_asked_about(says: str) -> None:
    assert understand(says, PROJECT).verdict is Verdict.ASKED


def test_how_far_a_torque_may_go_is_not_what_it_was() -> None:
    facts = understand("tightened the lid screws, not over 2 Nm", PROJECT).facts
    assert not facts.readings


@pytest.mark.parametrize(
    ("says", "readings"),
    [
        ("base 1.8 warp at the front", [("warp", "front", "1.8 mm")]),
        (
            "bed 18.2 thick at the front, 18.0 at the back",
            [("thickness", "front", "18.2 mm"), ("thickness", "back", "18.0 mm")],
        ),
        ("4 off 12.05 long dowels", [("length", "", "12.05 mm")]),
    ],
)
def test_a_value_has_its_name_and_its_place(
    says: str, readings: list[tuple[str, str, str]]
) -> None:
    found = understand(says, PROJECT).facts.readings
    assert [(one.what, one.place, one.value.text) for one in found] == readings


def test_a_part_is_known_by_its_name_with_a_hyphen_in_it() -> None:
    words = replace(PROJECT, parts={"Locking L Bracket": (), "base": ()})
    line = understand("locking l-bracket cracked", words)
    assert line.facts.part == "Locking L Bracket"


def test_an_answer_is_known_by_how_it_begins_and_a_stray_key_asks_again() -> None:
    line = understand("is the mask 36.3", PROJECT)
    doubt = Doubt("kind", "is 36.3 mm a measured value?", ("measured", "only a note"))
    line = replace(line, kind=Kind.READING, doubts=(doubt,))
    assert answered(line, doubt, "m", PROJECT).verdict is Verdict.TAKEN
    assert answered(line, doubt, "o", PROJECT).kind is Kind.NOTE
    assert answered(line, doubt, "x", PROJECT) == line
    which = Doubt("part", "which part?", ("base", "no part"))
    asked = replace(line, doubts=(which,))
    assert answered(asked, which, "p", PROJECT) == asked


@pytest.mark.parametrize(
    ("says", "what", "off"),
    [
        ("inside bend radius 2.3", "inside bend radius", ""),
        ("ply humidity 11 %", "ply humidity", ""),
        ("supply voltage 23.8 V", "supply voltage", ""),
        ("gate 0.3 too tall", "", "0.3 mm"),
        ("collar a hair oversize, 22.3", "", ""),
    ],
)
def test_a_measure_keeps_its_whole_name_and_any_too_tells_a_sense(
    says: str, what: str, off: str
) -> None:
    line = understand(says, PROJECT)
    assert line.verdict is Verdict.TAKEN
    assert (line.facts.what, str(line.facts.off or "")) == (what, off)
    assert not line.facts.part_is_new


@pytest.mark.parametrize(
    ("says", "disposition", "whose"),
    [
        ("keep bracket 2 with the dent", "use as is", ""),
        ("drawing has the bracket hole 2 mm too low", "", "the drawing"),
        ("only this bracket, my slip", "", "only this piece"),
    ],
)
def test_a_choice_told_in_other_words(says: str, disposition: str, whose: str) -> None:
    line = understand(says, PROJECT)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.DECISION)
    assert (line.facts.disposition, line.facts.met_by_others) == (disposition, whose)


@pytest.mark.parametrize(
    "says",
    [
        "put the driver inside the base",
        "riveted gizmo on",
        "lamp board draws 0.35 A",
        "anodising came out streakier on the lid",
        "glued the lid the wrong way round",
    ],
)
def test_work_on_something_unknown_or_gone_wrong_is_asked_about(says: str) -> None:
    assert understand(says, PROJECT).verdict is not Verdict.TAKEN


@pytest.mark.parametrize(
    ("says", "asks"),
    [
        ("gate slot 2.2 -> 2.5", True),
        ("gate slot 2.2 → 2.5", True),
        ("gate slot 2.2 to 2.5", True),
        ("gate slot now 2.5 instead of 2.2", True),
        ("gate slot 2.2 and 2.5", False),
    ],
)
def test_a_size_that_became_another_is_asked_about(says: str, *, asks: bool) -> None:
    line = understand(says, PROJECT)
    assert (line.verdict is Verdict.ASKED) is asks
    if line.question is not None and asks:
        decided = answered(line, line.question, "decided", PROJECT)
        assert decided.kind is Kind.DECISION
        assert decided.facts.instead_of == "2.2"


def test_what_came_otherwise_is_a_size_with_the_one_that_was_wanted() -> None:
    facts = understand("cable 0.75 mm2 came as 0.5", PROJECT).facts
    assert [(one.what, str(one.value)) for one in facts.readings] == [("", "0.5 mm²")]
    assert [str(one) for one in facts.wanted] == ["0.75 mm2"]
    bought = understand("the lamp I bought is 12 W, not 9 W", PROJECT)
    assert bought.kind is Kind.READING


@pytest.mark.parametrize("stop", ["", ".", "!"])
def test_a_stop_at_the_end_moves_nothing(stop: str) -> None:
    line = understand(
        f"gate split because it was cold, warming fixed it{stop}", PROJECT
    )
    assert line.facts.cause is not None
    assert line.facts.cause.said == "it was cold"
    assert line.facts.cure == "warming fixed it"
    named = understand(f"gate split, cure pan heads and washers{stop}", PROJECT)
    assert named.facts.cure == "pan heads and washers"


def test_a_place_is_kept_with_its_edge_and_an_hour_wherever_it_stands() -> None:
    [one] = understand("bed 21 thick at the left edge", PROJECT).facts.readings
    assert one.place == "left edge"
    when = understand("sawed the crossbar 08:30 at 178.2", PROJECT).facts.when
    assert when is not None
    assert when.hour == 8
    wrong = understand("yesterday 25:70 sawed the crossbar at 178.45", PROJECT)
    assert wrong.verdict is Verdict.ASKED


@pytest.mark.parametrize(
    ("says", "off", "sense"),
    [("lid +0.5", "0.5 mm", "over"), ("lid -0.3 left", "0.3 mm", "under")],
)
def test_a_signed_size_is_how_far_it_is_off(says: str, off: str, sense: str) -> None:
    facts = understand(says, PROJECT).facts
    assert (str(facts.off), facts.off_sense, facts.readings) == (off, sense, ())


@pytest.mark.parametrize("says", ["bar 0.2 short", "collar 6.35 (6)"])
def test_a_short_name_and_a_size_in_brackets_are_asked_about(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.verdict is Verdict.ASKED
    if "(" in says and line.question is not None:
        meant = answered(line, line.question, "should be 6", PROJECT)
        assert [str(one) for one in meant.facts.wanted] == ["6 mm"]


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("lamp 58 C, I could still touch it", Kind.READING),
        ("soldered the lamp leads, burnt my finger", Kind.STEP),
        ("will oil the bed, no varnish", Kind.DECISION),
        ("finally got the lid riveted shut, what a pain", Kind.STEP),
        ("milled the bracket to 39.5, goes in now", Kind.DISPOSITION),
        ("rivet pulled through the lid", Kind.FAILURE),
    ],
)
def test_what_is_said_by_the_way_does_not_turn_the_line(says: str, kind: Kind) -> None:
    assert understand(says, PROJECT).kind is kind


def test_a_mood_is_no_cause_and_is_not_asked_about() -> None:
    line = understand("gate drooped near the lamp, told you so", PROJECT)
    assert line.verdict is Verdict.TAKEN
    assert line.facts.cause is None


@pytest.mark.parametrize(
    "says",
    [
        "diffuser cracked, fix",
        "gate split, cure is",
        "lid rattles, fixed by",
        "lid, 9 to",
    ],
)
def test_a_line_half_typed_is_read_as_far_as_it_goes(says: str) -> None:
    for end in range(1, len(says) + 1):
        assert understand(says[:end], PROJECT).line == says[:end]


def test_parts_of_an_inch_are_not_asked_about_but_a_quarter_is() -> None:
    line = understand("crossbar 1/32 too long", PROJECT)
    assert line.verdict is Verdict.TAKEN
    assert str(line.facts.off) == "1/32 in"
    assert understand("crossbar 1/4 too long", PROJECT).verdict is Verdict.ASKED
