"""Short codes for names: at most three letters that mean exactly one of many."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations, product

LONGEST = 3
_SIGNS = "abcdefghijklmnopqrstuvwxyz0123456789"


def codes(names: Iterable[str]) -> dict[str, str]:
    """Give each name a code of its own; earlier names get the shorter ones.

    A code is made of letters of the name in their order, as far as that goes
    round; names beyond 36³ get none.
    """
    taken: dict[str, str] = {}
    for name in names:
        code = next((c for c in _candidates(name) if c and c not in taken), "")
        if code:
            taken[code] = name
    return {name: code for code, name in taken.items()}


def _candidates(name: str) -> Iterator[str]:
    signs = [sign for sign in name.casefold() if sign in _SIGNS]
    head, number = _split(signs)
    yield "".join(head[:1])
    if head and number:
        yield head[0] + "".join(number)[-2:]
    yield "".join(head[:2])
    if number:
        yield "".join(number)[-3:]
    for length in (2, 3):
        for picked in combinations(signs[:24], length):
            yield "".join(picked)
    for picked in product(_SIGNS, repeat=LONGEST):
        yield "".join(picked)


def _split(signs: list[str]) -> tuple[list[str], list[str]]:
    """Split off the figures a name ends with."""
    at = len(signs)
    while at and signs[at - 1].isdecimal():
        at -= 1
    return signs[:at], signs[at:]
