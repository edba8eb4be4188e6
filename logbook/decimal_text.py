"""Decimal numbers as text, exactly: as typed, with a point or a comma; as written."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

from logbook.errors import BadInput, NeedsAnswer


def parse_decimal(digits: str) -> tuple[Fraction, Fraction]:
    """Read unsigned decimal digits with a point or a comma; give value and step.

    Raises:
        NeedsAnswer: one comma before exactly three digits (1,234).
        BadInput: two decimal marks.
    """
    marks = [mark for mark in digits if mark in ".,"]
    if len(marks) > 1:
        return _grouped(digits)
    if marks == [","] and re.fullmatch(r"[1-9][0-9]{0,2},[0-9]{3}", digits):
        point, whole = digits.replace(",", "."), digits.replace(",", "")
        raise NeedsAnswer(
            f"“{digits}” can be {point} or {whole}; accepted: one of the two",
            (point, whole),
        )
    text = digits.replace(",", ".")
    places = len(text.partition(".")[2])
    return Fraction("0" + text if text[0] == "." else text), decimal_step(places)


def _grouped(digits: str) -> tuple[Fraction, Fraction]:
    for mark, group in ((".", ","), (",", ".")):
        pattern = rf"[0-9]{{1,3}}(?:\{group}[0-9]{{3}})+(?:\{mark}[0-9]+)?"
        if digits.count(mark) <= 1 and re.fullmatch(pattern, digits):
            if mark not in digits and digits.count(group) < 2:
                break
            plain = digits.replace(group, "").replace(mark, ".")
            places = len(plain.partition(".")[2])
            return Fraction(plain), decimal_step(places)
    raise BadInput(f"“{digits}” has two decimal marks; accepted: one, as in 86.42")


@cache
def decimal_step(digits: int) -> Fraction:
    """Give the step of so many decimals, the same one each time."""
    return Fraction(1, 10**digits)


def plain_number(value: Fraction, digits: int | None = None) -> str:
    """Write a fraction as a decimal, ties to even on the exact value.

    With `digits` None all digits are given when the decimal ends within 12
    places, else the fraction itself.
    """
    if digits is None:
        for count in range(13):
            if (value * 10**count).denominator == 1:
                return plain_number(value, count)
        return f"{value.numerator}/{value.denominator}"
    scaled = round(value * 10**digits)
    sign = "-" if scaled < 0 else ""
    whole = str(abs(scaled)).rjust(digits + 1, "0")
    return sign + (f"{whole[:-digits]}.{whole[-digits:]}" if digits else whole)


def places_of(step: Fraction) -> int:
    """Give the decimal places that `step` needs, at most 6."""
    for count in range(7):
        if (step * 10**count).denominator == 1:
            return count
    return 6
