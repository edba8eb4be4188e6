"""A short clause that tells why: a thing went astray, work was left out, by what.

Iron slipped, plating built up; didn't degrease, forgot to centre punch; by a burr. So
it is by whatever word the failure itself is known.
"""

from __future__ import annotations

from logbook.plain.kinds.choice import Choice
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence

_MOST_WORDS = 5
_OTHER_THAN_WHY = frozenset(
    {"cure", "decide", "scrap", "order_done", "order_wish", "todo", "mood", "is"}
)  # fmt: skip
_NO_SUBJECT = frozenset(
    {"it", "they", "which", "i", "we", "and", "then", "now", "so", "but", "again"}
)  # fmt: skip


def went_astray(sentence: Sentence, start: int, end: int) -> bool:
    """Tell whether a clause says only that a thing moved by itself, or of work left."""
    words = sentence.words[start:end]
    if not 1 <= len(words) <= _MOST_WORDS:
        return False
    if any(word.sort not in (Sort.WORD, Sort.COUNT) for word in words):
        return False
    named = any(word.name is not None for word in words)
    if named and any(word.name is not None for word in sentence.words[:start]):
        return False  # Mask slid, lid moved: two things that went wrong.
    said = [low for word in words for low in word.low.split(" ")]
    if any(word.tags & _OTHER_THAN_WHY for word in words) or said[0] in _NO_SUBJECT:
        return False
    known = sentence.lexicon.clauses
    return _ends(said, known["astray"]) or _left_out(words, said, known["left_out"])


def _ends(said: list[str], phrases: frozenset[str]) -> bool:
    """See a thing and what it did by itself: nothing more stands in the clause."""
    ends = {" ".join(said[at:]) for at in range(1, len(said))}
    return not ends.isdisjoint(phrases)


def _left_out(words: list[Word], said: list[str], phrases: frozenset[str]) -> bool:
    """See work that was not done: didn't degrease, forgot to centre punch."""
    size = next((n for n in (3, 2, 1) if " ".join(said[:n]) in phrases), 0)
    if not 0 < size < len(said):
        return False
    verb = next((word for word in words[1:]), words[0]).tags
    done = any(tag.startswith(("make:", "close:")) for tag in verb)
    return done or (not verb and said[0] in ("forgot", "didn't", "didnt"))


def gone_astray(sentence: Sentence, choice: Choice) -> list[Word]:
    """Give what went astray where just that word told of the failure.

    Hole 5 came out off centre, drill wandered: the last clause tells why, the first
    what came of it.
    """
    for start, end in [*clauses(sentence)][1:]:
        if start <= choice.at < end and went_astray(sentence, start, end):
            about = any(_is_thing(word) for word in sentence.words[:start])
            return sentence.words[start:end] if about else []
    return by_what(sentence, choice.at + 1)


def _is_thing(word: Word) -> bool:
    told = word.tags & {"structure", "fastener", "generic", "material"}
    return word.name is not None or word.sort is Sort.LABEL or bool(told)


_PLACED = frozenset({"place", "structure", "fastener", "tool"})


def by_what(sentence: Sentence, at: int) -> list[Word]:
    """Give what did it, of “nicked by a burr”: where it was is “by the hole”."""
    by, article, noun = (sentence.word(at + ahead) for ahead in range(3))
    if by is None or article is None or noun is None or by.low != "by":
        return []
    placed = noun.tags & _PLACED and "cause_hint" not in noun.tags
    plain = noun.sort is Sort.WORD and noun.name is None and not placed
    broke = any(tag in ("fail", "fail:past") for tag in sentence.tags(at - 1))
    if article.low not in ("a", "an", "the") or not plain or not broke:
        return []
    return [article, noun]
