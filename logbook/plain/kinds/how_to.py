"""What is to be done so, and what comes of it otherwise: nothing has happened yet."""

from __future__ import annotations

from logbook.plain.kinds.choice import Choice
from logbook.plain.understanding import Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.sentence import Sentence


def told_how_to(sentence: Sentence, _: Values) -> Choice | None:
    """See “push the bearing in before the cap goes on, otherwise it does not fit”."""
    known = sentence.lexicon.clauses["otherwise"]
    tags = sentence.tags(0)
    told = any(tag.endswith(":base") for tag in tags)
    past = any(tag.endswith(":past") for tag in tags)
    otherwise = any(word.low in known for word in sentence.words[2:])
    return Choice(Kind.NOTE, 0.9, 0) if told and not past and otherwise else None
