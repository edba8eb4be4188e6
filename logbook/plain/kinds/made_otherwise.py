"""What was made or bought, and a size of it that should be another one.

Turned the bush, bore 5.84 should be 6: the size was measured, and that it was made or
bought is told beside it.
"""

from __future__ import annotations

from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES
from logbook.plain.words.sentence import Sentence

_BEFORE = ("make:past", "close:past", "order_done", "order_got")


def made_otherwise_at(sentence: Sentence) -> int | None:
    """Give where the size of what was made or bought is told, and what it should be."""
    rows = [*clauses(sentence)]
    if len(rows) < 2 or not sentence.tags(rows[0][0]).intersection(_BEFORE):
        return None
    start, end = rows[1]
    first = sentence.words[start]
    sized = end > start + 1 and sentence.words[start + 1].sort in FIGURES
    named = sized or first.name is not None or first.tags & {"measures", "structure"}
    wanted = any(at > start for at in sentence.tagged("wanted", "wanted_after"))
    before = any(at < start for at in sentence.sorts(*FIGURES))
    return start if named and wanted and not before else None
