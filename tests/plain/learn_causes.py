"""Learn how likely a clause of a failure tells why: `likely_causes.tsv`."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from logbook.plain.sure.asides import bare
from logbook.plain.told import likely_causes
from logbook.plain.when.moments import find_moment
from logbook.plain.words.sentence import read_sentence
from logbook.plain.words.vocabulary import Vocabulary
from tests.plain import fresh, judge
from tests.plain.weigh import weighed

HERE = Path(__file__).parent
TABLE = Path(likely_causes.__file__).with_name("likely_causes.tsv")
KEPT_SMALL = 4.0
"""How strongly weights are held near nothing.

Chosen on groups of lines left out in their turn.
"""

Labelled = tuple[frozenset[str], bool]


def lines(leave_out: Sequence[int] = ()) -> Iterator[tuple[str, str, Vocabulary]]:
    """Yield each failure with the words that tell why ("" for none) and its project."""
    rows = tomllib.loads((HERE / "causes.toml").read_text("utf-8"))["lines"]
    known: Mapping[str, str] = {row["says"]: row["why"] for row in rows}
    told = [(line, judge.PROJECT) for line in judge.LINES]
    told += [
        (line, fresh.PROJECTS[line["in"]])
        for number in fresh.BATCHES
        if number not in leave_out
        for line in fresh.batch(number)
    ]
    for line, words in told:
        if line["kind"].split(",")[0].strip() == "failure":
            why = str(line.get("cause", ""))
            yield line["says"], why or known.get(line["says"], ""), words
    labelled: set[str] = {line["says"] for line, _ in told}
    for path in sorted((HERE / "said").glob("*.toml")):
        for line in _of(path):
            says = line["says"]
            if says in known and says not in labelled:
                yield says, known[says], judge.PROJECT


def _of(path: Path) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = tomllib.loads(path.read_text("utf-8"))["lines"]
    return found


def clauses(says: str, why: str, words: Vocabulary) -> Iterator[Labelled]:
    """Yield the signs of each clause of a line, and whether it tells why."""
    sentence = read_sentence(says, words)
    find_moment(sentence)
    sentence = bare(sentence)
    rows = likely_causes.clauses_told(sentence)
    if len(rows) < 2:
        return
    lows = why.lower()
    for which, (start, end) in enumerate(rows):
        first, last = sentence.words[start].start, sentence.words[end - 1].end
        said = says[first:last].lower()
        signs = frozenset(likely_causes.signs_of(sentence, rows, which))
        yield signs, bool(why) and (lows in said or said in lows)


def learned(leave_out: Sequence[int] = ()) -> dict[str, int]:
    """Fit the weights to all labelled failures, in whole hundredths."""
    told = [row for line in lines(leave_out) for row in clauses(*line)]
    both = weighed(
        [signs for signs, _ in told], [int(why) for _, why in told], 2, KEPT_SMALL
    )
    return {sign: for_it - against for sign, (against, for_it) in both.items()}


def write() -> int:
    """Write the table anew; give how many signs it has."""
    table = learned()
    rows = (f"{sign}\t{weight}" for sign, weight in table.items())
    TABLE.write_text("\n".join(rows) + "\n", "utf-8")
    return len(table)
