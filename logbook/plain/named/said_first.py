"""What a line begins with, offered before what it names by the way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from logbook.plain.named.name_places import after_when
from logbook.plain.named.names import after_leads
from logbook.plain.named.unnamed import Unnamed, which_part
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence


def after_the_first(sentence: Sentence, run: Sequence[int], found: Unnamed) -> Unnamed:
    """Offer what the line begins with before what it names by the way."""
    first = _said_first(sentence)
    if found.doubt is None or run[0] in first or not first:
        return found
    words = tuple(sentence.words[at].low for at in first)
    near = sentence.vocabulary.containing(words)
    offered = (*near, " ".join(words), *found.doubt.choices[:-1])
    return replace(found, doubt=which_part((), offered))


def _said_first(sentence: Sentence) -> range:
    """Give the clamp top of “clamp top slid off when I pushed the pipette in”.

    Its words mean other things by themselves, so that it is offered only.
    """
    start = after_leads(sentence, after_when(sentence))
    end = start
    while sentence.word(end) is not None and (
        sentence.words[end].sort is Sort.WORD
        and sentence.words[end].name is None
        and not sentence.tags(end) & _TELLS
        and not any(one.endswith(_SAID) for one in sentence.tags(end))
    ):
        end += 1
    told = sentence.tags(end) & {"fail", "is", "plain_verb", "fail:past", "negative"}
    heads = sentence.lexicon.names["heads"]
    named = end - start == _A_NAME and sentence.words[end - 1].low in heads
    return range(start, end) if told and named else range(0)


_SAID = (":past", ":now", ":ing")
_TELLS = frozenset({"fail", "is", "generic", "preposition", "joiner", "article",
                    "negative", "plain_verb", "question"})  # fmt: skip
_A_NAME = 2
