"""Words that name a part nobody has named yet, and the question which part is meant."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from logbook.plain.understanding import NO_PART, Doubt

_MOST_CHOICES = 5
"""So many answers are offered at most; any other name can be typed."""


@dataclass(frozen=True, slots=True)
class Unnamed:
    """The words that name a part, the part they mean, and the doubt about it.

    `part` is empty where the words are the whole name of a new part; `placed` where
    they stand in a place that names a part. Their `role` is another where they name
    none: what was measured, or where.
    """

    words: tuple[str, ...]
    part: str = ""
    doubt: Doubt | None = None
    placed: bool = False
    role: str = "part"


def which_part(known: Sequence[str], called: Sequence[str] = ()) -> Doubt:
    """Ask which part is meant: the nearest known ones, what it is called, or none."""
    own = tuple(dict.fromkeys(called))
    near = [name for name in known if name not in own]
    choices = (*near[: _MOST_CHOICES - 1 - len(own)], *own, NO_PART)
    return Doubt("part", "which part?", choices)
