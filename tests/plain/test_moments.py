"""When it happened, where an hour, a weekday or a second can be two things."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind
from logbook.plain.when.moments import find_due, find_moment
from logbook.plain.words.sentence import Sentence, read_sentence
from logbook.plain.words.vocabulary import Vocabulary

FRIDAY = datetime(2026, 11, 27, 11, 30, tzinfo=UTC)


def told(line: str) -> Sentence:
    return read_sentence(line, Vocabulary(now=FRIDAY))


@pytest.mark.parametrize(
    ("line", "hours"),
    [
        ("yesterday at half past three bent the base", ("15:30", "03:30")),
        ("quarter to nine yesterday sawed the bar", ("08:45", "20:45")),
        ("yesterday ten past four glued it", ("16:10", "04:10")),
        ("yesterday around four glued it", ("16:00", "04:00")),
        ("yesterday quarter past twelve glued it", ("12:15", "00:15")),
        ("yesterday 10 to 12 mm off the bar", ()),
    ],
)
def test_an_hour_without_its_half_of_the_day_can_be_two(
    line: str, hours: tuple[str, ...]
) -> None:
    found = find_moment(told(line))
    assert found is not None
    assert found.hours == hours


@pytest.mark.parametrize(
    ("line", "hour"),
    [
        ("2026-10-30 19:00 decided to make a wall cabinet", "30 19:00:00"),
        ("2026-11-03T18:40 the glue split", "03 18:40:00"),
        ("2026-11-03 18:40:15 the glue split", "03 18:40:15"),
        ("2026-11-03T18:40:15 the glue split", "03 18:40:15"),
        ("2026-11-03, 9:05 sawed the bar", "03 09:05:00"),
    ],
)
def test_a_date_and_hour_in_the_form_of_iso_8601_keep_the_hour(
    line: str, hour: str
) -> None:
    found = find_moment(told(line))
    assert found is not None
    assert (f"{found.at:%d %H:%M:%S}", found.exact, found.hours) == (hour, True, ())


def test_the_hour_of_a_dated_line_is_no_part_of_what_it_tells() -> None:
    words = Vocabulary(now=FRIDAY, parts={"bar": ()})
    line = understand("2026-11-03T18:40 bar length 120.4", words)
    assert [str(one.value) for one in line.facts.readings] == ["120.4 mm"]
    assert not line.doubts


@pytest.mark.parametrize(
    ("line", "day"),
    [
        ("on monday the base cracked", date(2026, 11, 23)),
        ("monday sanded the bed", date(2026, 11, 23)),
        ("last monday opening 178.6", date(2026, 11, 23)),
        ("coat of linseed oil on monday", None),
        ("order M3 nuts next friday", None),
    ],
)
def test_a_weekday_is_a_past_one_only_where_something_is_told_as_done(
    line: str, day: date | None
) -> None:
    found = find_moment(told(line))
    assert (found.at.date() if found else None) == day


@pytest.mark.parametrize(
    "line",
    ["bought 10 M4x20, coming monday", "screws will be here on monday"],
)
def test_what_is_still_to_come_is_due_and_not_dated_back(line: str) -> None:
    sentence = told(line)
    due = find_due(sentence)
    assert due is not None
    assert due[0] == date(2026, 11, 30)
    assert find_moment(sentence) is None


def test_the_second_of_some_things_is_no_day() -> None:
    words = Vocabulary(now=datetime(2026, 11, 27, 12, tzinfo=UTC), parts={"clip": ()})
    when = {
        line: understand(line, words).facts.when
        for line in (
            "clip snapped at the tooth on the 2nd belt",
            "on the 2nd, clip snapped",
            "clip snapped on the 2nd",
        )
    }
    days = [moment.day if moment else 0 for moment in when.values()]
    assert days == [0, 2, 2]


@pytest.mark.parametrize(
    ("line", "at"),
    [
        ("friday 9:30 planed the bed", "27 09:30"),
        ("on friday at 9:30 planed the bed", "27 09:30"),
        ("planed the bed friday 9:30", "27 09:30"),
        ("friday half past nine planed the bed", "27 09:30"),
        ("last friday 9:30 planed the bed", "20 09:30"),
        ("thursday 9:30 planed the bed", "26 09:30"),
    ],
)
def test_the_weekday_of_today_is_today_where_its_hour_has_passed(
    line: str, at: str
) -> None:
    found = find_moment(told(line))
    assert found is not None
    assert (f"{found.at:%d %H:%M}", found.future, found.hours) == (at, False, ())


@pytest.mark.parametrize(
    "line", ["friday 16:00 planed the bed", "planed the bed friday 16:00"]
)
def test_the_weekday_of_today_with_an_hour_to_come_is_asked_about(line: str) -> None:
    understood = understand(line, Vocabulary(now=FRIDAY))
    assert understood.question is not None
    assert "lies ahead: when was it?" in understood.question.question


@pytest.mark.parametrize(
    ("says", "due"),
    [
        ("ordered 20 lids from the print service, in 10 days", "2026-12-07"),
        ("ordered 4 brackets, delivery in 3 days", "2026-11-30"),
    ],
)
def test_what_is_ordered_for_so_many_days_ahead_is_due_then(
    says: str, due: str
) -> None:
    line = understand(says, Vocabulary(now=FRIDAY))
    assert line.kind is Kind.ORDER
    assert line.facts.due is not None
    assert line.facts.due.isoformat() == due
    assert line.facts.when is None
