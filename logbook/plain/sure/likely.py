"""How likely each kind of entry is for a line, by the words of lines known before.

A second opinion beside the rules, learned from the labelled lines in `tests/plain`
(`python -m tests.plain.learn` writes `likely_kinds.tsv` anew): multinomial logistic
regression over words and pairs of neighbours, figures as `#`, known parts as `PART`;
the weights are whole hundredths. It makes no facts: where it speaks strongly against
the kind the rules chose, the line is asked about; where it speaks strongly for it, a
faint sign of a misreading is passed over.

Source of the method: McCullagh and Nelder, Generalized Linear Models, 2nd ed., 5.2
(multinomial responses), from memory.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from itertools import pairwise
from pathlib import Path

from logbook.plain.sure.asides import bare
from logbook.plain.understanding import Kind
from logbook.plain.when.moments import find_moment
from logbook.plain.words.figures import Sort
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
    """Yield the words of a line and the pairs of neighbours, as the table has them.

    When it was, and what leads to the fact, says nothing of its kind and is left out.
    """
    find_moment(sentence)
    words = ["^", *_plain(bare(sentence)), "$"]
    yield from words[1:-1]
    for one, other in pairwise(words):
        yield f"{one} {other}"


def _plain(sentence: Sentence) -> Iterator[str]:
    for word in sentence.words:
        if word.name is not None and word.name.role == "part":
            yield "PART"
        elif word.sort is not Sort.WHEN:
            yield from _TOKEN.findall(_FIGURE.sub("#", word.low))


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


def speaks_for(kind: Kind, by_kind: Mapping[Kind, float]) -> float:
    """Give how likely it is that a line is of this kind, finer kinds included."""
    return sum(by_kind[one] for one in _COUNTS_AS.get(kind, (kind,)))


@cache
def weights() -> dict[str, tuple[int, ...]]:
    """Read the table: a weight of each sign for each of `KINDS`; "" is every line's."""
    rows = (line.split("\t") for line in _TABLE.read_text("utf-8").splitlines())
    return {sign: tuple(map(int, row)) for sign, *row in rows}
