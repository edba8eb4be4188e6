"""Numbers and times in words: two hours, an hour and a quarter."""

from __future__ import annotations

import itertools
import re
from dataclasses import replace

from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.joined import join_where, join_words
from logbook.plain.words.lexicon import NO_TAGS, lexicon
from logbook.units import find_unit, is_unit

_SHARES = {"half": 30, "quarter": 15, "three quarters": 45}
_SHARE = r"(?:an? )?(?P<share>half|quarter|three quarters)"
_SPELLED_TIMES = tuple(
    re.compile(pattern)
    for pattern in (
        rf"(?:an? |(?P<whole>\w+) )?hours? and {_SHARE}(?! past)\b",
        rf"(?P<whole>\w+) and {_SHARE} hours?\b",
        rf"{_SHARE}(?: of)?(?: an)? hour\b",
    )
)


_MOST_WORDS_OF_A_TIME = 7


def _spelled_time(words: list[Word], at: int, line: str) -> tuple[int, Word] | None:
    """Read “an hour and a quarter”, “two and a half hours” as one duration."""
    if words[at].name is not None:
        return None
    row = words[at : at + _MOST_WORDS_OF_A_TIME]
    said = [" ".join(line[word.start : word.end].lower().split()) for word in row]
    text = " ".join(said)
    for pattern in _SPELLED_TIMES:
        match = pattern.match(text)
        minutes = _minutes_spelled(match) if match else None
        if match is None or minutes is None:
            continue
        ends = itertools.accumulate(len(word) + 1 for word in said)
        size = next((n for n, end in enumerate(ends, 1) if end == match.end() + 1), 0)
        if size > 1 or (size and "and" in match[0]):
            halves = minutes % 30 == 0
            joined = join_words(
                line, row[:size], sort=Sort.NUMBER, tags=NO_TAGS, whole=None
            )
            amount = f"{minutes / 60:g}" if halves else str(minutes)
            unit = "h" if halves else "min"
            return size, replace(joined, amounts=(amount,), unit=unit)
    return None


def _minutes_spelled(match: re.Match[str]) -> int | None:
    told = match.groupdict()
    whole, share = told.get("whole"), _SHARES[match["share"]]
    if "whole" not in told:
        return share
    if whole in (None, "a", "an"):
        return 60 + share
    hours = int(whole) if whole.isdecimal() else lexicon().numbers.get(whole, 0)
    return hours * 60 + share if hours else None


def join_spelled(words: list[Word], line: str) -> list[Word]:
    """Read numbers and durations that are spelled out."""

    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        word = words[at]
        if spelled := _spelled_time(words, at, line):
            return spelled
        if word.tags & {"time:an_hour", "time:half_hour"}:
            half = "time:half_hour" in word.tags
            amount = "0.5" if half else "1"
            return 1, replace(word, sort=Sort.NUMBER, amounts=(amount,), unit="h")
        following = words[at + 1] if at + 1 < len(words) else None
        if (
            "time:half_a" in word.tags
            and following is not None
            and is_unit(following.text)
        ):
            unit = find_unit(following.text).symbol
            joined = join_words(line, words[at : at + 2], sort=Sort.NUMBER, unit=unit)
            return 2, replace(joined, amounts=("0.5",), tags=NO_TAGS)
        if "number" not in word.tags or following is None:
            return None
        number = lexicon_number(word.low)
        unit = next(
            (
                unit
                for unit in ("h", "min", "d")
                if f"time:unit_{unit}" in following.tags
            ),
            "",
        )
        if unit:
            joined = join_words(line, words[at : at + 2], sort=Sort.NUMBER, unit=unit)
            return 2, replace(joined, amounts=(str(number),), tags=NO_TAGS)
        return 1, replace(word, sort=Sort.ORDINAL, whole=number, text=word.text)

    return join_where(words, join)


def lexicon_number(word: str, language: str = "en") -> int:
    """Give the number a word spells."""
    return lexicon(language).numbers[word]
