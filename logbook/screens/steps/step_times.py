"""A time typed for a step, the day it was done on, the number of the step before."""

from __future__ import annotations

from datetime import datetime
from textwrap import shorten

from logbook.errors import BadInput
from logbook.plain.when.dated import day_alone, day_apart
from logbook.plain.words.vocabulary import Vocabulary
from logbook.quantity import Quantity, parse_quantity

LONGEST_QUOTED = 40
"""Signs of a refused line that are said again."""


def time_typed(typed: str) -> Quantity | None:
    """Give the time that is typed; None for nothing.

    Raises:
        BadInput: it is no time.
    """
    typed = typed.strip()
    if not typed:
        return None
    if typed[:1].isalpha():
        quoted = shorten(typed, LONGEST_QUOTED, placeholder=" …")
        raise BadInput(
            f"“{quoted}” is no time of a step; accepted: 25 min, a day as "
            "8 nov, the number of a step, or a line that begins with “step” or “hold”"
        )
    time = parse_quantity(typed, "min")
    if not is_time(time):
        raise BadInput(f"“{typed}” is no time; accepted: 25 min, 1.5 h")
    return time


def day_and_time(typed: str, now: datetime) -> tuple[datetime | None, str]:
    """Give the day a step was done on, if one is typed up to `now`, and the rest.

    “8 nov 25 min” is both; a line that states a step or a wait has no day of its own.
    """
    words = Vocabulary(now=now)
    if (alone := day_alone(typed, words)) is not None:
        return alone.at, ""
    dated = day_apart(typed, words) if typed[:1].strip() else None
    rest = " ".join(dated.rest.split()) if dated else typed
    if dated is None or not as_time(rest):
        return None, typed
    return dated.moment.at, rest


def number_and_time(typed: str) -> tuple[str, str] | None:
    """Give the number of a step and the time behind it, “2 25 min”, if typed so.

    “2 1/2 h” is one time.
    """
    typed = typed.casefold().strip()
    number, _, time = typed.partition(" ")
    if not number.isdecimal() or as_time(typed) or not as_time(time):
        return None
    return number, time.strip()


def is_time(value: Quantity) -> bool:
    """Tell whether a value is a time that passes."""
    return value.dimension == "time" and value.value > 0


def as_time(typed: str) -> bool:
    """Tell whether this is a time with its unit."""
    try:
        named = any(sign.isalpha() for sign in typed)
        return named and is_time(parse_quantity(typed, "min"))
    except BadInput:
        return False
