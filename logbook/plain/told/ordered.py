"""What was ordered: the part it is or is for, how many, what it cost."""

from __future__ import annotations

from typing import Any

from logbook.plain.kinds.choice import Choice
from logbook.plain.told.outcomes import told
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence

_ENDS = frozenset(
    {"for", "to", "from", "at", "due", "coming", "back", "until", "by", "because"}
)
_SPANS_OF_TIME = frozenset({"week", "day", "month", "hour", "year"})


def ordered_part(sentence: Sentence, _: Choice) -> dict[str, Any]:
    """Give the one known part that an ordered screw can be: M4x20 for M4x20 screw."""
    if sentence.named("part"):
        return {}
    for at in sentence.sorts(Sort.THREAD):
        word = sentence.words[at]
        found = sentence.vocabulary.containing((word.low,))
        if len(found) == 1 and found[0] in sentence.vocabulary.parts:
            sentence.note("part", word)
            return {"part": found[0]}
    return {}


def ordered_item(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """Give in words what was ordered, where a part does not say all of it."""
    words = _item(sentence, choice.at + 1)
    if sentence.words[choice.at].low in UNDERWAY and not words:
        words = [one for one in _item(sentence, 0, choice.at) if "is" not in one.tags]
    while words and words[0].low in _FOR_ME:
        words = words[1:]
    while words and ("article" in words[0].tags or words[0].sort is Sort.TIMES):
        words = words[1:]
    counted = {}
    if words and _how_many(words):
        counted = {"quantity": words[0].whole}
        sentence.note("quantity", words[0])
        words = words[1:]
    figures = all(word.sort is Sort.NUMBER for word in words)  # Paid 12.40 for it.
    if not words or figures or all(_is_part(word) for word in words):
        return counted
    sentence.spans.pop("readings", None)
    return {**counted, **told(sentence, "item", words), "readings": ()}


UNDERWAY = frozenset({"on its way", "on their way", "on the way"})
_FOR_ME = frozenset({"me", "us", "myself", "ourselves"})


def _item(sentence: Sentence, start: int, end: int | None = None) -> list[Word]:
    words: list[Word] = []
    for word in sentence.words[start:end]:
        money = word.dimension.startswith("money")
        when = word.sort in (Sort.WHEN, Sort.DATE, Sort.CLOCK)
        if word.low in (",", ";", "(") or money or when or word.low in _ENDS:
            break
        words.append(word)
    return words


def _how_many(words: list[Word]) -> bool:
    """Tell the 4 of “4 rubber feet” from the 2.5 of “2.5 mm sheet” and a price."""
    first = words[0]
    if first.sort is Sort.COUNT:
        return len(words) > 1
    bare = first.sort is Sort.NUMBER and first.whole is not None and not first.unit
    return bare and len(words) > 1 and words[1].sort in (Sort.WORD, Sort.THREAD)


def _is_part(word: Word) -> bool:
    return (word.name is not None and word.name.role == "part") or (
        word.tags & {"filler"} != frozenset()
    )


def counts_time(word: Word | None) -> bool:
    """Tell the 2 of “2 weeks” from a number of things."""
    return word is not None and word.low.removesuffix("s") in _SPANS_OF_TIME
