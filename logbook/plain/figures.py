"""A typed line cut into words and figures, each with its place in the line.

A figure is told apart before anything is understood: a quantity with its unit,
a thread (M3x8), a sheet gauge, a size (20 × 10), a date, a clock time, a code
(v2, H7). Only `number` and `size` figures can ever become readings.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from logbook.errors import BadInput, NeedsAnswer
from logbook.plain.lexicon import NO_TAGS, UnitWords
from logbook.plain.vocabulary import Name
from logbook.quantity import Quantity, parse_quantity
from logbook.units import UNITS, find_unit


class Sort(StrEnum):
    """What a word of the line is by its looks."""

    WORD = "word"
    NUMBER = "number"
    SIZE = "size"
    THREAD = "thread"
    GAUGE = "gauge"
    DATE = "date"
    CLOCK = "clock"
    ORDINAL = "ordinal"
    TOLERANCE = "tolerance"
    TIMES = "times"
    CODE = "code"
    LABEL = "label"
    COUNT = "count"
    FILE = "file"
    WHEN = "when"
    MARK = "mark"


@dataclass(slots=True)
class Word:
    """A word, set phrase or figure of the line.

    `amounts` are the numbers of a figure as typed, `unit` its unit when one
    was typed; `asks` are the two meanings of an ambiguous number.
    """

    text: str
    low: str
    start: int
    end: int
    sort: Sort
    tags: frozenset[str] = NO_TAGS
    name: Name | None = None
    amounts: tuple[str, ...] = ()
    unit: str = ""
    whole: int | None = None
    asks: tuple[str, ...] = ()
    corrected: bool = False

    def quantities(self, unit: str) -> tuple[Quantity, ...]:
        """Read the figure's numbers, with `unit` where none was typed."""
        typed = self.unit or unit
        found = []
        for amount in self.amounts:
            try:
                read = self._read(amount, typed)
            except BadInput:
                continue
            if len(self.amounts) == 1 and self.unit:
                text = " ".join(self.text.split())
                if _reads_back(text, read):
                    read = Quantity(text, read.value, read.unit, read.step)
            found.append(read)
        return tuple(found)

    def _read(self, amount: str, unit: str) -> Quantity:
        """Read one amount; of two meanings the first stands until it is asked."""
        try:
            return parse_quantity(amount, unit)
        except NeedsAnswer as two_ways:
            self.asks = two_ways.choices
            return parse_quantity(two_ways.choices[0], unit)

    @property
    def dimension(self) -> str:
        """What the typed unit measures; empty where none was typed."""
        return UNITS[self.unit].dimension if self.unit else ""

    @property
    def has_decimals(self) -> bool:
        """Whether the figure was typed with a decimal mark or as a fraction."""
        return any(mark in amount for amount in self.amounts for mark in ".,/")


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
_LENGTH_UNIT = r"(?:\s*(?:mm|cm|in(?!\s+[a-z])|\")(?![a-z]))?"
_FIGURES = re.compile(
    rf"""
      (?P<file>https?://\S+|www\.\S+
        |[\w./-]+\.(?:dxf|stl|step|stp|svg|pdf|3mf|jpe?g|png)\b)
    | (?P<date>\d{{4}}-\d\d-\d\d(?:[T\ ]\d\d:\d\d(?::\d\d)?)?(?!\d)
        |\d{{1,2}}\.\d{{1,2}}\.\d{{4}}(?!\d))
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
    | (?P<tolerance>(?:±|\+/?-)\s*{_NUM})
    | (?P<times>(?<!\w)x\s?\d+(?![\w.,]*\d)
        |(?<![\w.,])\d+\s?x(?=\s*(?:[^\W\dx]|\#|$))(?!\w))
    | (?P<size>(?<![\w.,])(?:{_NUM}){_LENGTH_UNIT}
        (?:\s*[x*]\s*(?:{_NUM}){_LENGTH_UNIT})+(?![\w]))
    | (?P<price>[€$£]\s?\d+(?:[.,]\d+)?)
    | (?P<ordinal>(?<![\w.])\d{{1,2}}(?:st|nd|rd|th)\b)
    | (?P<code>(?<![\w])[^\W\d_]+\d[\w-]*(?![.,]?\d))
    | (?P<number>(?<![\w.,])(?:[-+](?=[\d.]))?(?:{_NUM})|(?<=[whldt])(?:{_DECIMAL}))
    | (?P<word>[^\W\d]+(?:['-][^\W\d]+)*'?)
    | (?P<mark>\d+|\S)
    """,
    re.VERBOSE | re.IGNORECASE,
)
_UNIT = re.compile(
    r"(?P<gap>\s*)(?P<unit>°\s?[CFcf](?![\w])|[°\"%€£$]|"
    r"(?:ft|in|deg|degrees|newton)[ ·-](?:lbs?|c|f|metres)(?!\w)|"
    r"[µμ]?[^\W\d_]+(?:[·./^*-][^\W\d_]+)*[²23]?(?!\w))",
    re.IGNORECASE,
)
_THREAD = re.compile(r"M\d")
"""A thread behind a count, 20 M3 washers: no cubic metres."""
_NEXT = re.compile(r"\s*([^\W\d_]+|\d|[^\w\s]|$)")


_WRONG = re.compile(
    r"(?<![\w.,:])(?:(?:2[4-9]|[3-9]\d):\d\d(?![:\d])|\d{1,2}:[6-9]\d(?![:\d])"
    r"|\d+(?:[.,]\d+){2,}|\d+[.,]{2,}\d+"
    r"|(?=[\d.,]*[oOlI])[\doOlI]*\d?[oOlI]?[.,][\doOlI]+)(?![\w]*[.,]?\d)"
)


def _reads_back(text: str, meant: Quantity) -> bool:
    """Tell whether a record could keep these words as they were typed."""
    try:
        read = parse_quantity(text)
    except (BadInput, NeedsAnswer):
        return False
    return (read.value, read.unit) == (meant.value, meant.unit)


def wrong_number(line: str) -> str:
    """Give what was meant for a number and is none: 12.3.4, 4o.1; else nothing."""
    for match in _WRONG.finditer(plain_signs(line)):
        found = match.group()
        if not any(sign.isdigit() for sign in found):
            continue
        try:
            parse_quantity(found, "mm")
        except NeedsAnswer:
            continue
        except BadInput:
            return found
    return ""


def plain_signs(line: str) -> str:
    """Give the line with typographic signs as plain ones, place for place."""
    return line.translate(_SAME_LENGTH)


def cut(line: str, units: UnitWords, opened: Callable[[str], str] = str) -> list[Word]:
    """Cut a line into words and figures.

    `opened` gives the line, place for place, with the hyphens of known names
    as blanks: bar-1 is a piece and not minus one.
    """
    plain = opened(plain_signs(line))
    words = []
    at = 0
    while match := _FIGURES.search(plain, at):
        word = _word(line, plain, match, units)
        words.append(word)
        at = word.end
    return words


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
        _add_unit(word, plain, units)
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


def _add_unit(word: Word, plain: str, units: UnitWords) -> None:
    if word.sort is Sort.CODE or word.unit:
        return
    for match in _units_at(plain, word.end):
        typed = match["unit"].lower()
        if _THREAD.match(match["unit"]):
            return
        if typed in units.foreign and match["unit"] != "m":
            word.sort, word.amounts, word.end = Sort.CODE, (), match.end()
            return
        if typed in units.never or not _meant(word, match, plain, units.after_in):
            continue
        try:
            word.unit = find_unit(match["unit"]).symbol
        except BadInput:
            continue
        word.end = match.end()
        return
    attached = plain[word.end : word.end + 1].isalpha()
    if attached and _letters(plain, word.end) not in units.never:
        word.sort, word.amounts = Sort.CODE, ()


def _letters(plain: str, end: int) -> str:
    """Give the letters that stand right behind a number."""
    match = re.compile(r"[^\W\d_]+").match(plain, end)
    return match[0].lower() if match else ""


def _units_at(plain: str, end: int) -> Iterator[re.Match[str]]:
    match = _UNIT.match(plain, end)
    if match:
        yield match
        if " " in match["unit"]:
            single = _UNIT.match(plain[: match.start("unit") + 3].rstrip(), end)
            if single:
                yield single


def _meant(
    word: Word, match: re.Match[str], plain: str, after_in: frozenset[str]
) -> bool:
    unit = match["unit"]
    attached = not match["gap"]
    following = _NEXT.match(plain, match.end())
    after = following[1].lower() if following else ""
    if unit.lower() == "in":
        ends = not after or not (after[0].isalnum())
        return attached or ends or after in after_in or "/" in word.amounts[0]
    if len(unit) > 1 or not unit.isalpha():
        return True
    if after.isdigit():
        return (attached or unit in "VACFK") and unit not in "whldtWHLDT"
    if unit in ("a", "n", "k"):
        return False
    if unit in ("w", "d"):
        return attached and word.has_decimals
    return attached or unit.isupper() or unit in "cfmhsgv"
