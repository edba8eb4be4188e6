"""Whose size it is, where a line has the name of a size that one part is known to have.

The slot of a strap clip is no slot of the idler: what a line names as the owner of a
size goes before the part that has a size so called.
"""

from __future__ import annotations

from collections.abc import Sequence

from logbook.plain.named.name_places import after_when
from logbook.plain.named.names import after_leads, name_run
from logbook.plain.words.sentence import Sentence
from logbook.plain.words.spoken import spoken

_OF_IT = frozenset({"of", "in", "on", "of the", "in the", "on the"})
_HAS_IT = frozenset({"with", "w", "whose", "has", "having"})


def other_owner(sentence: Sentence) -> Sequence[int]:
    """Give where another thing stands that the line names as the owner of a size."""
    run, own = owner_told(sentence)
    return () if own else run


def owner_told(sentence: Sentence) -> tuple[Sequence[int], str]:
    """Give where the owner of a size is named, and the part it is, if that has it."""
    for at in sentence.named("characteristic"):
        name = sentence.words[at].name
        owner = name.owner if name is not None else ""
        if own := _own_words(sentence, at, owner):
            return own, owner
        for run in (_before(sentence, at), _behind(sentence, at)):
            if run:
                words = {*spoken(sentence.between(run[0], run[-1]))}
                return run, owner if words <= {*spoken(owner)} else ""
    return (), ""


def _own_words(sentence: Sentence, size: int, owner: str) -> Sequence[int]:
    """See the clip of “clip angle 89.4”, where a strap clip has that angle."""
    first = size
    while first and sentence.words[first - 1].low in spoken(owner):
        first -= 1
    return range(first, size)


def owners(sentence: Sentence) -> tuple[str, ...]:
    """Give the parts that have the sizes a line names."""
    named = [sentence.words[at].name for at in sentence.named("characteristic")]
    return tuple(dict.fromkeys(one.owner for one in named if one and one.owner))


def _before(sentence: Sentence, size: int) -> Sequence[int]:
    """See the idler of “idler slot 3.4”, “the idler with the slot”, “idler 2 slot”."""
    run = name_run(sentence, after_leads(sentence, after_when(sentence)))
    if not run or run[-1] >= size:
        return ()
    between = sentence.words[run[-1] + 1 : size]
    if between and between[0].whole is not None and not between[0].unit:
        between = between[1:]  # Hinge 2 width 40.1: the second one's.
    led = not between or between[0].low in _HAS_IT
    return run if led and all("article" in one.tags for one in between[1:]) else ()


def _behind(sentence: Sentence, size: int) -> Sequence[int]:
    """See the idler of “slot of the idler 3.4”."""
    of = sentence.word(size + 1)
    if of is None or of.low not in _OF_IT:
        return ()
    return name_run(sentence, after_leads(sentence, size + 2))
