"""Days as they are written: 12.11., 12. nov., nov 12th, 12.11.26, and 16.30 behind one.

They are told from figures by their looks and by where they stand, before any word of
the line is read: “12.11. width 115,8” begins with a day, “width 12.11.” tells a size.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache

from logbook.plain.words.lexicon import lexicon

_D, _M = r"(?P<d>0?[1-9]|[12]\d|3[01])", r"(?P<m>0?[1-9]|1[0-2])"
_FREE, _ENDS = r"(?<![\w.,/-])", r"(?!\w|[.,/-]\d)"
_YEAR = r"(?P<y>(?:19|20)\d\d)"
MEASURE = r"(?:(?:mm|cm|m|in|kg|g|v|a|h|min|deg|rpm)\b|[°%\"])"
"""A unit behind a figure: that is no day then."""
_UNIT = rf"{MEASURE}|['x±]"
_HOUR = re.compile(
    r"(?i)(?P<before>,?\s(?:at\s|@\s?)?)(?P<h>[01]?\d|2[0-3])(?:\.|h)(?P<min>[0-5]\d)"
    rf"(?![\w.,:]*\d)(?!\s?(?:{_UNIT}))(?=\W|\Z)"
)
_NO_VERB = r"(?=\s*(?:[\d.,:;)]|\Z)|\s+(?:the|i|we)\b|\s+\w+ed\b)"
"""What follows the fifth month and not the verb: 2 may glued it, piece 2 may stay."""
_TO_THE_END = re.compile(
    r"(?i)[,;]?\s*(?:(?:at\s|@\s?)?\d\d?[:.h]\d\d)?\s*[.)\]]?\s*\Z"
)


class _Patterns:
    """How days are written, with the names of months and weekdays that are known."""

    def __init__(self, months: Mapping[str, int], weekdays: Iterable[str]) -> None:
        self.months = months
        month = rf"(?P<m>{'|'.join(months)})\b(?:(?<!may)|{_NO_VERB})(?:\.(?!\w))?"
        weekday = rf"(?:{'|'.join(weekdays)})\b\.?"
        year = rf"(?:,?\s{_YEAR}(?![\w.,/]*\d))?"
        self.anywhere = _compiled(
            rf"{_FREE}(?:\bthe\s)?{_D}(?:st|nd|rd|th|\.)?\s?(?:of\s)?\b{month}{year}",
            rf"\b{month}\s{_D}(?:st|nd|rd|th)?\b(?!\s?(?:{_UNIT})|[.,:/]\d){year}",
            rf"{_FREE}{_D}\.\s?{_M}\.\s?{_YEAR}{_ENDS}",
            rf"{_FREE}(?P<one>\d\d?)(?P<sign>[-/])(?P<other>\d\d?)(?P=sign){_YEAR}{_ENDS}",
        )
        self.placed = _compiled(
            rf"{_FREE}{_D}\.\s?{_M}\.(?P<y>\d\d)?(?=[\s,;:)\]]|\Z)",
            rf"{_FREE}(?P<one>\d\d?)/(?P<other>\d\d?)/(?P<y>\d\d)(?=[\s,;:)\]]|\Z)",
        )
        before = rf"(?:{weekday},?\s)?$"
        self.led, self.behind, self.spoken = _compiled(
            rf"(?:^\W*|\b(?:on|since|am|from)\s(?:the\s)?|[(\[]\s*){before}",
            rf"(?:(?:(?<!\d)|[^\W\d][\d.x]*)[,;]\s*|\s-\s+|,\d+[,;]?\s+|\d\s?{MEASURE}[,;]?\s+){before}",
            rf"(?:\b(?:yesterday|yday|today|{weekday})|\b\d\d?(?:st|nd|rd|th)|\bago"
            r"|\d\d\d\d-\d\d-\d\d)$",
        )


def _compiled(*patterns: str) -> tuple[re.Pattern[str], ...]:
    return tuple(re.compile(one, re.IGNORECASE) for one in patterns)


@cache
def _patterns() -> _Patterns:
    known = lexicon()
    return _Patterns(known.months, known.weekdays)


@dataclass(frozen=True, slots=True)
class Written:
    """A day, or the hour behind one, with its place in the line.

    `low` is the day in the form of ISO 8601, without its year where none was written
    (--11-12), or the hour (16:30). `asks` are the two days that one can be of which
    nobody can tell month and day apart.
    """

    start: int
    end: int
    low: str
    is_hour: bool = False
    asks: tuple[str, ...] = ()


def written_days(plain: str) -> list[Written]:
    """Find the days of a line with plain signs, and hours with a dot behind them."""
    if not any(sign.isdigit() for sign in plain):
        return []
    found: list[Written] = []
    for match in _matches(plain):
        if any(one.start < match.end() and match.start() < one.end for one in found):
            continue
        if (day := _day(match)) is not None:
            found.append(day)
    hours = [hour for at in _ends(plain, found) if (hour := _hour(plain, at))]
    apart = [
        hour
        for hour in hours
        if not any(day.start < hour.end and hour.start < day.end for day in found)
    ]
    return sorted([*found, *apart], key=lambda one: one.start)


def _matches(plain: str) -> Iterator[re.Match[str]]:
    known = _patterns()
    for pattern in known.anywhere:
        yield from pattern.finditer(plain)
    for pattern in known.placed:
        for match in pattern.finditer(plain):
            before, behind = plain[: match.start()], plain[match.end() :]
            last = known.behind.search(before) and _TO_THE_END.match(behind)
            if last or known.led.search(before):
                yield match


def _day(match: re.Match[str]) -> Written | None:
    told = match.groupdict()
    year = f"20{told['y']}" if len(told["y"] or "") == 2 else told["y"] or ""
    if told.get("one"):
        return _of_two(match, int(told["one"]), int(told["other"]), year)
    month = told["m"].casefold()
    number = int(month) if month.isdigit() else _patterns().months[month]
    return _written(match, int(told["d"]), number, year)


def _of_two(match: re.Match[str], one: int, other: int, year: str) -> Written | None:
    """Give a day of which month and day can change places: the first is the day."""
    first, second = _written(match, one, other, year), _written(match, other, one, year)
    if first is None or second is None or one == other:
        return first or second
    asks = tuple(
        f"{day} {date(int(year), month, day):%B} {year}"
        for day, month in ((one, other), (other, one))
    )
    return Written(first.start, first.end, first.low, asks=asks)


_LEAP = 2024


def _written(match: re.Match[str], day: int, month: int, year: str) -> Written | None:
    try:
        date(int(year or _LEAP), month, day)
    except ValueError:
        return None
    low = f"{year or '-'}-{month:02d}-{day:02d}"
    return Written(match.start(), match.end(), low)


def _ends(plain: str, days: list[Written]) -> list[int]:
    """Give where days end, whether written or told by a word: yesterday 16.30."""
    spoken = [
        match.start()
        for match in _HOUR.finditer(plain)
        if _patterns().spoken.search(plain[: match.start()])
    ]
    return [*(day.end for day in days), *spoken]


def _hour(plain: str, at: int) -> Written | None:
    match = _HOUR.match(plain, at)
    if match is None:
        return None
    start = match.end("before")
    return Written(start, match.end(), f"{int(match['h']):02d}:{match['min']}", True)
