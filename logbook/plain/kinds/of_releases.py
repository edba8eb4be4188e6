"""How a thing is to be from a release on: what it becomes, how it is published."""

from __future__ import annotations

import re

from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import STUFF, Sentence, parts_named

_LED = r"(?i)^(?:(?:for|in|from|with|as of|starting with)\s+)?(?:the\s+)?"
_NEXT = re.compile(
    _LED + r"(?:next|coming|following)\s+(?:release|version|revision|rev|edition)\b"
)
_NUMBERED = re.compile(
    _LED + r"(?:release|version|revision|rev)\s+\d+(?:\.\d+)*(?:\s+on(?:wards?)?)?\b"
)
_BARE = re.compile(
    r"(?i)^(?:from|as of|starting with)\s+\d+\.\d+"
    r"(?:\s+on(?:wards?)?)?\b(?!\s*(?:to|-))"
)
_FOR = re.compile(r"(?i)^(?:for|in|with)\s+\d+\.\d+\s+(?:the|all|every|we|both)\b")
_WILL = frozenset(
    {"will", "will use", "gets", "get", "becomes", "uses", "has", "drops", "loses",
     "goes to", "moves to", "comes with", "needs"}
)  # fmt: skip
_IS = frozenset({"is", "are"})
_MADE = frozenset({"make:past", "close:past"})


def for_a_release_at(sentence: Sentence) -> int | None:
    """Give the verb of “release 1.1 will use pan heads”, “in the next release …”.

    Not of what a release says or drew, nor of when it comes.
    """
    led = any(
        one.match(sentence.text[sentence.words[0].start :] if sentence.words else "")
        for one in (_NEXT, _NUMBERED, _BARE, _FOR)
    )
    told = parts_named(sentence) or sentence.has(*STUFF)
    if not led or not told or sentence.has("fail:past", "fail:now"):
        return None
    for at, word in enumerate(sentence.words):
        if word.low in _WILL or (word.low in _IS and sentence.tags(at + 1) & _MADE):
            return at
    return None


_IDLE = frozenset(
    {"nuisance", "pain", "mess", "nightmare", "bore", "habit", "chore", "joke",
     "bottleneck", "hazard", "risk"}
)  # fmt: skip
_AMISS = frozenset(
    {"fail", "defect", "adverse", "too_bad", "generic", "off_strong", "adjective"}
)


def becomes_at(sentence: Sentence) -> int | None:
    """Give the verb of “the rail spacer becomes nylon”, “the knob becomes a lever”.

    What becomes hot, loose or a nuisance does so by itself.
    """
    for at, word in enumerate(sentence.words):
        if word.low not in ("becomes", "become") or not parts_named(sentence):
            continue
        led = "article" in sentence.tags(at + 1)
        new = sentence.word(at + 2 if led else at + 1)
        if new is None or new.tags & _AMISS or new.low in _IDLE:
            return None
        sized = new.sort in (Sort.THREAD, Sort.GAUGE) or new.dimension == "length"
        stuff = bool(new.tags & STUFF) or new.name is not None
        if sized or stuff or (led and new.sort is Sort.WORD):
            return at
    return None


_AS = re.compile(
    r"(?i)\bpublish(?:ed|ing)?\s+(?:(?!as\b)[\w-]+\s+){0,4}as\s+(?!soon\b|well\b)"
)


def published_at(sentence: Sentence) -> int | None:
    """Give the verb of “we publish the shelf as made to suit”, whatever follows."""
    found = _AS.search(sentence.text)
    if found is None or sentence.has("negation") or not parts_named(sentence):
        return None
    for at, word in enumerate(sentence.words):
        if word.start == found.start():
            return at if at < _EARLY else None
    return None


_EARLY = 5
