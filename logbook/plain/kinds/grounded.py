"""Whether a line names anything of the bench: “decided to go home” decides nothing."""

from __future__ import annotations

from logbook.plain.kinds.blame import ATTRIBUTED
from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.left_be import left_at
from logbook.plain.kinds.money import counted_goods, priced
from logbook.plain.kinds.refused import left_out
from logbook.plain.named.given_back import given_back_at
from logbook.plain.understanding import Kind
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence

_OF_THE_BENCH = (
    "structure", "fastener", "material", "channel_nouns", "measures",
)  # fmt: skip
_NEEDS_GROUND = (
    Kind.FAILURE, Kind.DECISION, Kind.STEP, Kind.ORDER, Kind.DISPOSITION,
)  # fmt: skip


_GROUND_OF = {
    Kind.ORDER: ("outside_work",),
    Kind.DECISION: ("make:base", "close:base"),
}


def grounded(sentence: Sentence, choice: Choice) -> Choice:
    """Keep as a note what names nothing of the bench: “decided to go home”."""
    if choice.kind not in _NEEDS_GROUND or choice.doubt is not None:
        return choice
    if any(word.name is not None for word in sentence.words):
        return choice
    if _beside_it(sentence, choice, "not_bench") or "instrument" in sentence.tags(0):
        return Choice(Kind.NOTE, 0.4, choice.at)
    vague = "vague_verb" in sentence.tags(choice.at)
    if sentence.has(*_OF_THE_BENCH) or (sentence.has("tool") and not vague):
        return choice
    if sentence.has(*_GROUND_OF.get(choice.kind, ())) or _of_making(sentence, choice):
        return choice
    if sentence.sorts(Sort.THREAD, Sort.GAUGE, Sort.FILE) or _labelled(sentence):
        return choice
    if any(word.unit and word.dimension != "time" for word in sentence.words):
        return choice
    told = sentence.word(choice.at)
    specific = told is not None and not told.tags & {
        "vague_verb",
        "decide",
        "order_done",
    }
    if specific and choice.kind in (Kind.FAILURE, Kind.STEP, Kind.DISPOSITION):
        return choice
    bought = priced(sentence) or counted_goods(sentence, choice.at)
    if sentence.has(*ATTRIBUTED) or (choice.kind is Kind.ORDER and bought):
        return choice
    return Choice(Kind.NOTE, 0.4, choice.at)


def _labelled(sentence: Sentence) -> bool:
    """Tell whether a line names hole 3 or layer 20: no release, which may be late."""
    labels = (sentence.words[at].low for at in sentence.sorts(Sort.LABEL))
    return any(not low.startswith(("release ", "version ")) for low in labels)


_OF_MAKING = ("switching", "switched over", "going with", "from here on", "changing to",
              "going matt", "going gloss", "going satin", "going black")  # fmt: skip


def _of_making(sentence: Sentence, choice: Choice) -> bool:
    """See what is only said of how things are made: switching to satin black."""
    told = sentence.word(choice.at)
    if given_back_at(sentence) == choice.at:
        return True  # Whatever it is that goes back to the shop.
    if choice.kind is not Kind.DECISION or told is None:
        return False
    return (
        told.low.startswith(_OF_MAKING)
        or kept_to_at(sentence) is not None
        or left_at(sentence) == choice.at
        or left_out(sentence)
    )


_KEPT_TO = ("stay with", "staying with", "stick with", "sticking with", "stick to",
            "sticking to", "remain with", "remaining with")  # fmt: skip
_OF_SOMEBODY = frozenset({"my", "our", "her", "his", "their", "us", "them", "me"})


def kept_to_at(sentence: Sentence) -> int | None:
    """See “we will stay with the thinner cord”; not who stays with my parents."""
    for at in sentence.tagged("decide"):
        behind = sentence.word(at + 1)
        if sentence.words[at].low.endswith(_KEPT_TO) and behind is not None:
            stuff = behind.sort is Sort.WORD and behind.low not in _OF_SOMEBODY
            return at if stuff else None
    return None


def _beside_it(sentence: Sentence, choice: Choice, tag: str) -> bool:
    """Tell whether a word stands in the clause that told the kind."""
    return any(
        tag in word.tags
        for start, end in clauses(sentence)
        if start <= choice.at < end or choice.at < 0
        for word in sentence.words[start:end]
    )
