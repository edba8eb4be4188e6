"""A text taken apart into folded words and numbers.

A word is folded: case, accents and quotes are forgiven. A number is exact, with its
unit where one follows it.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache

from logbook.decimal_text import parse_decimal
from logbook.errors import BadInput, NeedsAnswer
from logbook.quantity import Quantity
from logbook.units import Unit, find_unit

LONGEST_WORD = 64
"""Words are compared by their first so many characters."""

LONGEST_NUMBER = 24
"""A longer run of digits is no measured number."""

BEFORE_DIGITS = 3
"""Signs of a number before its first digit: a minus, a space, a decimal mark."""

_VULGAR = re.compile("[¼-¾⅐-⅞]")
_QUOTES = re.compile("['’‘‛ʼ`´]")
_SIZES = re.compile(r"(?<![\w.,/])\d[\d.,/]*(?:\s?[x×]\s?\d[\d.,/]*)+(?!\w*[^\W\d_])")
_WORD = re.compile(r"[^\W_]+")
_DIGIT = re.compile(r"\d")
_BEYOND_ASCII = re.compile(r"[^\x00-\x7f]+")
_CROSS = re.compile(r"(?<=\w)×(?=\w)")
_DIGITS_BEGIN = re.compile(r"\d(?<![^\W_]\d)")
_NUMBER = re.compile(
    r"(?<![^\W_])(?:(?P<sign>(?<![\w)])[-−+])\s?)?"
    r"(?:(?:(?P<whole>\d+)[ -])?(?P<num>\d+)\s?[/⁄]\s?(?P<den>\d+)(?![\d.,]*\d)"
    r"|(?P<decimal>\d+(?:[.,]\d+)*|(?<![\w.,])[.,]\d+))"
)
_SIGNS = r"[^\s\d,;:!?()\[\]{}|“]"
_TWO_WORDS = re.compile(rf"\s?((?>{_SIGNS}{{1,6}} {_SIGNS}{{1,8}}))(?!\w)")
_ONE_WORD = re.compile(rf"\s?((?>{_SIGNS}{{1,12}}2?))(?!\w)")


@dataclass(frozen=True, slots=True)
class Number:
    """A number as it stands in a text, sign included.

    `base` is its value in the base unit of its dimension; `minus` tells that a
    minus stood before it; `places` counts the digits behind its mark, where it has one.
    """

    value: Fraction
    dimension: str = ""
    base: Fraction = Fraction(0)
    minus: bool = False
    unit: str = ""
    places: int = 0

    @property
    def size(self) -> Fraction:
        """Give what is compared when no sign is asked for; a temperature has one."""
        return self.base if self.dimension == "temperature" else abs(self.base)


@dataclass(frozen=True, slots=True)
class Text:
    """A text taken apart into folded words and numbers; `digits` where it has any."""

    words: tuple[str, ...]
    numbers: tuple[Number, ...]
    digits: bool = False


@dataclass(frozen=True, slots=True)
class Span:
    """Where a number stands in a text, its unit excluded and included."""

    start: int
    end: int
    unit_end: int
    meanings: tuple[Number, ...]


def read(text: str) -> Text:
    """Take a text apart; a unit counts as a word too, `in` often is one."""
    plain = prepared(text)
    if not _DIGIT.search(plain):
        return Text(tuple(words_of(plain)), ())
    numbers: list[Number] = []
    rest, at = [], 0
    for span in spans(plain):
        numbers += span.meanings
        rest.append(plain[at : span.start])
        at = span.end
    rest.append(plain[at:])
    return Text(tuple(words_of(" ".join(rest))), tuple(numbers), digits=True)


def prepared(text: str) -> str:
    """Give a text as words and numbers are looked for in it: one sign for one thing."""
    if not text.isascii():
        text = _VULGAR.sub(lambda m: " " + unicodedata.normalize("NFKD", m[0]), text)
        text = text.replace("″", '"').replace("⁄", "/")
        text = unicodedata.normalize("NFKD", text)
    if ("x" in text or "×" in text) and _DIGIT.search(text):
        text = _SIZES.sub(lambda m: re.sub("[x×]", " × ", m[0]), text)
    return _CROSS.sub("x", text) if "×" in text else text


def words_of(text: str) -> list[str]:
    """Give the words of a text that was prepared, folded, in their order."""
    if text.isascii():
        text = text.replace("'", "").replace("`", "").lower()
    else:
        text = unicodedata.normalize("NFKD", _QUOTES.sub("", text).casefold())
        text = _BEYOND_ASCII.sub(_without_marks, text)
    words = _WORD.findall(text)
    if len(text) > LONGEST_WORD:
        words = [word[:LONGEST_WORD] for word in words]
    return words


def _without_marks(signs: re.Match[str]) -> str:
    return "".join(sign for sign in signs[0] if not unicodedata.combining(sign))


def spans(text: str) -> Iterator[Span]:
    """Give where numbers stand in a text that was prepared."""
    for match in _numbers(text):
        unit, end = _unit_after(text, match.end())
        glued = text[match.end() : match.end() + 1]
        if not unit and (glued.isalnum() or glued in {"/", "_"}):
            continue
        minus = match["sign"] in {"-", "−"}
        decimal = match["decimal"] or ""
        behind = 0 if decimal.isdigit() else len(re.split("[.,]", decimal)[-1])
        meanings = tuple(
            number(v, unit, minus=minus, places=behind) for v in _values(match)
        )
        if meanings:
            yield Span(match.start(), match.end(), end, meanings)


def _numbers(text: str) -> Iterator[re.Match[str]]:
    """Give what is written as a number, in order.

    It is looked for where digits begin, and no more than what may stand before them
    ahead of these: to look everywhere takes three times as long.
    """
    at = 0
    for digit in _DIGITS_BEGIN.finditer(text):
        begins = digit.start()
        for place in range(max(at, begins - BEFORE_DIGITS), begins + 1):
            match = _NUMBER.match(text, place)
            if match:
                at = match.end()
                yield match
                break


def number(value: Fraction, unit: str, *, minus: bool, places: int) -> Number:
    """Give a number that is written without its sign, and with this unit or none."""
    signed = -value if minus else value
    if not unit:
        return Number(signed, minus=minus, places=places)
    known = _known(unit)
    return Number(
        signed, known.dimension, _in_base(signed, known), minus, known.symbol, places
    )


@cache
def _known(unit: str) -> Unit:
    """Give a unit; each is asked for again and again."""
    return find_unit(unit)


def _in_base(value: Fraction, unit: Unit) -> Fraction:
    """Turn a value into the base unit; nearly all are in it."""
    if unit.factor.numerator != unit.factor.denominator:
        value *= unit.factor
    return value + unit.offset if unit.offset.numerator else value


def _values(match: re.Match[str]) -> tuple[Fraction, ...]:
    digits = match[0].lstrip("-−+ ")
    if len(digits) > LONGEST_NUMBER or not digits.isascii():
        return ()
    if match["den"]:
        if not int(match["den"]):
            return ()
        part = Fraction(int(match["num"]), int(match["den"]))
        return (int(match["whole"] or 0) + part,)
    try:
        return (parse_decimal(match["decimal"])[0],)
    except NeedsAnswer as question:
        return tuple(Fraction(choice) for choice in question.choices)
    except BadInput:
        return ()


def _unit_after(text: str, at: int) -> tuple[str, int]:
    """Give the unit that stands at a place and where it ends, or nothing."""
    for pattern, group in ((_TWO_WORDS, 1), (_ONE_WORD, 1)):
        match = pattern.match(text, at)
        if match and (found := _unit(match[group])):
            return found, match.end()
    return "", at


@lru_cache(maxsize=4096)
def _unit(words: str) -> str:
    for word in (words, words.rstrip(".…"), words.split("-", 1)[0]):
        try:
            return find_unit(word).symbol
        except BadInput:
            continue
    return ""


def of_quantity(held: Quantity) -> Number:
    """Give the number a quantity field holds; a gauge is a number of its metal."""
    if held.metal:
        return Number(held.value, f"gauge {held.metal}", held.value)
    unit, value = _known(held.unit), held.value
    base, minus = _in_base(value, unit), value.numerator < 0
    return Number(value, unit.dimension, base, minus, unit.symbol)
