"""The unknown noun of a line that can only be a part nobody has named yet.

In a grown project only sure places count: the subject of a failure or a size,
the object of work with its article. In a young one any noun of the line may be
a part of it.
"""

from __future__ import annotations

from logbook.plain.figures import Sort, Word
from logbook.plain.sentence import Sentence

_WORK = frozenset(
    {
        "make:past", "close:past", "rework:past", "scrap:past", "take_back:past",
        "repair:past", "fail:past", "close:ing", "make:ing", "scrap:base",
        "rework:base", "repair:base",
    }
)  # fmt: skip
_LEADS = frozenset({"article", "adjective", "ordinal"})
_NO_PLURAL = frozenset({"ss", "us", "is", "ns"})
"""Endings before which a final s is no plural: brass, bus, chassis, lens."""
_ABOUT = frozenset({"fail", "negative", "measures", "structure", "off_strong"})


YOUNG = 8
"""A project with fewer parts than this still meets its parts for the first time."""


def is_young(sentence: Sentence) -> bool:
    """Tell whether the project has few parts yet."""
    return len(sentence.vocabulary.parts) < YOUNG


def find_new_part(sentence: Sentence) -> tuple[str, ...]:
    """Give the words of a part that is not known yet, empty where there is none."""
    if any(
        word.name is not None and word.name.role in ("part", "piece", "characteristic")
        for word in sentence.words
    ):
        return ()
    run = _subject(sentence) or _object(sentence)
    if not run and is_young(sentence):
        run = _anywhere(sentence)
    return _singular(sentence, run)


def _run(sentence: Sentence, start: int) -> list[int]:
    """Give the places of one or two unknown words that stand together."""
    places: list[int] = []
    at = start
    while at < len(sentence.words) and _unknown(sentence.words[at]):
        places.append(at)
        at += 1
    if len(places) == 2 and sentence.words[places[1]].low.endswith(("ed", "ing")):
        return places[:1]
    return places if len(places) <= 2 else []


def _unknown(word: Word) -> bool:
    if word.sort is not Sort.WORD or word.name is not None or word.corrected:
        return False
    plain = len(word.low) >= 3 and not word.low.endswith("ly")
    return plain and (not word.tags or word.tags == {"channel_nouns"})


def _after_leads(sentence: Sentence, start: int) -> int:
    at = start
    while at < len(sentence.words) and (
        sentence.tags(at) & _LEADS or sentence.words[at].sort in (Sort.WHEN, Sort.COUNT)
    ):
        at += 1
    return at


def _subject(sentence: Sentence) -> list[int]:
    run = _run(sentence, _after_leads(sentence, 0))
    if not run:
        return []
    following = sentence.word(run[-1] + 1)
    if following is None:
        return []
    if "material" in following.tags:
        return []
    figure = following.sort in (Sort.NUMBER, Sort.SIZE)
    other = following.dimension not in ("", "length")
    exact = figure and (following.has_decimals or (other and len(run) == 1))
    told = bool(following.tags & _ABOUT) and following.sort is Sort.WORD
    if is_young(sentence):
        told = told or bool(following.tags) or following.sort is not Sort.WORD
    return run if exact or told else []


def _object(sentence: Sentence) -> list[int]:
    first = _after_when(sentence)
    tags = sentence.tags(first)
    if not tags & _WORK or "vague_verb" in tags:
        return []
    start = _after_leads(sentence, first + 1)
    led = start > first + 1 and bool(sentence.tags(first + 1) & _LEADS)
    run = _run(sentence, start)
    if not run or not (led or is_young(sentence)):
        return []
    following = sentence.word(run[-1] + 1)
    if following is not None and following.tags & {"material"}:
        return []
    return run


def _after_when(sentence: Sentence) -> int:
    at = 0
    while at < len(sentence.words) and (
        sentence.words[at].sort is Sort.WHEN or sentence.words[at].low == ","
    ):
        at += 1
    return at


def _anywhere(sentence: Sentence) -> list[int]:
    for lead in ("article", "preposition"):
        for at in sentence.tagged(lead):
            if run := _run(sentence, _after_leads(sentence, at + 1)):
                return run
    for at in range(len(sentence.words)):
        if run := _run(sentence, at):
            return run
    return []


def _singular(sentence: Sentence, run: list[int]) -> tuple[str, ...]:
    words = [sentence.words[at].low for at in run]
    if words and words[-1].endswith("s") and words[-1][-2:] not in _NO_PLURAL:
        words[-1] = words[-1].removesuffix("s")
    return tuple(words)


def find_next_layer(sentence: Sentence) -> tuple[str, ...]:
    """Give the words of one more unknown part that a fastener goes through."""
    fastened = sentence.sorts(Sort.THREAD) or sentence.has("fastener")
    if not fastened or not is_young(sentence):
        return ()
    if not sentence.has("through_sure", "hold"):
        return ()
    for at in sentence.tagged("joiner", "through"):
        if run := _run(sentence, _after_leads(sentence, at + 1)):
            return _singular(sentence, run)
    return ()
