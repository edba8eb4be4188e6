"""The one thing a line of work or of a failure is about, whatever it is called."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.plain.named.name_places import befell, worked_on
from logbook.plain.named.names import is_component, singular
from logbook.plain.words.sentence import Sentence

_DONE = frozenset(
    {"make:past", "close:past", "rework:past", "take_back:past", "repair:past"}
)
_NO_WORK = frozenset({"vague_verb", "fail:past", "scrap:past"})
_HAS = frozenset({"structure", "fastener", "measures", "stock_form"})


def all_it_is_about(sentence: Sentence, run: Sequence[int]) -> bool:
    """See the roof of “oiled the roof twice”: there is nothing else it may be about.

    What is bought and built in, and what only has the holes that were drilled, may be
    no part.
    """
    led = run[0] - 1
    behind = sentence.word(run[-1] + 1)
    if led < 1 or sentence.words[led].low not in ("the", "my", "our"):
        return False
    who = led > 1 and sentence.words[0].low not in ("i", "we")
    tags = sentence.tags(led - 1)
    holes = behind is not None and behind.tags & _HAS
    worked = tags & _DONE and not tags & _NO_WORK
    return bool(worked and not (who or holes or is_component(sentence, run[-1])))


def was_worked_on(sentence: Sentence, part: str) -> bool:
    """Tell whether a line of work is about a part of this name, and nothing else."""
    run = worked_on(sentence)
    told = " ".join(singular([sentence.words[at].low for at in run]))
    return told == part and all_it_is_about(sentence, run)


NO_NOUN = ("s", "ly", "ed", "ing")
_RINGS = ("spring", "string", "ring", "wing")
_LONGEST = 2


def befell_it(sentence: Sentence, part: str, told: int) -> bool:
    """See “the gimbal snapped”, “treadle cord wore through”: nouns nobody knows first.

    Not of several, which may be places of a part: uprights split.
    """
    first = 1 if "article" in sentence.tags(0) else 0
    if not first < told <= first + _LONGEST:
        return False
    name = sentence.words[first:told]
    one = " ".join(word.low for word in name) == part
    form = name[-1].low.endswith(NO_NOUN) and not name[-1].low.endswith(_RINGS)
    known = any(word.tags for word in name)
    return one and befell(sentence.tags(told)) and not (form or known)
