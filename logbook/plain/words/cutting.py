"""A typed line cut into words and figures.

A figure is told apart before anything is understood: a quantity with its unit,
a thread (M3x8), a sheet gauge, a size (20 × 10), a date, a clock time, a code
(v2, H7). Only `number` and `size` figures can ever become readings.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import replace

from logbook.errors import BadInput, NeedsAnswer
from logbook.plain.words.figured_names import NameWords
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.lexicon import UnitWords
from logbook.plain.words.typed_units import add_unit
from logbook.plain.words.written_days import written_days
from logbook.quantity import parse_quantity
from logbook.units import find_unit

_SAME_LENGTH = str.maketrans(
    {
        "\u2019": "'", "\u2018": "'", "\u2032": "'", "\u2033": '"', "\u201d": '"',
        "\u201c": '"', "\u00d7": "x", "\u2212": "-", "\u2013": "-", "\u2014": "-",
        "\u00a0": " ", "\u202f": " ", "\u2009": " ", "\u2044": "/", "\t": " ",
        "\u2022": " ",
    }
)  # fmt: skip


_VULGAR = "½¼¾⅛⅜⅝⅞⅓⅔"
_FRACTION = rf"(?:\d+[ -])?\d+/\d+(?![\d/])|\d*\s?[{_VULGAR}]"
_DECIMAL = r"\d+\.\d+(?=,\d+\.\d)|\d+(?:[.,]\d+)*|[.,]\d+"
_NUM = rf"(?:{_FRACTION}|{_DECIMAL})"
_PLAIN = r"(?:[1-9]\d+|\d+\.\d+)"
"""As one of two sides: 119.7 by 79.8, 600 by 400; 4 by 6 are holes as well."""
_LENGTH_UNIT = r"(?:\s*(?:mm|cm|in(?!\s+[a-z])|\")(?![a-z]))?"
_TWO_LIMITS = (
    rf"(?:(?<=\d)|(?<=[\dmn\"]\ ))(?<![\s:]0\ )"
    rf"(?:[+-]\s?(?:{_DECIMAL})\s*/\s*(?:[+-]?\s?0|[+-]\s?(?:{_DECIMAL}))"
    rf"|\+\s?(?:{_DECIMAL})\s+(?:-\s?(?:{_DECIMAL})|0)"
    rf"|-\s?(?:{_DECIMAL})\s+(?:\+\s?(?:{_DECIMAL})|0)"
    rf"|0\s*/?\s*[+-]\s?(?:{_DECIMAL}))(?![\w.,]*\d)"
)
"""Both limits behind a size, as they stand on a drawing: 8 +0.1/0, 36 +0.2 -0.1."""
_FIGURES = re.compile(
    rf"""
      (?P<file>https?://\S+|www\.\S+
        |[\w./-]+\.(?:dxf|stl|step|stp|svg|pdf|3mf|jpe?g|png)\b)
    | (?P<date>\d{{4}}-\d\d-\d\d(?:T\d\d:\d\d(?::\d\d)?|\ \d\d:\d\d:\d\d)?(?!\d)
)
    | (?P<clock>(?<![\d.,:])(?:[01]?\d|2[0-3]):[0-5]\d(?!:?\d)(?:\s?[ap]m\b)?
        |(?<![\d.,:])(?:1[0-2]|[1-9])\s?[ap]m\b)
    | (?P<hours>(?<![\w.,])(?<![whldt]\ )\d{{1,2}}\s?h\s?[0-5]\d(?:\s?min)?\b
        (?![.,]\d))
    | (?P<thread>(?<![\w.])M\d+(?:\.\d+)?(?:\s*[x*]\s*\d+(?:[.,]\d+)?)*(?:mm)?(?![\w])
        |(?<!\w)\#\d{{1,2}}-\d\d(?!\d)(?:\s*x\s*{_NUM}(?:\s*in\b|\s*")?)?
        |(?<![\w./])\d/\d{{1,2}}-\d\d(?!\d)(?:\s*x\s*{_NUM}(?:\s*in\b|\s*")?)?
        |(?<!\w)[GR]\d/\d\b)
    | (?P<gauge>(?<![\w.])\d{{1,2}}\s*(?:ga|gauge|gage)\b)
    | (?P<feet>(?<![\w.])\d+\s*(?:'|ft)\s*-?\s*{_NUM}\s*(?:"|in\b))
    | (?P<tolerance>(?:±|\+/?-)\s*{_NUM}|{_TWO_LIMITS})
    | (?P<times>(?<!\w)x\s?\d+(?![\w.,]*\d)
        |(?<![\w.,])\d+\s?x(?=\s*(?:[^\W\dx]|\#|$))(?!\w))
    | (?P<size>(?<![\w.,])(?:{_NUM}){_LENGTH_UNIT}
        (?:(?:\s*[x*]\s*|(?<=["m])\ by\ )(?:{_NUM}){_LENGTH_UNIT})+(?![\w])
        |(?<![\w.,])(?<!(?:out|off)\ )(?<!by\ )(?:{_PLAIN}(?:\ by\ {_PLAIN}){{1,2}})
          (?![\w]|[.,]\d)(?:\s*mm\b)?)
    | (?P<price>[€$£]\s?\d+(?:[.,]\d+)?)
    | (?P<ordinal>(?<![\w.])\d{{1,2}}(?:st|nd|rd|th)\b)
    | (?P<code>(?<![\w])[^\W\d_]+\d[\w-]*(?![.,]?\d))
    | (?P<number>(?<![\w.,])(?:[-+](?=[\d.]))?(?:{_NUM})|(?<=[whldt])(?:{_DECIMAL}))
    | (?P<word>[^\W\d]+(?:['-][^\W\d]+)*'?)
    | (?P<mark>\d+|\S)
    """,
    re.VERBOSE | re.IGNORECASE,
)


_WRONG = re.compile(
    r"(?<![\w.,:])(?:(?:2[4-9]|[3-9]\d):\d\d(?![:\d])|\d{1,2}:[6-9]\d(?![:\d])"
    r"|\d+(?:[.,]\d+){2,}|\d+[.,]{2,}\d+"
    r"|(?=[\d.,]*[oOlI])[\doOlI]*\d?[oOlI]?[.,][\doOlI]+)(?![\w]*[.,]?\d)"
)


def wrong_number(line: str) -> str:
    """Give what was meant for a number and is none: 12.3.4, 4o.1; else nothing."""
    plain = plain_signs(line)
    days = written_days(plain)
    for match in _WRONG.finditer(plain):
        found = match.group()
        of_day = any(one.start <= match.start() < one.end for one in days)
        if of_day or not any(sign.isdigit() for sign in found):
            continue
        try:
            parse_quantity(found, "mm")
        except NeedsAnswer:
            continue
        except BadInput:
            return found
    return ""


_RANGED = re.compile(r"(?<=\d[.,]\d|[.,]\d\d|\d\d\d)(\.{2,3})(?=\d+[.,]\d)")
"""The dots of 6.34..6.37, from the smallest to the largest."""


def _apart(dots: re.Match[str]) -> str:
    return "…".ljust(len(dots[0]))


def plain_signs(line: str) -> str:
    """Give the line with typographic signs as plain ones, place for place."""
    return line.translate(_SAME_LENGTH)


def cut(
    line: str,
    units: UnitWords,
    opened: Callable[[str], str] = str,
    named: Callable[[str], Iterable[NameWords]] = lambda _: (),
) -> list[Word]:
    """Cut a line into words and figures.

    `opened` gives the line, place for place, with the hyphens of known names
    as blanks: bar-1 is a piece and not minus one. `named` gives the words of names
    that have figures in them, which are no figures of the line.
    """
    plain = _RANGED.sub(_apart, opened(plain_signs(line)))
    words: list[Word] = []
    told = iter(_told_whole(plain, named))
    whole = next(told, None)
    at = 0
    while match := _FIGURES.search(plain, at):
        if whole is not None and match.end() > whole.words[0].start:
            words += [
                replace(one, text=line[one.start : one.end]) for one in whole.words
            ]
            at, whole = whole.end, next(told, None)
            continue
        word = _word(line, plain, match, units)
        words.append(word)
        at = word.end
    return words


def _told_whole(
    plain: str, named: Callable[[str], Iterable[NameWords]]
) -> list[NameWords]:
    """Give what is no figure by itself, in its order: names with figures, and days."""
    found = [*named(plain)]
    names = [(name.words[0].start, name.end) for name in found]
    for one in written_days(plain):
        if any(one.start < end and start < one.end for start, end in names):
            continue
        sort = Sort.CLOCK if one.is_hour else Sort.DATE
        word = Word("", one.low, one.start, one.end, sort, asks=one.asks)
        found.append(NameWords((word,), one.end))
    return sorted(found, key=lambda told: told.words[0].start)


def _word(
    line: str,
    plain: str,
    match: re.Match[str],
    units: UnitWords,
) -> Word:
    group = match.lastgroup or "mark"
    start, end = match.span()
    text = match.group()
    maker = _MAKERS.get(group)
    if maker is None:
        return Word(line[start:end], text.lower(), start, end, _SORTS[group])
    word = maker(text, start, end)
    if group in ("number", "size"):
        add_unit(word, plain, units)
    word.text = line[word.start : word.end]
    return word


def _number(text: str, start: int, end: int) -> Word:
    amount = text.strip()
    whole = int(amount) if amount.isdecimal() and len(amount) < 10 else None
    word = Word(text, text.lower(), start, end, Sort.NUMBER, amounts=(amount,))
    word.whole = whole
    try:
        parse_quantity(amount, "in")
    except NeedsAnswer as two_ways:
        word.asks = two_ways.choices
    except BadInput:
        word.sort = Sort.CODE
    return word


def _size(text: str, start: int, end: int) -> Word:
    amounts = tuple(re.findall(_NUM, text))
    found = re.search(r"(mm|cm|in|\")", text)
    word = Word(text, text.lower(), start, end, Sort.SIZE, amounts=amounts)
    if found:
        word.unit = find_unit(found.group()).symbol
    return word


def _hours(text: str, start: int, end: int) -> Word:
    whole, _, part = text.lower().removesuffix("min").partition("h")
    minutes = int(whole) * 60 + int(part)
    word = Word(text, text, start, end, Sort.NUMBER, amounts=(str(minutes),))
    word.unit = "min"
    return word


def _feet(text: str, start: int, end: int) -> Word:
    word = Word(text, text, start, end, Sort.NUMBER, amounts=(text,))
    word.unit = "in"
    return word


def _price(text: str, start: int, end: int) -> Word:
    word = Word(text, text, start, end, Sort.NUMBER, amounts=(text[1:].strip(),))
    word.unit = find_unit(text[0]).symbol
    return word


def _tolerance(text: str, start: int, end: int) -> Word:
    amounts = tuple(re.findall(_NUM, text))
    return Word(text, text, start, end, Sort.TOLERANCE, amounts=amounts)


def _counted(text: str, start: int, end: int) -> Word:
    digits = "".join(re.findall(r"\d", text))
    sort = Sort.TIMES if "x" in text.lower() else Sort.ORDINAL
    return Word(text, text.lower(), start, end, sort, whole=int(digits[:9]))


_MAKERS = {
    "number": _number,
    "size": _size,
    "hours": _hours,
    "feet": _feet,
    "price": _price,
    "tolerance": _tolerance,
    "times": _counted,
    "ordinal": _counted,
}


_SORTS = {
    "file": Sort.FILE,
    "date": Sort.DATE,
    "clock": Sort.CLOCK,
    "thread": Sort.THREAD,
    "gauge": Sort.GAUGE,
    "code": Sort.CODE,
    "word": Sort.WORD,
    "mark": Sort.MARK,
}
