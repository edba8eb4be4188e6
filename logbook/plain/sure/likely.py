"""How likely each kind of entry is for a line, by the words of lines known before.

A second opinion beside the rules, learned from the labelled lines in `tests/plain`
(`python -m tests.plain.learn` writes `likely_kinds.tsv` anew): multinomial logistic
regression over words, pairs of neighbours and of next but one, the three words a line
begins with, beginnings and ends of words, the clause they stand in and the looks of
figures; figures count as `#`, known parts as `PART`, the weights are whole hundredths.
It asks none of the tags the rules go by, so that it errs where they do not: with them
it told more kinds, and spoke up less where the rules were wrong. It makes no facts:
`second_opinion.py` says what comes of it.

Source of the method: McCullagh and Nelder, Generalized Linear Models, 2nd ed., 5.2
(multinomial responses), from memory.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from itertools import pairwise
from pathlib import Path

from logbook.plain.sure.asides import bare
from logbook.plain.understanding import Kind
from logbook.plain.when.moments import find_moment
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence

KINDS = (
    Kind.READING, Kind.FAILURE, Kind.DECISION, Kind.DISPOSITION, Kind.STEP,
    Kind.NOTE, Kind.ORDER,
)  # fmt: skip
"""The kinds that are told apart: those of entries, the finer ones taken together."""

HUNDREDTHS = 100
_TABLE = Path(__file__).with_name("likely_kinds.tsv")
_FIGURE = re.compile(r"\d+(?:[.,:/]\d+)*")
_TOKEN = re.compile(r"#|[^\W\d_]+(?:'[^\W\d_]+)?|[^\s\w]")
_STOPS = frozenset({",", ";", ".", "-"})
_BEGINNING, _END = 4, 3
_BEGINS_IT = 3
_COUNTS_AS: Mapping[Kind, tuple[Kind, ...]] = {
    Kind.STOCK: (Kind.READING,),
    Kind.FIT: (Kind.READING,),
    Kind.COUNT: (Kind.READING, Kind.NOTE),
    Kind.DRAWN: (Kind.READING, Kind.DECISION, Kind.NOTE),
    Kind.REVISION: (Kind.DECISION,),
    Kind.SUBSTITUTION: (Kind.DECISION, Kind.STEP),
    Kind.JOINT: (Kind.STEP,),
    Kind.QUESTION: (Kind.NOTE,),
}


def signs_of(sentence: Sentence) -> Iterator[str]:
    """Yield the signs of a line as the table has them.

    When it was, and what leads to the fact, says nothing of its kind and is left out.
    """
    find_moment(sentence)
    words = [word for word in bare(sentence).words if word.sort is not Sort.WHEN]
    said = [_said(word) for word in words]
    tokens = ["^", *(token for row in said for token in row), "$"]
    yield from tokens[1:-1]
    for one, other in pairwise(tokens):
        yield f"{one} {other}"
    for one, other in zip(tokens, tokens[2:], strict=False):
        yield f"{one} _ {other}"
    for at, token in enumerate(tokens[1 : 1 + _BEGINS_IT]):
        yield f"{at}:{token}"
    yield from _in_clauses(said)
    for word in words:
        yield from _looks(word)


def _said(word: Word) -> list[str]:
    if word.name is not None and word.name.role == "part":
        return ["PART"]
    return _TOKEN.findall(_FIGURE.sub("#", word.low))


def _in_clauses(said: Iterable[Sequence[str]]) -> Iterator[str]:
    """Yield each word as one of the first clause, or as one of a later one."""
    clause = "first"
    for tokens in said:
        if len(tokens) == 1 and tokens[0] in _STOPS:
            clause = "later"
        else:
            yield f"{clause}:{' '.join(tokens)}"


def _looks(word: Word) -> Iterator[str]:
    """Yield how a plain word begins and ends, what a figure looks like."""
    if word.sort in FIGURES:
        typed = "decimals" if word.has_decimals else "whole"
        yield f"figure:{typed}:{word.dimension}"
    elif word.sort not in (Sort.WORD, Sort.MARK):
        yield f"figure:{word.sort}"
    elif word.sort is Sort.WORD and word.name is None:
        for one in word.low.split(" "):
            if len(one) > _BEGINNING:
                yield f"begins:{one[:_BEGINNING]}"
                yield f"ends:{one[-_END:]}"


def likely(signs: Iterable[str]) -> dict[Kind, float]:
    """Give the probability of each of `KINDS` for a line with these signs."""
    table = weights()
    sums = list(table[""])
    for sign in set(signs):
        for at, weight in enumerate(table.get(sign, ())):
            sums[at] += weight
    most = max(sums)
    raised = [math.exp((one - most) / HUNDREDTHS) for one in sums]
    total = sum(raised)
    return {kind: one / total for kind, one in zip(KINDS, raised, strict=True)}


def mostly_heard(sentence: Sentence) -> bool:
    """Tell whether half of the longer words stood in lines known before.

    Of words never heard the table says nothing, however sure it sounds.
    """
    plain = [
        word for word in sentence.words if word.sort is Sort.WORD and not word.name
    ]
    said = [one for word in plain for one in word.low.split(" ") if len(one) > _SHORT]
    heard = sum(one in weights() for one in said)
    return heard * 2 >= len(said)


_SHORT = 3


def speaks_for(kind: Kind, by_kind: Mapping[Kind, float]) -> float:
    """Give how likely it is that a line is of this kind, finer kinds included."""
    return sum(by_kind[one] for one in _COUNTS_AS.get(kind, (kind,)))


@cache
def weights() -> dict[str, tuple[int, ...]]:
    """Read the table: a weight of each sign for each of `KINDS`; "" is every line's."""
    rows = (line.split("\t") for line in _TABLE.read_text("utf-8").splitlines())
    return {sign: tuple(map(int, row)) for sign, *row in rows}
