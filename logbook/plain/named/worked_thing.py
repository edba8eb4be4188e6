"""The thing behind a verb of work that may be a part: primed the crown, both legs.

A word of it may mean a feature elsewhere, so that it is asked about and never made.
"""

from __future__ import annotations

from logbook.plain.named.name_places import after_when
from logbook.plain.named.names import LEADS, singular
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence

_DONE = frozenset({"make:past", "close:past"})
_IN = frozenset(
    {"in", "of", "on", "off", "from", "into", "in the", "of the", "off the"}
)
_CHANGED = frozenset({"changed", "swapped", "replaced", "adjusted"})
_LONGEST = 2


def worked_thing(sentence: Sentence) -> list[int]:
    """Give what was worked on, or what has the feature that was: the neck, a leg."""
    verb = after_when(sentence)
    if sentence.tags(verb + 1) & _DONE and not sentence.tags(verb) & _DONE:
        verb += 1  # Silver soldered, spot welded, I sewed.
    if not sentence.tags(verb) & _DONE or sentence.words[verb].low in _CHANGED:
        return []
    first, last = _noun(sentence, verb + 1)
    behind = sentence.word(last)
    feature = last > first and "structure" in sentence.tags(last - 1)
    if feature and not _is_limb(sentence, last - 1):
        within = behind is not None and behind.low in _IN
        first, last = _noun(sentence, last + 1) if within else (0, 0)
    heads = sentence.lexicon.names["heads"]
    headed = last - first > 1 and sentence.words[last - 1].low in heads
    told = last > first and (headed or _may_be(sentence, last - 1))
    return [*range(first, last)] if told else []


def _noun(sentence: Sentence, at: int) -> tuple[int, int]:
    """Give where a noun led by an article begins and ends, of one or two words."""
    start = at
    while sentence.tags(at) & LEADS or _says_which(sentence, at):
        at += 1
    last = at
    while last - at < _LONGEST and _is_noun(sentence, last):
        last += 1
    head = sentence.word(last)
    if last > at and head is not None and head.low in sentence.lexicon.names["heads"]:
        last += 1  # The head tube.
    led = at > start or sentence.words[at - 1].low.endswith(" the")
    return (at, last) if led else (0, 0)


def _says_which(sentence: Sentence, at: int) -> bool:
    word = sentence.word(at)
    return word is not None and (
        word.low in ("hollow", "both") or word.sort is Sort.COUNT
    )


def _is_noun(sentence: Sentence, at: int) -> bool:
    word = sentence.word(at)
    if word is None or word.sort is not Sort.WORD or word.name is not None:
        return False
    return not word.tags - {"structure", "label:small", "channel_nouns"} or _may_be(
        sentence, at
    )


def _is_limb(sentence: Sentence, at: int) -> bool:
    names = sentence.lexicon.names
    return singular([sentence.words[at].low])[0] in names["limbs"] | names["things"]


def _may_be(sentence: Sentence, at: int) -> bool:
    word = sentence.words[at]
    strange = not word.tags and not word.low.endswith(("ly", "s"))
    return strange or _is_limb(sentence, at)
