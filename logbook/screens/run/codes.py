"""Short codes: at most three signs that mean one part, or one piece, of many.

A code never changes while a project grows: parts have letters and pieces end in a
figure, each given in the order of making, over the whole design.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from itertools import chain, combinations, product
from typing import TypeVar

LONGEST = 3
_LETTERS = "abcdefghijklmnopqrstuvwxyz"
_FIGURES = "0123456789"
_K = TypeVar("_K", bound=Hashable)


def codes(names: Iterable[str]) -> dict[str, str]:
    """Give each name a code of letters; earlier names get the shorter ones.

    A code is made of letters of the name in their order, as far as that goes
    round; names beyond 26³ get none.
    """
    return _given((name, _letters_of(name)) for name in names)


def piece_codes(pieces: Iterable[tuple[_K, str, int]]) -> dict[_K, str]:
    """Give each piece a code: that of its part with its number, while that is short.

    A piece comes as what it is known by, the code of its part and its number; those
    beyond 9,360 get none.
    """
    return _given((one, _figures_of(part, number)) for one, part, number in pieces)


def _given(wanted: Iterable[tuple[_K, Iterator[str]]]) -> dict[_K, str]:
    """Give each the first code it would have that is not taken."""
    taken: dict[str, _K] = {}
    for one, candidates in wanted:
        code = next((c for c in candidates if c and c not in taken), "")
        if code:
            taken[code] = one
    return {one: code for code, one in taken.items()}


def _letters_of(name: str) -> Iterator[str]:
    letters = [sign for sign in name.casefold() if sign in _LETTERS]
    yield "".join(letters[:1])
    yield "".join(letters[:2])
    for length in (2, 3):
        for picked in combinations(letters[:24], length):
            yield "".join(picked)
    for length in (1, 2, 3):
        for every in product(_LETTERS, repeat=length):
            yield "".join(every)


def _figures_of(part: str, number: int) -> Iterator[str]:
    whole = f"{part}{number}"
    if part and len(whole) <= LONGEST:
        yield whole
    head = part[:1] or _LETTERS[0]
    yield f"{head}{number % 100:02}"
    for first in chain(head, _LETTERS):
        for second, last in product(_LETTERS + _FIGURES, _FIGURES):
            yield f"{first}{second}{last}"
