"""What files, steps and releases are called or say: nothing that was done."""

from __future__ import annotations

import re

from logbook.plain.kinds.choice import Choice
from logbook.plain.understanding import Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.sentence import Sentence

_NAMED_PAPER = re.compile(
    r"(?i)^(?:the\s+)?(?:[\w.-]+\s+){0,2}(?:files?|drawings?|mesh|models?|folders?)\s+"
    r"(?:of\s+(?:the\s+)?[\w-]+\s+)?(?:is|are|was|were)\s+(?:named|called|labelled)\b"
)


_SAYS = re.compile(
    r"(?i)^(?:the\s+)?(?:step\s+\d+|manual|guide|text|page(?:\s+\d+)?|"
    r"(?:release|version)\s+[\d.]+)\s+"
    r"(?:names?|says?|calls?|shows?|tells?|asks?|drew|draws)\b"
)
_TO_TIGHTEN = re.compile(r"(?i)^(?:always\s+|only\s+)?tighten\b")


def of_papers(sentence: Sentence, _: Values) -> Choice | None:
    """See what a file is called, what the steps say, how to tighten: none of it done.

    A number in a name is no size of a part; what breaks otherwise has not broken.
    """
    if not sentence.words:
        return None
    text = sentence.text[sentence.words[0].start :]
    if any(one.match(text) for one in (_NAMED_PAPER, _SAYS, _TO_TIGHTEN)):
        return Choice(Kind.NOTE, 0.9, 0)
    return None
