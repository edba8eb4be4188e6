"""The second opinion on a line's kind: what it learned, and what becomes of it."""

from __future__ import annotations

import pytest

from logbook.plain.answers.answering import answered
from logbook.plain.lines import understand
from logbook.plain.sure.likely import KINDS, likely, signs_of, weights
from logbook.plain.told import likely_causes
from logbook.plain.understanding import Doubt, Kind, Understanding, Verdict
from logbook.plain.words.sentence import read_sentence
from tests.plain import fresh, learn, learn_causes
from tests.plain.judge import PROJECT

LEFT_OUT = (14, 18, 20, 23)


def best(signs: frozenset[str], table: dict[str, tuple[int, ...]]) -> Kind:
    rows = [table[""], *(table[sign] for sign in signs if sign in table)]
    sums = [sum(column) for column in zip(*rows, strict=True)]
    return KINDS[sums.index(max(sums))]


def test_the_table_says_what_the_labelled_lines_say_now() -> None:
    told = [*learn.lines()]
    anew = learn.learned(told)
    same = [best(signs, anew) is best(signs, weights()) for signs, _ in told]
    assert sum(same) >= 0.995 * len(same), "python -m tests.plain.learn"


def test_the_table_of_causes_says_what_the_labelled_failures_say_now() -> None:
    anew = learn_causes.learned()
    signs = [
        row for line in learn_causes.lines() for row in learn_causes.clauses(*line)
    ]
    same = [
        _why(one, anew) == (likely_causes.likely(one) >= likely_causes.TELLS)
        for one, _ in signs
    ]
    assert sum(same) >= 0.995 * len(same), "python -m tests.plain.learn"


def _why(signs: frozenset[str], table: dict[str, int]) -> bool:
    return table[""] + sum(table.get(sign, 0) for sign in signs) >= 0


def test_causes_of_failures_it_never_learned_from_are_mostly_told() -> None:
    table = learn_causes.learned(leave_out=LEFT_OUT)
    unseen = [
        (_why(signs, table), why)
        for number in LEFT_OUT
        for line in fresh.batch(number)
        if line["kind"] == "failure" and "cause" in line
        for signs, why in learn_causes.clauses(line["says"], line["cause"], PROJECT)
    ]
    found = sum(told for told, why in unseen if why)
    assert found >= 0.5 * sum(why for _, why in unseen)
    assert sum(told for told, why in unseen if not why) <= 0.1 * len(unseen)


@pytest.mark.parametrize(
    ("says", "why"),
    [
        ("gate warped, plate too cold", "plate too cold"),
        ("slot too tight, bed will not move", "slot too tight"),
        ("fuse blew at switch on: polarity reversed", "polarity reversed"),
        ("mask curled from heat", "heat"),
        ("lid cracked, had to throw it out", ""),
    ],
)
def test_the_clause_of_a_failure_that_tells_why_is_its_cause(
    says: str, why: str
) -> None:
    cause = understand(says, PROJECT).facts.cause
    assert (cause.said if cause else "") == why


def test_kinds_of_lines_it_never_learned_from_are_mostly_told() -> None:
    table = learn.learned([*learn.lines(leave_out=LEFT_OUT)])
    unseen = [
        (best(signs, table), kind)
        for number in LEFT_OUT
        for line in fresh.batch(number)
        for signs, kind in learn.labelled(line["says"], line["kind"], PROJECT)
    ]
    right = sum(told is kind for told, kind in unseen)
    assert right >= 0.8 * len(unseen), f"{right} of {len(unseen)}"


def test_chances_of_any_line_add_up_to_one() -> None:
    for says in ("", "base 179", "¿?", "zzz qqq", "lid " * 60):
        chances = likely(signs_of(read_sentence(says, PROJECT)))
        assert sum(chances.values()) == pytest.approx(1)


def test_a_name_of_the_project_counts_as_a_part_whatever_it_is() -> None:
    one = [*signs_of(read_sentence("lid cracked", PROJECT))]
    other = [*signs_of(read_sentence("collar cracked", PROJECT))]
    assert one == other


AGAINST = "glue gave up on the bracket"


def asked() -> tuple[Understanding, Doubt]:
    line = understand(AGAINST, PROJECT)
    assert line.question is not None
    return line, line.question


def test_a_kind_the_words_speak_against_is_asked_about() -> None:
    line, question = asked()
    assert line.verdict is Verdict.ASKED
    assert question.choices == ("something failed", "something decided", "only a note")


@pytest.mark.parametrize(
    ("answer", "kind"),
    [
        ("something failed", Kind.FAILURE),
        ("something decided", Kind.DECISION),
        ("only a note", Kind.NOTE),
        ("a nonsense", Kind.NOTE),
    ],
)
def test_the_answer_makes_it_what_was_said(answer: str, kind: Kind) -> None:
    line, question = asked()
    told = answered(line, question, answer, PROJECT)
    assert told.kind is kind
    assert not any(one.needed for one in told.doubts)


def test_a_line_said_to_fail_asks_whether_another_builder_meets_it() -> None:
    line, question = asked()
    told = answered(line, question, "something failed", PROJECT)
    assert told.facts.part == "bracket"
    assert [one.about for one in told.doubts] == ["met_by_others"]


EMPTY = fresh.PROJECTS["empty"]
UNTOLD = "spaghetti on the gate, had to stop the printer"
"""A line no rule tells the kind of, though its words do, not quite surely."""


def test_a_line_no_rule_tells_is_asked_about_where_its_words_speak_for_a_kind() -> None:
    line = understand(UNTOLD, PROJECT)
    assert line.verdict is Verdict.ASKED
    assert line.question is not None
    assert line.question.choices == ("something failed", "only a note")
    told = answered(line, line.question, "something failed", PROJECT)
    assert (told.kind, told.facts.part) == (Kind.FAILURE, "gate")


@pytest.mark.parametrize(
    ("says", "kind", "part"),
    [
        ("countersink went right through the lid", Kind.FAILURE, "lid"),
        ("the cable will exit at the rear, not the side", Kind.DECISION, "cable"),
        ("bend radius 2.1 by the gauge", Kind.READING, ""),
    ],
)
def test_it_is_taken_where_its_words_leave_little_doubt(
    says: str, kind: Kind, part: str
) -> None:
    line = understand(says, PROJECT)
    assert line.verdict is Verdict.TAKEN
    assert (line.kind, line.facts.part) == (kind, part)


def test_a_part_nobody_has_made_is_made_by_no_words_alone() -> None:
    line = understand("my spindle housing got a scratch from the vise", PROJECT)
    assert line.verdict is Verdict.ASKED


def test_it_stays_a_note_when_that_is_the_answer() -> None:
    line = understand(UNTOLD, PROJECT)
    assert line.question is not None
    told = answered(line, line.question, "only a note", PROJECT)
    assert (told.kind, told.line) == (Kind.NOTE, UNTOLD)


@pytest.mark.parametrize(
    "says",
    ["remember to buy more 1/4 plate", "felt pads might look nicer", "is the lid ok?"],
)
def test_what_is_a_note_by_its_words_is_not_asked_about(says: str) -> None:
    assert understand(says, PROJECT).verdict is not Verdict.ASKED


def test_a_piece_told_by_its_number_fails_as_any_other() -> None:
    line = understand("gate 2 sagged again", fresh.DEMO)
    assert line.kind is Kind.FAILURE
    assert "what does it tell?" not in [one.question for one in line.doubts]


def test_a_size_told_with_one_it_hardly_misses_is_measured_and_not_decided_on() -> None:
    near = understand("crossbar 178.1 instead of 178.3 because the file slipped", EMPTY)
    assert (near.verdict, near.kind) == (Verdict.TAKEN, Kind.READING)
    far = understand("holes 4.0 instead of 3.2 in the lid because of rivets", EMPTY)
    assert far.verdict is Verdict.ASKED
