"""Learn anew how likely each kind of entry is by the words of a line.

    python -m tests.plain.learn

Reads the labelled lines of this folder (all invented) and writes
`logbook/plain/sure/likely_kinds.tsv`, and `learn_causes.py` which clause of a failure
tells why. Run it after lines were added.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Sequence
from pathlib import Path

from logbook.plain.sure import likely
from logbook.plain.understanding import Kind
from logbook.plain.words.sentence import read_sentence
from logbook.plain.words.vocabulary import Vocabulary
from tests.plain import fresh, judge, learn_causes
from tests.plain.weigh import weighed

HERE = Path(__file__).parent
TABLE = Path(likely.__file__).with_name("likely_kinds.tsv")
KEPT_SMALL = 1.2
"""How strongly weights are held near nothing (an L2 penalty).

Chosen, like the signs, on the batches 61 to 86, a quarter of them left out in its turn:
of 1,320 lines nobody had mended for, 94 % were told; of the four in five told at 0.8,
99 %.
"""
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
    kinds = [likely.KINDS.index(kind) for _, kind in told]
    return weighed([signs for signs, _ in told], kinds, len(likely.KINDS), KEPT_SMALL)


def write() -> int:
    """Write the table anew; give how many signs it has."""
    table = learned([*lines()])
    rows = ("\t".join((sign, *map(str, row))) for sign, row in table.items())
    TABLE.write_text("\n".join(rows) + "\n", "utf-8")
    return len(table)


if __name__ == "__main__":
    print(f"{write()} signs of kinds, {learn_causes.write()} of causes")
