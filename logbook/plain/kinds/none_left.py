"""What is to be bought as none is left: used up the last of the ply, order some."""

from __future__ import annotations

from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort
from logbook.plain.words.sentence import Sentence

_EMPTIED = ("the last", "used up", "out of", "no more", "nearly out", "almost out",
            "all gone", "is gone", "are gone", "only half", "left")  # fmt: skip


def none_is_left(sentence: Sentence) -> int | None:
    """Give the order of “used up the last of the ply, order a sheet”: why, and what."""
    rows = [*clauses(sentence)]
    said = " ".join(word.low for word in sentence.words[: rows[0][1]]) if rows else ""
    if len(rows) < 2 or not any(one in said for one in _EMPTIED):
        return None
    start, end = rows[-1]
    what = {low for word in sentence.words[start + 1 : end]
            for low in word.low.split(" ")}  # fmt: skip
    much = bool(what & {"a", "an", "more", "another", "some", "new", "two", "one"})
    much = much or any(
        word.sort in (*FIGURES, Sort.COUNT) for word in sentence.words[start + 1 : end]
    )
    return start if "order_wish" in sentence.tags(start) and much else None
