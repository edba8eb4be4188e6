"""How many of a thing, in words: 1 piece, 2 pieces; the first of many."""

from __future__ import annotations

from collections.abc import Sequence, Sized

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


def first_few(names: Sequence[str], most: int) -> str:
    """Give the first names of a list, and how many more there are.

    >>> first_few(["a", "b", "c"], 2), first_few(["a", "b"], 2), first_few([], 2)
    ('a, b and 1 more', 'a, b', '')
    """
    more = len(names) - most
    return ", ".join(names[:most]) + (f" and {more} more" if more > 0 else "")
