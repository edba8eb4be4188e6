"""Decimal commas as points: a page has one manner, whatever was typed at the bench."""

from __future__ import annotations

import re

from logbook.units import UNITS

_UNITS = "|".join(map(re.escape, sorted(UNITS, key=len, reverse=True)))
_COMMA = re.compile(
    rf"(?<![\w.,])(\d+),(?=(?:\d{{1,2}}|\d{{4,}})(?:\s?(?:{_UNITS})(?!\w)))"
    r"|(?<![\w.,])(\d{2,}),(?=\d{1,2}(?![\w,]|\.\d))"
)
"""Three figures behind a comma can be thousands: no value is read of them."""


def decimal_points(text: str) -> str:
    """Give text with points for decimal commas: in values, and figures like 178,3.

    The record keeps what was typed.
    """
    return _COMMA.sub(_pointed, text) if "," in text else text


def _pointed(match: re.Match[str]) -> str:
    return f"{match[1] or match[2]}."
