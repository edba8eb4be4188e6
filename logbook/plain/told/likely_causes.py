"""How likely a clause of a failure tells why, by the words of failures known before.

Learned beside the kinds (`python -m tests.plain.learn` writes `likely_causes.tsv`):
logistic regression over the words of the clause, their tags and endings, where it
stands and what the tags of the clause beside it are. Of 261 causes left out of what it
learned from, in their turn, 168 were told at `TELLS`, with 26 others, most of which
are why as well.

Source of the method: McCullagh and Nelder, Generalized Linear Models, 2nd ed., ch. 4
(binary responses), from memory.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from itertools import pairwise
from pathlib import Path

from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Word
from logbook.plain.words.sentence import Sentence

TELLS = 0.5
"""From here on a clause tells why."""
HUNDREDTHS = 100

Row = tuple[int, int]
_TABLE = Path(__file__).with_name("likely_causes.tsv")
_FIGURE = re.compile(r"\d+(?:[.,:/]\d+)*")
_LONG, _BEGINNING, _END = 6, 4, 3


def clauses_told(sentence: Sentence) -> list[Row]:
    """Give the clauses of a failure, also those that a colon or a so parts."""
    rows = []
    for first, end in clauses(sentence):
        start = first
        for at in range(first + 1, end - 1):
            stop = sentence.words[at].low == ":" or (
                sentence.words[at].low == "so" and at - start >= 2 and end - at > 2
            )
            if stop:
                rows.append((start, at))
                start = at + 1
        rows.append((start, end))
    return rows


def signs_of(sentence: Sentence, rows: Sequence[Row], which: int) -> Iterator[str]:
    """Yield the signs of one of the clauses, as the table has them."""
    words = sentence.words[slice(*rows[which])]
    stands = "first" if which == 0 else "later"
    yield from (f"{stands}", f"clauses:{len(rows)}")
    yield f"{stands} words:{min(len(words), _LONG)}"
    tokens = ["^", *(_said(word) for word in words), "$"]
    for one in tokens[1:-1]:
        yield from (one, f"{stands} {one}")
    for one, other in pairwise(tokens):
        yield f"{one} | {other}"
    for word in words:
        yield from _looks(word, stands)
    yield from (f"{stands} begins:{tag}" for tag in words[0].tags)
    yield from (f"{stands} ends:{tag}" for tag in words[-1].tags)
    if not words[-1].tags and words[-1].low.endswith("ed"):
        yield f"{stands} ends:-ed"
    beside = sentence.words[slice(*rows[1 if which == 0 else 0])]
    yield from (f"{stands} beside:{tag}" for word in beside for tag in word.tags)
    if any(word.name is not None for word in beside):
        yield f"{stands} beside part"


def _said(word: Word) -> str:
    named = word.name is not None and word.name.role == "part"
    return "PART" if named else _FIGURE.sub("#", word.low)


def _looks(word: Word, stands: str) -> Iterator[str]:
    yield from (f"{stands} tag:{tag}" for tag in word.tags)
    if word.name is not None:
        yield f"{stands} part"
        return
    if not word.tags:
        yield f"{stands} unknown"
    if len(word.low) > _BEGINNING:
        yield from (f"begins:{word.low[:_BEGINNING]}", f"ends:{word.low[-_END:]}")


def likely(signs: Iterable[str]) -> float:
    """Give the probability that a clause with these signs tells why."""
    table = weights()
    total = table[""] + sum(table.get(sign, 0) for sign in set(signs))
    return 1 / (1 + math.exp(-total / HUNDREDTHS))


def why_likely(sentence: Sentence) -> list[tuple[Row, float]]:
    """Give the clauses of a failure, with how likely each tells why; one alone none."""
    rows = clauses_told(sentence)
    if len(rows) < 2:
        return []
    return [
        (row, likely(signs_of(sentence, rows, which))) for which, row in enumerate(rows)
    ]


@cache
def weights() -> dict[str, int]:
    """Read the table: a weight of each sign; "" is every clause's."""
    rows = (line.split("\t") for line in _TABLE.read_text("utf-8").splitlines())
    return {sign: int(weight) for sign, weight in rows}
