"""What is amiss with a thing, with no verb of failing: has no grip, gets dimmer."""

from __future__ import annotations

from logbook.plain.words.figures import FIGURES, Sort
from logbook.plain.words.sentence import Sentence, parts_named

_HAS = frozenset({"has", "have", "had", "got", "has got"})
_NEEDED = frozenset(
    {"grip", "bite", "hold", "power", "contact", "light", "thread", "threads", "signal",
     "pressure", "suction", "picture", "sound", "strength", "purchase", "traction",
     "spark", "flow", "drive"}
)  # fmt: skip
_GETS = frozenset({"gets", "got", "grows", "grew", "becomes", "became", "getting"})
_WORSE = frozenset(
    {"dimmer", "looser", "weaker", "slower", "louder", "worse", "softer", "stiffer",
     "noisier", "darker", "duller", "wobblier", "shakier", "blurrier", "fainter",
     "looser and looser"}
)  # fmt: skip
_THERE = frozenset({"there is", "there's", "theres", "there are"})
_WRONG = frozenset(
    {"play", "slop", "backlash", "rust", "mould", "mold", "rattle", "wobble", "leak"}
)  # fmt: skip
_HITS = frozenset({"hits", "strikes", "scrapes", "fouls", "bangs"})


def amiss_at(sentence: Sentence) -> int | None:
    """Give where a thing lacks what it needs, gets worse, or hits another.

    Not where a size is told: that is measured.
    """
    if sentence.sorts(*FIGURES) or sentence.has("hypothetical", "conditional"):
        return None
    for at in range(len(sentence.words)):
        if any(rule(sentence, at) for rule in _RULES):
            return at
    return None


def _subject(sentence: Sentence, at: int) -> bool:
    """Tell whether a part or a fastener is named before a word."""
    return any(
        word.name is not None or "fastener" in word.tags for word in sentence.words[:at]
    )


def _ends(sentence: Sentence, at: int) -> bool:
    word = sentence.word(at)
    plain = word is not None and word.sort is Sort.WORD
    return not plain or bool(sentence.tags(at) & {"preposition", "joiner", "because"})


def _lacks(sentence: Sentence, at: int) -> bool:
    """See “one of the four screws has no grip”."""
    no, what = sentence.word(at + 1), sentence.word(at + 2)
    if sentence.words[at].low not in _HAS or no is None or what is None:
        return False
    lacking = no.low in ("no", "hardly any") and what.low in _NEEDED
    return lacking and _subject(sentence, at) and _ends(sentence, at + 3)


def _gets_worse(sentence: Sentence, at: int) -> bool:
    """See “lamp gets dimmer by the minute”."""
    how = sentence.word(at + 1)
    worse = how is not None and how.low in _WORSE
    return sentence.words[at].low in _GETS and worse and _subject(sentence, at)


def _hits(sentence: Sentence, at: int) -> bool:
    """See “the lid hits the lens”."""
    what = sentence.word(at + 1)
    led = what is not None and (what.name is not None or "article" in what.tags)
    hits = sentence.words[at].low in _HITS and led and at + 1 < len(sentence.words) - 1
    return hits and any(one < at for one in parts_named(sentence))


def _there_is(sentence: Sentence, at: int) -> bool:
    """See “there is play in the bracket again”."""
    lows = [low for word in sentence.words[at : at + 4] for low in word.low.split(" ")]
    there = " ".join(lows[:2]) in _THERE or lows[:1] in (["there's"], ["theres"])
    rest = [low for low in lows[1:] if low not in ("is", "are", "a", "some", "the")]
    return (
        there and rest[:1] != [] and rest[0] in _WRONG and bool(parts_named(sentence))
    )


_WRONG_WAY = frozenset(
    {"backwards", "upside down", "inside out", "back to front", "wrong way round",
     "the wrong way round", "wrong way up", "wrong side up", "wrong side out",
     "wrong side down", "the wrong way up", "mirrored"}
)  # fmt: skip


def _wrong_way(sentence: Sentence, at: int) -> bool:
    """See “put the collar on backwards”, told last of work on a part."""
    worked = sentence.tags(0) & {"make:past", "close:past", "step"}
    ends = at == len(sentence.words) - 1 and sentence.words[at].low in _WRONG_WAY
    meant = sentence.words[0].low.split(" ")[0] in ("turned", "flipped", "printed")
    return bool(worked) and ends and not meant and bool(parts_named(sentence))


_RULES = (_lacks, _gets_worse, _hits, _there_is, _wrong_way)
