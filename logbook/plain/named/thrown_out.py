"""The piece by its number that a line throws away: shuttle 3 into the firewood."""

from __future__ import annotations

from logbook.plain.named.names import after_leads
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence

_BETWEEN = frozenset(
    {"to", "in", "into", "on", "onto", "for", "goes", "go", "went", "going", "is",
     "was", "are", "ended", "up", "landed", "now", "straight", "off", "can", "belongs",
     "fit", "headed", "the", "my", "our", "a", "as", "then", "so", "gone"}
)  # fmt: skip
_THROWS = frozenset({"threw", "tossed", "chucked", "put", "dropped", "flung"})
_NO_NOUN = frozenset({"article", "preposition", "joiner", "is", "instrument", "pieces"})
_MOST = 3


def thrown_out(sentence: Sentence) -> list[int]:
    """Give the words of the name of a piece that is scrapped by its number.

    Nothing where a name is known: “scrap lid 2” needs none.
    """
    if any(word.name is not None for word in sentence.words):
        return []
    start, end = next(iter(clauses(sentence)), (0, 0))
    start += 1 if sentence.words[start].low in ("i", "we") else 0
    if start >= end:
        return []
    verb = "scrap" in sentence.tags(start) or sentence.words[start].low in _THROWS
    first = after_leads(sentence, start + 1 if verb else start)
    run = list[int]()
    for at in range(first, end):
        word = sentence.words[at]
        if word.sort is not Sort.WORD or word.tags & _NO_NOUN:
            break
        run.append(at)
    number = sentence.word(run[-1] + 1) if run else None
    numbered = number is not None and number.whole is not None and not number.unit
    if not numbered or len(run) > _MOST or run[-1] + 1 >= end:
        return []
    behind = range(run[-1] + 2, end)
    gone = next((at for at in behind if sentence.tags(at) & {"waste", "scrap"}), None)
    if gone is None:
        thrown = verb and sentence.words[start].low not in _THROWS
        return run if thrown and not behind else []
    lows = {low for at in behind if at < gone for low in sentence.words[at].low.split()}
    return run if lows <= _BETWEEN else []
