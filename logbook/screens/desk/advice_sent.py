"""Advice on its way from the process beside: what was sent before goes as its place.

All advice of a large project is a megabyte, and to take it in holds the keys up;
what hangs on one reading is a few lines of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from logbook.advice.advisor import Told

NOTHING = Told((), ())
"""What was sent before anything was."""


@dataclass(frozen=True, slots=True)
class Sent:
    """Advice and problems; a number is the place of one that was sent the last time."""

    advice: tuple[Any, ...]
    problems: tuple[Any, ...]


def as_sent(before: Told, now: Told) -> Sent:
    """Give what is told now as it is sent to one who was told `before`."""
    return Sent(
        _placed(before.advice, now.advice), _placed(before.problems, now.problems)
    )


def as_told(before: Told, sent: Sent) -> Told:
    """Give what is told now to one who was told `before`."""
    return Told(
        _taken(before.advice, sent.advice), _taken(before.problems, sent.problems)
    )


def _placed(before: Sequence[Any], now: Sequence[Any]) -> tuple[Any, ...]:
    # What was not worked out again is the very same thing.
    places = {id(one): place for place, one in enumerate(before)}
    return tuple([places.get(id(one), one) for one in now])


def _taken(before: Sequence[Any], sent: Sequence[Any]) -> tuple[Any, ...]:
    return tuple([before[one] if type(one) is int else one for one in sent])
