"""Hours of the day as they are spoken of: 16:00, half past three, around four."""

from __future__ import annotations

import re
from datetime import time

from logbook.plain.when.clock_spans import is_done, is_hour
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.lexicon import NO_TAGS
from logbook.plain.words.sentence import Sentence


def spoken_today(sentence: Sentence) -> tuple[tuple[str, ...], tuple[Word, ...]]:
    """Give the hours that are past of “at half past eight”, told without a day."""
    now = sentence.vocabulary.now
    hours, words = _leading_hour(sentence, 0)
    if words and sentence.tags(1) == NO_TAGS and _is_told(sentence, 1):
        past = tuple(hour for hour in hours if hour <= f"{now:%H:%M}")
        return past or hours[:1], words
    for at in range(1, len(sentence.words) - 2):
        spoken = _spoken_hour(sentence, at)
        if spoken is None or sentence.words[at - 1].low not in _HOUR_LEADS:
            continue
        hours, words = spoken
        past = tuple(hour for hour in hours if hour <= f"{now:%H:%M}")
        return (past, words) if past else ((), ())
    return (), ()


_HALVES = {
    "time:last_night": (17, 24), "time:night": (17, 24), "time:tonight": (17, 24),
    "time:evening": (16, 24), "time:afternoon": (12, 20), "time:morning": (4, 13),
}  # fmt: skip
"""Between which hours a part of the day lies, as it is spoken of."""


def in_part_of_day(sentence: Sentence, hours: tuple[str, ...]) -> tuple[str, ...]:
    """Leave the hours that the part of the day told beside them allows."""
    for tag, (first, last) in _HALVES.items():
        if sentence.has(tag):
            near = tuple(hour for hour in hours if first <= int(hour[:2]) < last)
            return near or hours
    return hours


_HOUR_LEADS = frozenset({"at", "@", "around", "about", "ca", "circa", "roughly"})


def bare_hour(
    sentence: Sentence, start: int, size: int
) -> tuple[tuple[str, ...], tuple[Word, ...]]:
    """Give the hours that “around four” beside a day can be, the likelier first."""
    leading = _leading_hour(sentence, start + size)
    if leading[1]:
        return leading
    near = range(max(0, start - 4), min(len(sentence.words) - 1, start + size + 3))
    for at in near:
        if spoken := _spoken_hour(sentence, at):
            return spoken
    for at in near:
        word, number = sentence.words[at], sentence.words[at + 1]
        whole = number.whole or sentence.lexicon.numbers.get(number.low, 0)
        led = word.low in _HOUR_LEADS
        if not led or not whole or number.unit or number.has_decimals:
            continue
        following = sentence.word(at + 2)
        ended = following is None or (
            following.low not in ("and", "to")
            and following.sort is not Sort.NUMBER
            and not following.tags & {"structure", "place"}  # At one corner.
        )
        if not ended or not 0 < whole < 24:
            continue
        first = at - 1 if at and sentence.words[at - 1].low in _HOUR_LEADS else at
        words = tuple(sentence.words[first : at + 2])
        if whole > 12:
            return (f"{whole:02d}:00",), words
        return _likelier_first([whole % 12 * 60, whole % 12 * 60 + 720]), words
    return (), ()


def _leading_hour(
    sentence: Sentence, at: int
) -> tuple[tuple[str, ...], tuple[Word, ...]]:
    """Give the hours of a bare number that stands for one: yesterday 9 glued it."""
    word, following = sentence.word(at), sentence.word(at + 1)
    if word is None or following is None or not is_hour(word):
        return (), ()
    if not (_is_told(sentence, at + 1) or is_done(following)):
        return (), ()
    whole = word.whole or 0
    if whole > 12:
        return (f"{whole % 24:02d}:00",), (word,)
    return _likelier_first([whole % 12 * 60, whole % 12 * 60 + 720]), (word,)


def _is_told(sentence: Sentence, at: int) -> bool:
    """Tell whether a word is already taken for the end of a span of hours."""
    word = sentence.word(at)
    return word is not None and word.sort is Sort.WHEN


def hour_within(day: Word) -> time | None:
    """Give the hour that a day in ISO 8601 form has with it: 2026-11-03T18:40."""
    if day.sort is not Sort.DATE or ":" not in day.low:
        return None
    try:
        return time.fromisoformat(day.low[len("2026-11-03T") :])
    except ValueError:
        return None


_QUARTERS = {"half": 30, "quarter": 15}


def _spoken_hour(
    sentence: Sentence, at: int
) -> tuple[tuple[str, ...], tuple[Word, ...]] | None:
    """Give the hours that “half past three” can be, the likelier first."""
    told, joint, last = (sentence.word(at + step) for step in range(3))
    if told is None or joint is None or last is None:
        return None
    minutes = _QUARTERS.get(told.low) or sentence.lexicon.numbers.get(told.low)
    minutes = minutes or (told.whole if told.low.isdigit() else None)
    hour = sentence.lexicon.numbers.get(last.low) or last.whole
    if joint.low not in ("past", "to") or not minutes or not hour or last.unit:
        return None
    if joint.low == "to" and told.low not in _QUARTERS and not told.low.isalpha():
        return None
    if not (minutes < 60 and 0 < hour <= 12):
        return None
    start = (hour % 12) * 60 + (minutes if joint.low == "past" else -minutes)
    first = at - 1 if at and sentence.words[at - 1].low in _HOUR_LEADS else at
    return _likelier_first([start % 720, start % 720 + 720]), tuple(
        sentence.words[first : at + 3]
    )


def _likelier_first(minutes: list[int]) -> tuple[str, ...]:
    ordered = sorted(minutes, key=lambda told: not _FIRST * 60 <= told < _LAST * 60)
    return tuple(f"{told // 60:02d}:{told % 60:02d}" for told in ordered)


_FIRST, _LAST = 7, 19
"""Between these hours most work at a bench is done (common practice, no source)."""


def clock_in(
    sentence: Sentence, after_day: int | None
) -> tuple[time | None, Word | None]:
    """Give the hour that a clock time tells, and its word."""
    for at in sentence.sorts(Sort.CLOCK):
        word = sentence.words[at]
        before = sentence.word(at - 1) if at else None
        led = before is not None and before.low in ("at", "@", "from", "around")
        ends = at in (0, len(sentence.words) - 1)
        near = after_day is not None and -2 <= at - after_day <= 1
        only = after_day is not None and len(sentence.sorts(Sort.CLOCK)) == 1
        alone = len(sentence.sorts(Sort.CLOCK)) == 1 and not _times(before)
        if led or ends or near or only or alone:
            return _read_clock(word.low), word
    return None, None


def _times(before: Word | None) -> bool:
    """Tell the 3:20 of “print time 3:20” from an hour of the day."""
    if before is None:
        return False
    spent = before.low in ("took", "takes", "for", "in", "time", "after", "ratio")
    return spent or bool(before.tags & {"measures:time"})


def _read_clock(text: str) -> time | None:
    match = re.match(r"(\d{1,2})(?::(\d\d))?\s*([ap]m)?", text)
    if not match:
        return None
    hour, minute = int(match[1]), int(match[2] or 0)
    if match[3] == "pm" and hour < 12:
        hour += 12
    if match[3] == "am" and hour == 12:
        hour = 0
    return time(hour, minute) if hour < 24 else None
