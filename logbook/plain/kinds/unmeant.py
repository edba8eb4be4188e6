"""Harm done to a part that nobody meant: by accident, or by the way of other work."""

from __future__ import annotations

from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence


def unmeant_at(sentence: Sentence) -> int | None:
    """Give the verb of what was done by accident, or of harm done by the way."""
    done = sentence.tagged("make:past", "close:past")
    said = sentence.lexicon.clauses["by_accident"]
    if done and any(word.low in said for word in sentence.words):
        return done[0]
    alone = (at for at in done if _by_itself(sentence, at))
    return next(alone, None) or _by_the_way(sentence)


def _by_itself(sentence: Sentence, at: int) -> bool:
    """See “crossbar turned by itself”; not “printed the lid by itself”, alone."""
    thing = sentence.words[at - 1] if at else None
    told = thing is not None and (
        thing.name is not None or bool(thing.tags & {"fastener", "structure"})
    )
    behind = " ".join(word.low for word in sentence.words[at + 1 : at + 4])
    return told and behind.removeprefix("by ").startswith(_ALONE)


_ALONE = ("itself", "themselves", "on its own", "on their own")


def _by_the_way(sentence: Sentence) -> int | None:
    """See “bent the bar pressing it in”; not “bent the bar using the vise”."""
    names = sentence.lexicon.clauses
    at = 0
    while "generic" in sentence.tags(at) and "make:past" not in sentence.tags(at):
        at += 1  # I bent.
    verb = sentence.word(at)
    if verb is None or verb.low not in names["harms"]:
        return None
    doing = next(
        (one for one in range(at + 2, min(at + 5, len(sentence.words) - 1))
         if sentence.words[one].low in names["by_the_way"]), None)  # fmt: skip
    if doing is None:
        return None
    harmed = sentence.words[at + 1 : doing]
    joined = any(
        word.sort is Sort.MARK or word.tags & {"joiner", "preposition"}
        for word in harmed
    )
    thing = harmed[-1].name is not None or not harmed[-1].tags & {"article", "generic"}
    return at if thing and not joined else None
