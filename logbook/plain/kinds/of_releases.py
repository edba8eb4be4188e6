"""How a thing is to be from a release on: what it becomes, how it is published."""

from __future__ import annotations

import re

from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence, parts_named

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
_STUFF = frozenset({"material", "fastener", "stock_form"})


def for_a_release_at(sentence: Sentence) -> int | None:
    """Give the verb of “release 1.1 will use pan heads”, “in the next release …”.

    Not of what a release says or drew, nor of when it comes.
    """
    led = any(
        one.match(sentence.text[sentence.words[0].start :] if sentence.words else "")
        for one in (_NEXT, _NUMBERED, _BARE, _FOR)
    )
    told = parts_named(sentence) or sentence.has(*_STUFF)
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
        stuff = bool(new.tags & _STUFF) or new.name is not None
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
_LATER = frozenset(
    {"next time", "next one", "from now on", "from here on", "in future"}
)


def in_another_size_at(sentence: Sentence) -> int | None:
    """See “bracket in 1.5 not 2.0 next time”, “bed in ash next time”: what of."""
    lows = [word.low for word in sentence.words]
    if _next_of(sentence):
        return 0
    if not _LATER & set(lows) or not parts_named(sentence):
        return None
    verbs = any(tag.endswith((":past", ":now")) for word in sentence.words
                for tag in word.tags if not tag.startswith("hold"))  # fmt: skip
    for at in range(1, len(lows) - 2):
        stuff = sentence.tags(at + 1) & _STUFF and lows[at + 2] in (*_LATER, ",")
        if lows[at] == "in" and stuff and not verbs:
            return at
    for at in range(1, len(lows) - 3):
        figures = [sentence.words[one].sort in _FIGURES for one in (at + 1, at + 3)]
        if lows[at] == "in" and all(figures) and lows[at + 2] in ("not", "instead of"):
            return at
    return None


_HAPPENED = (
    "make:past", "close:past", "fail:past", "fail:now", "measure:past", "is", "todo",
    "question", "order_done", "take_back:past", "rework:past", "hypothetical",
    "guess",
)  # fmt: skip


def sized_next_time_at(sentence: Sentence) -> int | None:
    """See “bracket holes 5.5 next time, 5 too tight”, “next bed 18 mm thick, not 20”.

    A next one of such a size, and no more said, was measured.
    """
    rows = [*clauses(sentence)]
    words = sentence.words[: rows[0][1]] if rows else []
    tags = {tag for word in words for tag in word.tags if word.low not in _LATER}
    named = [at for at, word in enumerate(words) if word.name is not None]
    figures = [at for at, word in enumerate(words) if word.sort in _FIGURES]
    if not named or not figures or named[0] > figures[-1] or tags & {*_HAPPENED}:
        return None
    later = [at for at, word in enumerate(words) if word.low in _LATER]
    if later and later[0] > named[0]:
        return later[0]
    behind = {word.low for word in sentence.words[figures[0] + 1 : figures[0] + 4]}
    size = behind & {"not", "instead of"} or "off_strong" in tags
    return 0 if words[0].low == "next" and named[0] == 1 and size else None


def _next_of(sentence: Sentence) -> bool:
    """See “next diffuser from polycarbonate”, and no more but a reason."""
    first = 1 if "article" in sentence.tags(0) else 0
    words = sentence.words[first : first + 5]
    if len(words) < _NEXT_OF or words[0].low != "next" or words[1].name is None:
        return False
    led = words[2].low in ("from", "in", "out of", "of", "with", "without")
    ends = len(words) == _NEXT_OF or words[_NEXT_OF].low in (",", "because")
    return led and bool(words[3].tags & _STUFF) and ends


_NEXT_OF = 4
_FIGURES = (Sort.NUMBER, Sort.GAUGE, Sort.THREAD)
