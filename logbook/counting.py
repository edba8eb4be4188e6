"""How many of a thing, in words: 1 piece, 2 pieces."""

from __future__ import annotations

from collections.abc import Sized

SPELLED = (
    "none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine",
    "ten", "eleven", "twelve",
)  # fmt: skip
"""The numbers that are told in words, each at its own place."""


def so_many(number: int | Sized, thing: str, things: str = "") -> str:
    """Give a number, or how many there are, with its thing; `things` are several.

    >>> so_many(1, "box", "boxes"), so_many(["a", "b"], "piece"), so_many(0, "piece")
    ('1 box', '2 pieces', '0 pieces')
    """
    many = number if isinstance(number, int) else len(number)
    return f"{many} {thing if many == 1 else things or f'{thing}s'}"
