"""Lines that only one rule reads as they are meant: each is held to what it tells."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.fresh import DEMO


@pytest.mark.parametrize(
    ("says", "kind", "part"),
    [
        ("squeeze out all around the lid", Kind.FAILURE, "lid"),
        ("my saw slipped and the lid split", Kind.FAILURE, "lid"),
        ("took 40 min to fold the base", Kind.STEP, ""),
        ("lid is painted on one side", Kind.STEP, "lid"),
        ("crossbar 178.2 sanded", Kind.STEP, "crossbar"),
        ("opened the lid because the lamp died", Kind.STEP, "lid"),
        ("opened the lid again", Kind.STEP, "lid"),
        ("hood back plate 3.2", Kind.READING, "hood back plate"),
        ("crossbar held 2 kg", Kind.READING, "crossbar"),
        ("lid 2.2 thick, will shim the next", Kind.READING, "lid"),
        ("gate temperature 60 C glued", Kind.READING, "gate"),
        ("the new lamp is in the mail", Kind.ORDER, "lamp"),
        ("base with screws only", Kind.DECISION, "base"),
    ],
)
def test_it_is_taken_as_what_it_tells(says: str, kind: Kind, part: str) -> None:
    line = understand(says, DEMO)
    assert (line.verdict, line.kind, line.facts.part) == (Verdict.TAKEN, kind, part)


@pytest.mark.parametrize(
    "says",
    [
        "yard was shut, no alu",
        "hard to clamp on my saw",
        "mounted slides are thicker than strips",
        "paraffin is good enough",
    ],
)
def test_a_remark_is_kept_as_a_note(says: str) -> None:
    assert understand(says, DEMO).verdict is Verdict.KEPT


def test_a_name_with_a_number_is_no_value() -> None:
    assert understand("gate Foo 7", DEMO).verdict is not Verdict.TAKEN


@pytest.mark.parametrize(
    ("says", "question"),
    [
        ("mask 1 and 2 both 36.1", "this measures two things: type one line for each"),
        ("sask 36.1", "which part?"),
        ("base holes 4 x 6.1", "is 4 mm a measured value?"),
        (
            "lid: weird hole, glued it",
            "“weird hole” was left unread: log it as work done?",
        ),
    ],
)
def test_what_is_not_sure_is_asked(says: str, question: str) -> None:
    line = understand(says, DEMO)
    assert line.verdict is Verdict.ASKED
    assert line.question is not None
    assert line.question.question == question


@pytest.mark.parametrize(
    ("says", "cause"),
    [
        ("lamp died, fuse blown", "fuse blown"),
        ("chose oak for the lid, it matches", "it matches"),
        ("base cracked, bend comes 0.3 short", None),
    ],
)
def test_why_is_what_the_line_says_it_is(says: str, cause: str | None) -> None:
    told = understand(says, DEMO).facts.cause
    assert (told and told.said) == cause


@pytest.mark.parametrize(
    ("says", "values"),
    [
        ("drilled 4 x 3.2 in the lid", ["3.2 mm"]),
        ("lid diagonal 1 302.1", ["302.1 mm"]),
        ("lid varnished, dry by 8", []),
        ("lid 0.4 over the face", []),
    ],
)
def test_only_what_is_a_size_is_read_as_one(says: str, values: list[str]) -> None:
    readings = understand(says, DEMO).facts.readings
    assert [one.value.text for one in readings] == values


def test_what_is_measured_and_where_may_be_a_limb_or_another_thing() -> None:
    assert understand("lid arm length 45", DEMO).facts.what == "arm length"
    assert understand("base on the idler 3.4", DEMO).facts.readings[0].place == "idler"


def test_how_long_it_took_is_no_hour_and_no_cure() -> None:
    assert understand("glued in 3:20 the lid", DEMO).facts.when is None
    assert understand("lid cracked, took 40 min", DEMO).facts.cure == ""


def test_what_failed_and_was_sent_back_is_returned() -> None:
    assert understand("lamp dead, sent it back", DEMO).facts.disposition == "return"


def test_what_befalls_the_next_one_is_no_disposition_of_this() -> None:
    assert understand("lid 2.2, will shim the next one", DEMO).kind is Kind.READING


@pytest.mark.parametrize("mark", ["…", "("])
def test_a_plan_behind_a_mark_alone_is_read_as_it_stands(mark: str) -> None:
    line = f"{mark}, will shim the next one"
    assert understand(line, DEMO).line == line
