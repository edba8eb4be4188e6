"""Learn anew how likely each kind of entry is by the words of a line.

    python -m tests.plain.learn

Reads the labelled lines of this folder (all invented) and writes
`logbook/plain/sure/likely_kinds.tsv`. Run it after lines were added.
"""

from __future__ import annotations

import tomllib
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import minimize
from scipy.sparse import csr_matrix

from logbook.plain.sure import likely
from logbook.plain.understanding import Kind
from logbook.plain.words.sentence import read_sentence
from logbook.plain.words.vocabulary import Vocabulary
from tests.plain import fresh, judge

HERE = Path(__file__).parent
TABLE = Path(likely.__file__).with_name("likely_kinds.tsv")
SEEN_AT_LEAST = 2
"""A sign that stood in fewer lines is left out."""
KEPT_SMALL = 0.7
"""How strongly weights are held near nothing (an L2 penalty).

Chosen, like the signs, on the batches 28 to 32, each left out in its turn: of 300 lines
nobody had mended for, 91 % were told; of the four in five told at 0.8, 98 %.
"""
WORTH_KEEPING = 6
"""A sign none of whose weights comes to so many hundredths is left out."""

Labelled = tuple[frozenset[str], Kind]


def lines(leave_out: Sequence[int] = ()) -> Iterator[Labelled]:
    """Yield the signs and the broad kind of each labelled line.

    The batches in `leave_out` are left out, to see what lines nobody learned from do.
    """
    for line in judge.LINES:
        yield from labelled(line["says"], line["kind"], judge.PROJECT)
    for number in fresh.BATCHES:
        if number not in leave_out:
            for line in fresh.batch(number):
                yield from labelled(
                    line["says"], line["kind"], fresh.PROJECTS[line["in"]]
                )
    for path in sorted((HERE / "said").glob("*.toml")):
        for line in tomllib.loads(path.read_text("utf-8"))["lines"]:
            yield from labelled(line["says"], line["kind"], judge.PROJECT)


def labelled(says: str, kind: str, words: Vocabulary) -> Iterator[Labelled]:
    """Yield the signs of one line with its kind, the first where several are right."""
    first = kind.split(",", maxsplit=1)[0].strip()
    named = Kind.NOTE if first == "doubtful" else Kind(first).broad
    yield frozenset(likely.signs_of(read_sentence(says, words))), named


def learned(told: Sequence[Labelled]) -> dict[str, tuple[int, ...]]:
    """Fit the weights to labelled lines, in whole hundredths; "" is every line's."""
    counted = Counter(sign for signs, _ in told for sign in signs)
    known = sorted(sign for sign, times in counted.items() if times >= SEEN_AT_LEAST)
    place = {sign: at for at, sign in enumerate(known)}
    rows = [sorted(place[sign] for sign in signs if sign in place) for signs, _ in told]
    ends = np.cumsum([0, *map(len, rows)])
    columns = np.array([at for row in rows for at in row])
    shape = (len(rows), len(known))
    lit = csr_matrix((np.ones(len(columns)), columns, ends), shape=shape)
    kinds = np.array([likely.KINDS.index(kind) for _, kind in told])
    fitted = _fitted(lit, np.eye(len(likely.KINDS))[kinds])
    whole = np.rint(fitted * likely.HUNDREDTHS).astype(int)
    table = {"": tuple(map(int, whole[-1]))}
    for sign, at in place.items():
        if abs(whole[at]).max() >= WORTH_KEEPING:
            table[sign] = tuple(map(int, whole[at]))
    return table


def _fitted(lit: csr_matrix, meant: NDArray[np.float64]) -> NDArray[np.float64]:
    shape = (lit.shape[1] + 1, meant.shape[1])

    def loss(flat: NDArray[np.float64]) -> tuple[float, NDArray[np.float64]]:
        weights = flat.reshape(shape)
        sums = lit @ weights[:-1] + weights[-1]
        sums -= sums.max(axis=1, keepdims=True)
        raised = np.exp(sums)
        chance = raised / raised.sum(axis=1, keepdims=True)
        cost = -float(np.log(chance[meant > 0]).sum())
        cost += KEPT_SMALL / 2 * float((weights[:-1] ** 2).sum())
        wrong = chance - meant
        slope = np.vstack(
            [lit.T @ wrong + KEPT_SMALL * weights[:-1], wrong.sum(axis=0)]
        )
        return cost, slope.ravel()

    start = np.zeros(shape[0] * shape[1])
    found = minimize(loss, start, jac=True, method="L-BFGS-B", options={"maxiter": 400})
    fitted: NDArray[np.float64] = found.x.reshape(shape)
    return fitted


def write() -> int:
    """Write the table anew; give how many signs it has."""
    table = learned([*lines()])
    rows = ("\t".join((sign, *map(str, row))) for sign, row in table.items())
    TABLE.write_text("\n".join(rows) + "\n", "utf-8")
    return len(table)


if __name__ == "__main__":
    print(f"{write()} signs")
