"""Fasteners put into a part for good: melted four inserts into the plinth."""

from __future__ import annotations

from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence

_DRIVEN = frozenset(
    {"melted", "sank", "sunk", "drove", "driven", "hammered", "knocked"}
)
_INTO = frozenset({"into", "in", "into the", "in the"})
_MORE = frozenset(
    {"fail:past", "fail:now", "defect", "negation", "negative", "too_bad", "because",
     "off_strong", "adverse", "decide", "hypothetical", "todo", "question"}
)  # fmt: skip


def set_into(sentence: Sentence) -> int | None:
    """Give the verb of “pressed 2 magnets into the mask”, where no more is told.

    Whatever the verb means by itself: a bracket that melted is no good, inserts that
    were melted into it are.
    """
    at = 1 if sentence.words and sentence.words[0].low in ("i", "we") else 0
    put = sentence.tags(at) & {"make:past", "close:past", "step"}
    put = frozenset() if "fail" in sentence.tags(at) else put
    verb = sentence.word(at)
    if verb is None or not (put or verb.low in _DRIVEN):
        return None
    what = at + 1
    while sentence.word(what) is not None and (
        sentence.words[what].sort in (Sort.COUNT, Sort.THREAD)
        or sentence.tags(what) & {"article", "adjective", "material", "place"}
    ):
        what += 1
    into, behind = sentence.word(what + 1), sentence.words[what + 1 :]
    if "fastener" not in sentence.tags(what) or into is None or len(behind) < 2:
        return None
    more = any(word.tags & _MORE or word.low in (",", ";") for word in behind)
    more = more or into_a_wire(sentence) is not None
    return at if into.low in _INTO and not more else None


_WIRES = frozenset(
    {"cable", "cables", "wire", "wires", "lead", "leads", "hose", "cord"}
)
_CUTS = frozenset(
    {"drilled", "drove", "screwed", "nailed", "stapled", "cut", "sawed", "sawn",
     "milled", "routed", "punched", "tapped", "countersunk"}
)  # fmt: skip


def into_a_wire(sentence: Sentence) -> int | None:
    """Give the verb of “drilled into the cable”, which nobody does on purpose."""
    for at, word in enumerate(sentence.words[:3]):
        for to in range(at + 1, at + 5) if word.low in _CUTS else ():
            led = sentence.word(to)
            noun = sentence.word(to + (2 if "article" in sentence.tags(to + 1) else 1))
            into = led is not None and led.low.split(" ")[0] in ("into", "through")
            if into and noun is not None and noun.low in _WIRES:
                return at
    return None
