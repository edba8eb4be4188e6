"""Which part and piece a line is about, and which others it names."""

from __future__ import annotations

from typing import Any

from logbook.plain.named.name_places import in_passing
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Word
from logbook.plain.words.machine_set import sets_a_machine
from logbook.plain.words.sentence import Sentence


def part_of(sentence: Sentence) -> dict[str, Any]:
    """Give the part the line is about, others it names, and the piece."""
    named = sorted([*sentence.named("part"), *sentence.named("piece")])
    near = [at for at in named if not sentence.tags(at - 1 if at else -1) & {"away"}]
    near = [at for at in near if not _article_after_away(sentence, at)] or named
    near = [at for at in near if not in_passing(sentence, at)]
    if sets_a_machine(sentence):
        machines = sentence.lexicon.names["of_machines"]
        near = [at for at in near if sentence.words[at].low not in machines]
    facts: dict[str, Any] = {}
    near = _beside_value(sentence, near)
    if near:
        word = sentence.words[near[0]]
        facts["part"] = part_named(word)
        sentence.note("part", word)
        others = {part_named(sentence.words[at]): at for at in named}
        others.pop(facts["part"], None)
        facts["others"] = tuple(others)
        facts.update(_pieces(sentence))
        return facts
    for at in sentence.named("characteristic"):
        name = sentence.words[at].name
        if name is not None and name.owner:
            sentence.note("part", sentence.words[at])
            return {"part": name.owner}
    return {}


def _beside_value(sentence: Sentence, near: list[int]) -> list[int]:
    """Put the part first that is named in the clause where the value stands."""
    read = sentence.spans.get("readings", [])
    if not read or len({sentence.words[at].name for at in near}) < 2:
        return near
    for start, end in clauses(sentence):
        if any(word is read[0] for word in sentence.words[start:end]):
            here = [at for at in near if start <= at < end]
            return here + [at for at in near if at not in here]
    return near


def _article_after_away(sentence: Sentence, at: int) -> bool:
    return at >= 2 and bool(
        "article" in sentence.tags(at - 1) and sentence.tags(at - 2) & {"away"}
    )


def part_named(word: Word) -> str:
    """Give the part that a word names, or whose piece or size it names."""
    if word.name is None:
        return ""
    return word.name.owner or word.name.thing


def _pieces(sentence: Sentence) -> dict[str, Any]:
    found = sentence.named("piece")
    if not found:
        return {}
    word = sentence.words[found[0]]
    sentence.note("piece", word)
    return {"piece": word.name.thing if word.name else ""}
