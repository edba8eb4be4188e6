"""Days as they are spoken of: yesterday, last monday, on the 14th, 2026-03-14."""

from __future__ import annotations

import re
from datetime import date, timedelta

from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence

_AFTER_A_DAY = frozenset(
    {
        "at",
        "in",
        "from",
        "by",
        "around",
        "i",
        "we",
        "it",
        "the",
        "a",
        "and",
        "to",
        "put",
    }
)


def day_at(sentence: Sentence, at: int, *, ahead: bool) -> tuple[date | None, int]:
    """Give the day told at a place and how many words tell it."""
    word = sentence.word(at)
    if word is None or word.sort is Sort.WHEN:
        return None, 0
    today = sentence.vocabulary.now.date()
    for tag, days in (
        ("time:today", 0), ("time:yesterday", -1), ("time:tomorrow", 1),
        ("time:before_yesterday", -2), ("time:last_week", -7),
    ):  # fmt: skip
        if tag in word.tags:
            return today + timedelta(days), 1
    if "time:last_night" in word.tags:
        return today - timedelta(1), 1
    if word.sort is Sort.DATE:
        return _written(word.low, today, ahead=ahead), 1
    if (so_long := _days_ago(sentence, at)) is not None:
        return today - timedelta(so_long[0]), so_long[1]
    led = _led(word)
    if led or ahead:
        for skip in (0, 1, 2) if led else (0,):
            told, size = named_day(sentence, at + skip, today, ahead=ahead)
            if told is not None:
                return told, size + skip
        return None, 0
    told, size = named_day(sentence, at, today, ahead=False)
    full = told is not None and len(word.low) > 5
    return (told, size) if full else (None, 0)


UNDERWAY = frozenset({"on its way", "on their way", "on the way"})
"""What is so, comes; the day told with it lies ahead."""
_DAYS_IN = {"day": 1, "week": 7, "fortnight": 14}


def so_long_ahead(
    sentence: Sentence, *, at_the_end: bool
) -> tuple[date, tuple[Word, ...]] | None:
    """Give the day that lies so long ahead: due in three weeks, back in a fortnight.

    A time that ends the line is one too, where it is told `at_the_end` of what went to
    somebody else: 140.00, four weeks.
    """
    words, last = sentence.words, len(sentence.words) - 1
    for at, word in enumerate(words):
        days = _DAYS_IN.get(word.low.removesuffix("s"), 0)
        first = at - 1 if days else at  # 10 days is one word, three weeks are two.
        many = words[first].whole if days and first > 0 else None
        if days and first > 0 and "article" in words[first].tags:
            many = 1
        if word.dimension == "time" and word.unit == "d" and word.whole is not None:
            days, many = 1, word.whole
        if not days or many is None or first < 1:
            continue
        led = words[first - 1].low == "in"
        due = led and first > 1 and "due" in words[first - 2].tags
        ends = at_the_end and at == last and words[first - 1].sort is Sort.MARK
        if due or ends or (led and at_the_end):
            start = first - 2 if due else first - 1 if led else first
            today = sentence.vocabulary.now.date()
            return today + timedelta(days * many), tuple(words[start : at + 1])
    return None


def _led(word: Word) -> bool:
    return bool(word.tags & {"time:on", "time:last", "time:next"})


def _days_ago(sentence: Sentence, at: int) -> tuple[int, int] | None:
    """Give how many days ago it was, and how many words tell it: two weeks ago."""
    word, following = sentence.words[at], sentence.word(at + 1)
    if following is None:
        return None
    if "time:ago" in following.tags and word.unit == "d":
        told = int(word.quantities("d")[0].value)
        return (told, 2) if told < _LONG_AGO else None
    days = _DAYS_IN.get(following.low.removesuffix("s"), 0)
    many = 1 if "article" in word.tags else word.whole
    many = many or sentence.lexicon.numbers.get(word.low)
    if not days or not many or "time:ago" not in sentence.tags(at + 2):
        return None
    return (many * days, 3) if many * days < _LONG_AGO else None


_LONG_AGO = 3660
"""So many days ago nobody counts them."""


def _written(text: str, today: date, *, ahead: bool) -> date | None:
    """Give a day written with its year, or without: then the last one gone by."""
    *years, month, day = [int(number) for number in re.findall(r"\d+", text)[:3]]
    try:
        if years:
            return date(years[0], month, day)
        return _in_year(day, month, today, ahead=ahead)
    except ValueError:
        return None


def named_day(
    sentence: Sentence, at: int, today: date, *, ahead: bool
) -> tuple[date | None, int]:
    """Give the day that a weekday, a written day or an ordinal tells."""
    word = sentence.word(at)
    if word is None or word.sort is Sort.WHEN:
        return None, 0
    if word.sort is Sort.DATE:
        return _written(word.low, today, ahead=ahead), 1
    known = sentence.lexicon
    before = sentence.word(at - 1) if at else None
    any_such = before is not None and before.low in ("a", "every", "each")
    if word.low in known.weekdays and not word.name and not any_such:
        if not ahead and not _is_past(sentence, at):
            return None, 0
        return _weekday(known.weekdays[word.low], today, ahead=ahead), 1
    number = word.whole
    if number and word.sort is Sort.ORDINAL and word.low[:1].isdigit():
        if _counts_a_thing(sentence, at):
            return None, 0
        return _in_month(number, today, ahead=ahead), 1
    return None, 0


def _counts_a_thing(sentence: Sentence, at: int) -> bool:
    """Tell “on the 2nd belt” from “on the 2nd sawed the bar” and “on the 2nd, …”."""
    following = sentence.word(at + 1)
    if following is None or not following.low[:1].isalpha():
        return False
    done = any(tag.endswith(":past") for tag in following.tags)
    plain = following.sort not in (Sort.NUMBER, Sort.WHEN, Sort.DATE)
    return plain and not done and following.low not in _AFTER_A_DAY


def _is_past(sentence: Sentence, at: int) -> bool:
    """Tell whether a weekday is one that was: “last”, or something is told as done."""
    before = sentence.word(at - 1) if at else None
    if before is not None and before.tags & {"time:last", "time:next"}:
        return "time:last" in before.tags
    if any(tag.endswith(":past") for word in sentence.words for tag in word.tags):
        return True
    leads = at == 0 or (at == 1 and sentence.words[0].low == "on")
    return leads and not _is_plan(sentence, at + 1)


_PLANS = frozenset(
    {"todo", "decide", "order_wish", "planned", "imperative_use", "question", "due",
     "hypothetical", "outside_work"}
)  # fmt: skip


def _is_plan(sentence: Sentence, at: int) -> bool:
    """Tell whether a line that a weekday begins tells what will be."""
    first = sentence.tags(at + 1 if sentence.tags(at) & {"filler"} else at)
    ahead = any(tag.endswith((":base", ":ing")) for tag in first)
    return ahead or sentence.has(*_PLANS) or at >= len(sentence.words)


def _weekday(weekday: int, today: date, *, ahead: bool) -> date:
    if ahead:
        return today + timedelta((weekday - today.weekday() - 1) % 7 + 1)
    return today - timedelta((today.weekday() - weekday - 1) % 7 + 1)


def gone_by(day: int, month: int, today: date) -> date | None:
    """Give the last such day of a year up to today; None where there is none."""
    return _in_year(day, month, today, ahead=False)


def _in_year(day: int, month: int, today: date, *, ahead: bool) -> date | None:
    for year in (today.year, today.year + (1 if ahead else -1)):
        try:
            told = date(year, month, day)
        except ValueError:
            continue
        if told == today or (told > today) == ahead:
            return told
    return None


def _in_month(day: int, today: date, *, ahead: bool) -> date | None:
    month, year = today.month, today.year
    for _ in range(3):
        try:
            told = date(year, month, day)
        except ValueError:
            told = None
        if told is not None and (told == today or (told > today) == ahead):
            return told
        month += 1 if ahead else -1
        if month in (0, 13):
            month, year = (12, year - 1) if month == 0 else (1, year + 1)
    return None
