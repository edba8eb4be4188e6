"""Where on the part it happened."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from logbook.plain.kinds.choice import Choice
from logbook.plain.told.astray import by_what
from logbook.plain.told.outcomes import told
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence


def where(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """Give where on the part it happened."""
    for at in sentence.sorts(Sort.LABEL):
        label = sentence.words[at]
        of_a_tool = "tool" in sentence.tags(at + 1)  # Number 60 drill.
        no_place = label.low.split(" ")[0] in _NO_PLACES
        if of_a_tool or no_place or label.text[:1].isdigit():
            continue
        return told(sentence, "where", [sentence.words[at]])
    first = (
        choice.at + 1
        if "crack" not in sentence.words[choice.at].low or choice.at
        else 0
    )
    words = _counted_from(sentence) or _located(sentence, first)
    words = words or _place_alone(sentence, choice)
    words = words or _which_one(sentence)
    if words:
        return told(sentence, "where", words)
    for at in (choice.at + 1, choice.at + 2, choice.at - 1):
        word = sentence.word(at)
        led = sentence.word(at - 1) if at > 0 else None
        if led is not None and led.low in ("with", "without"):
            continue  # With pads cracked again: what it had, and no place.
        if word is not None and word.name is None and "structure" in word.tags:
            return told(sentence, "where", _described(sentence, at))
    return {}


_NO_PLACES = frozenset(
    {
        "test",
        "trial",
        "attempt",
        "order",
        "item",
        "step",
        "day",
        "week",
        "build",
        "rev",
        "revision",
        "version",
        "batch",
    }
)


def apart_from_why(sentence: Sentence, facts: dict[str, Any]) -> dict[str, Any]:
    """Give the facts without a place that only the reason names: too near the edge."""
    placed, why = sentence.spans.get("where", []), sentence.spans.get("cause", [])
    broke = any(tag in ("fail", "fail:past") for word in why for tag in word.tags)
    if placed and why and not broke and all(word in why for word in placed):
        sentence.spans.pop("where")
        return {fact: value for fact, value in facts.items() if fact != "where"}
    return facts


def _counted_from(sentence: Sentence) -> list[Word]:
    """Give the one that is counted from a side: 3rd from left, second from the top."""
    for at, word in enumerate(sentence.words[:-2]):
        which = word.sort is Sort.ORDINAL or "ordinal" in word.tags
        side = at + 3 if "article" in sentence.tags(at + 2) else at + 2
        led = sentence.words[at + 1].low.split(" ")[0] == "from"
        if sentence.words[at + 1].low == "from the":
            side = at + 2
        if which and led and "place" in sentence.tags(side):
            return sentence.words[at : side + 1]
    return []


def _located(sentence: Sentence, first: int) -> list[Word]:
    """Give the phrase that tells where: along the grain at the top screw, the screw."""
    found: list[tuple[bool, list[Word]]] = []
    for at in range(first, len(sentence.words)):
        if sentence.tags(at) & {"because", "cure"}:
            break
        if "locative" in sentence.tags(at) and not by_what(sentence, at):
            went = sentence.words[at - 1].low in ("went", "goes") if at else False
            led = "article" in sentence.tags(at + 1)
            words = _phrase(sentence, at + 1) if led or not went else []
            if not led and sentence.words[at].low == "in" and is_stuff(words):
                continue  # Sagged too, in PETG: of what it was made.
            if words and _is_place(words, sentence):
                runs = sentence.words[at].low in _RUNS
                beside = sentence.words[at].low in _BESIDE and words[0].name is not None
                if sentence.words[at].low == "between":
                    words += _and_the_other(sentence, words)
                from_it = sentence.words[at : sentence.words.index(words[-1]) + 1]
                found.append((runs, from_it if beside else words))
    return min(found, key=lambda row: row[0])[1] if found else []


def is_stuff(words: Sequence[Word]) -> bool:
    """Tell whether words name a material alone."""
    return bool(words) and all(
        word.name is None and "material" in word.tags for word in words
    )


def made_so(words: Sequence[Word]) -> bool:
    """Tell whether words only say of what, and by which revision, a thing was made."""
    rest = [
        word
        for word in words
        if word.low not in ("in", "by", "to", "of", "from", "and")
        and not (word.sort is Sort.LABEL and word.low.startswith("rev"))
    ]
    return len(rest) < len(words) and (not rest or is_stuff(rest))


def _and_the_other(sentence: Sentence, words: list[Word]) -> list[Word]:
    """Give the rest of “between the lid and the base”."""
    last = sentence.words.index(words[-1]) + 1
    joiner = sentence.word(last)
    if joiner is None or joiner.low not in ("and", "&"):
        return []
    other = _phrase(sentence, last + 1)
    return [joiner, *other] if other else []


_BESIDE = frozenset(
    {"under", "behind", "above", "below", "beside", "next to", "between"}
)
"""What of a part tells where, though it was not in the part: under the bed."""

_PLACES = frozenset({"place", "structure", "article", "ordinal", "locative"})


def _place_alone(sentence: Sentence, choice: Choice) -> list[Word]:
    """Give a later clause that only tells a place: LH corner, left hole, lid edge."""
    for start, end in place_clauses(sentence):
        if start > choice.at:
            return sentence.words[start:end]
    return []


def place_clauses(sentence: Sentence) -> Iterator[tuple[int, int]]:
    """Go through the clauses that tell a place and nothing else."""
    for start, end in clauses(sentence):
        row = sentence.words[start:end]
        named = row[0].name is not None and len(row) > 1
        rest = row[1:] if named else row
        tells = any(word.tags & {"place", "structure"} for word in rest)
        plain = all(word.tags & _PLACES and word.name is None for word in rest)
        if start and tells and plain and not any(_is_event(word) for word in rest):
            yield start, end


def _is_event(word: Word) -> bool:
    return any(tag.startswith(("fail", "make:past", "close:past")) for tag in word.tags)


def _which_one(sentence: Sentence) -> list[Word]:
    """Give the one of several it happened at: split when I put the 3rd screw in."""
    for at, word in enumerate(sentence.words[:-1]):
        which = word.sort is Sort.ORDINAL or "ordinal" in word.tags
        if which and sentence.tags(at + 1) & {"fastener", "structure"}:
            return sentence.words[at : at + 2]
    return []


_RUNS = frozenset({"along", "across", "over", "through", "round", "around"})


def _described(sentence: Sentence, at: int) -> list[Word]:
    """Give a structure with the words before it that tell which: front corner."""
    first = at
    while first and sentence.tags(first - 1) & {"place", "ordinal"}:
        first -= 1
    return sentence.words[first : at + 1]


def _phrase(sentence: Sentence, at: int) -> list[Word]:
    words: list[Word] = []
    while at < len(sentence.words) and len(words) < 5:
        word = sentence.words[at]
        if "article" in word.tags and not words:
            at += 1
            continue
        which = "place" in word.tags and sentence.tags(at + 1) & {"structure"}
        if which and not words:
            words.append(word)  # The inside of “at the inside corner”.
            at += 1
            continue
        if word.sort in (Sort.MARK, Sort.WHEN, Sort.NUMBER) or word.tags & {
            "joiner", "preposition", "because", "adverse", "cure", "fail",
            "is", "guess",
        }:  # fmt: skip
            break
        following = sentence.word(at + 1)
        words.append(word)
        told = following is not None and following.sort is Sort.WORD
        goes_on = sentence.tags(at + 1) & {"structure", "place", "fastener", "material"}
        if word.name is not None and told and not goes_on:
            break  # The lid bloomed white: what it did is no place.
        at += 1
    return words


def _is_place(words: list[Word], sentence: Sentence) -> bool:
    if any(tag.startswith("time:") for word in words for tag in word.tags):
        return False
    if words[0].sort is Sort.LABEL and words[0].low.split(" ")[0] in _NO_PLACES:
        return False  # Made by rev A.
    no_place = words[-1].low in sentence.lexicon.clauses["no_places"]
    if no_place or words[-1].low.endswith("ing"):
        return False
    if len(words) == 1 and (words[0].name or words[0].tags & {"generic", "tool"}):
        part = sentence.spans.get("part", [])
        return bool(words[0].name) and words[0] not in part
    return True
