"""The day of a line: in every form people write one, wherever it stands.

Forms of days: ISO 8601 (2026-11-12); DIN 5008 and common European practice (12.11.,
12.11.2026), from memory; English practice (12 Nov, Nov 12th), from memory.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.plain.answers.answering import answered
from logbook.plain.lines import understand
from logbook.plain.shown import describe
from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.plain.when.dated import day_alone
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.happenings import StepDone
from tests.plain.records_of import drafted, known, world
from tests.plain.test_same_whatever import _TIMED, _facts, right_lines

NOW = datetime(2026, 11, 29, 0, 30, tzinfo=UTC)
WORDS = Vocabulary(
    now=NOW,
    parts=dict.fromkeys(("base", "lid", "strip"), ()),
    characteristics={"base": ("opening",)},
    steps=("drill the corner holes",),
)


def told(line: str) -> Understanding:
    return understand(line, WORDS)


def day_of(line: Understanding) -> str:
    return f"{line.facts.when:%d.%m. %H:%M}" if line.facts.when else ""


@pytest.mark.parametrize(
    "typed",
    [
        "12.11.", "12.11.:", "12.11.26", "12.11.2026", "12. 11. 2026", "12. nov.",
        "12. nov", "12 nov", "12th nov", "the 12th of november", "nov 12", "nov 12th",
        "November 12, 2026", "12 november 2026", "2026-11-12", "Thu 12.11.",
        "on 12.11.", "(12.11.)", "13-11-2026", "since 12.11.",
    ],
)  # fmt: skip
def test_a_day_in_any_of_its_forms_is_no_size(typed: str) -> None:
    line = told(f"{typed} base opening 178,6")
    day = "13.11. 12:00" if typed.startswith("13") else "12.11. 12:00"
    assert (line.verdict, day_of(line)) == (Verdict.TAKEN, day)
    assert [str(one.value) for one in line.facts.readings] == ["178,6 mm"]
    assert not line.facts.hour_said


@pytest.mark.parametrize(
    ("line", "at"),
    [
        ("24.11. 17:00 base opening 178,6", "24.11. 17:00"),
        ("24.11., 17:00 base opening 178,6", "24.11. 17:00"),
        ("24.11. 16.30 base opening 178,6", "24.11. 16:30"),
        ("24.11. 16h30 base opening 178,6", "24.11. 16:30"),
        ("12 nov 20.15 base opening 178,6", "12.11. 20:15"),
        ("yesterday 16.30 base opening 178,6", "28.11. 16:30"),
        ("24.11. evening base opening 178,6", "24.11. 19:00"),
        ("last tuesday evening base opening 178,6", "24.11. 19:00"),
        ("two days ago 20:15 base opening 178,6", "27.11. 20:15"),
        ("two days ago in the evening base opening 178,6", "27.11. 19:00"),
        ("3 days ago 8:00 base opening 178,6", "26.11. 08:00"),
        ("a week ago base opening 178,6", "22.11. 12:00"),
        ("base opening 178,6, 24.11.", "24.11. 12:00"),
        ("base opening 178,6 (24.11.)", "24.11. 12:00"),
        ("base opening 178,6 on 24.11.2026", "24.11. 12:00"),
        ("base opening 178,6 on 24.11., 16.30", "24.11. 16:30"),
    ],
)
def test_its_hour_goes_with_the_day(line: str, at: str) -> None:
    understood = told(line)
    assert (understood.verdict, day_of(understood)) == (Verdict.TAKEN, at)
    assert [str(one.value) for one in understood.facts.readings] == ["178,6 mm"]


@pytest.mark.parametrize(
    "line",
    ["base opening 12.11.", "base opening 12.11", "base opening 12.11. should be 12"],
)
def test_a_size_that_ends_a_sentence_stays_a_size(line: str) -> None:
    understood = told(line)
    assert str(understood.facts.readings[0].value) == "12.11 mm"
    assert understood.facts.when is None


@pytest.mark.parametrize(
    ("line", "asked", "day", "size"),
    [
        ("7.11 base opening 178,6", "“7.11”: 7 November, or 7.11 mm?", "07.11.", 2),
        ("7.11 drilled the corner holes", "“7.11”: 7 November, or 7.11 mm?",
         "07.11.", 0),
        ("5/11/2026 base opening 178,6", "“5/11/2026” can be two days: which?",
         "05.11.", 0),
        ("24.11. 16.30 opening", "“16.30”: an hour, or 16.30 mm?", "24.11.", 1),
    ],
)  # fmt: skip
def test_what_can_be_a_day_and_something_else_is_asked_once(
    line: str, asked: str, day: str, size: int
) -> None:
    understood = told(line)
    doubt = understood.question
    assert understood.verdict is Verdict.ASKED
    assert doubt is not None
    assert doubt.question == asked
    first, second = (answered(understood, doubt, one, WORDS) for one in doubt.choices)
    assert day_of(first).startswith(day)
    assert all(one.about != "day" for one in (*first.doubts, *second.doubts))
    assert len(second.facts.readings) >= size - 1


def test_of_two_days_the_one_to_come_is_not_meant() -> None:
    line = told("12/11/2026 base opening 178,6")  # 11 December is to come
    assert (line.verdict, day_of(line)) == (Verdict.TAKEN, "12.11. 12:00")


def test_what_lacks_its_number_without_the_day_is_not_asked() -> None:
    assert told("12.11 opening of the base").question is None
    assert [str(one.value) for one in told("opening 7.11").facts.readings] == [
        "7.11 mm"
    ]


def test_a_day_of_this_year_still_to_come_was_in_the_last_one() -> None:
    assert told("24.12. the lid cracked").facts.when == datetime(
        2025, 12, 24, 12, tzinfo=UTC
    )


def test_work_with_a_day_closes_its_step_and_its_entry_is_called_without_it() -> None:
    for line in (
        "23.11. drilled the corner holes",
        "drilled the corner holes, 23 nov",
        "on 23 nov drilled the corner holes",
    ):
        understood = told(line)
        assert understood.facts.step == "drill the corner holes"
        [done] = [
            one
            for one in drafted(understood, world(known(WORDS)))
            if isinstance(one, StepDone)
        ]
        assert done.title == "drilled the corner holes"
        assert done.prose == f"Typed: {line}"


@pytest.mark.parametrize(
    ("line", "label", "text"),
    [
        ("17 nov printed 6 lids", "how many", "6"),
        ("last tuesday printed six lids", "how many", "6"),
        (
            "12 nov revised the base to B: opening 179,9, because it bound",
            "revision",
            "B",
        ),
        (
            "23 nov 9:15 to 9:35 drilled the corner holes",
            "step",
            "drill the corner holes",
        ),
    ],
)
def test_a_day_before_a_line_switches_nothing_off(
    line: str, label: str, text: str
) -> None:
    assert (label, text) in describe(told(line))


def _days() -> Iterator[str]:
    day = date(2026, 3, 10)  # the lines were labelled on 14 March
    yield from (f"{day:%d.%m.}", f"{day:%d %b}", day.isoformat(), "10.3.2026")


@given(st.data())
def test_a_line_tells_the_same_with_a_day_before_it_or_behind_it(
    data: st.DataObject,
) -> None:
    says, project = data.draw(
        st.sampled_from([one for one in right_lines() if not _TIMED.search(one[0])])
    )
    plain = understand(says, project)
    day = data.draw(st.sampled_from([*_days()]))
    for dated in (f"{day} {says}", f"on {day}, {says}", f"{says.rstrip('.!')}, {day}"):
        with_day = understand(dated, project)
        if with_day.question is not None and with_day.question.about == "day":
            continue  # “…, 10.03.” behind a figure can be one more figure.
        assert _facts(with_day) == _facts(plain), dated
        assert with_day.verdict == plain.verdict, dated
        assert with_day.facts.when is not None
        assert (with_day.facts.when.month, with_day.facts.when.day) == (3, 10)


@pytest.mark.parametrize(
    ("line", "day"),
    [
        ("12.11.", date(2026, 11, 12)),
        ("12 nov 18:00", date(2026, 11, 12)),
        ("yesterday", date(2026, 11, 28)),
        ("on 12.11.:", date(2026, 11, 12)),
        ("12.11. base", None),
        ("41,8", None),
        ("12.11", None),
        ("tomorrow", None),
        ("5/4/2026", None),
    ],
)
def test_a_line_that_is_nothing_but_a_day(line: str, day: date | None) -> None:
    found = day_alone(line, WORDS)
    assert (found.at.date() if found else None) == day
    assert found is None or found.at <= NOW + timedelta(0)


def test_a_question_of_a_past_day_is_of_that_day() -> None:
    line = told("20.11. is the base flat?")
    assert (line.kind, day_of(line)) == (Kind.QUESTION, "20.11. 12:00")
