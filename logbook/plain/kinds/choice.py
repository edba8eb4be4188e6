"""A choice of kind, and what several rules look for in a line."""

from __future__ import annotations

from dataclasses import dataclass

from logbook.plain.understanding import Doubt, Kind
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence


@dataclass(frozen=True, slots=True)
class Choice:
    """A kind, how sure it is, the word that told it, and a doubt if there is one."""

    kind: Kind
    confidence: float
    at: int = -1
    doubt: Doubt | None = None


FIGURES = (Sort.NUMBER, Sort.SIZE)


ATTRIBUTED = (
    "attribution_drawing",
    "attribution_piece",
    "attribution_machine",
    "attribution_not_drawing",
)


def parts_named(sentence: Sentence) -> list[int]:
    """Give where parts and pieces are named."""
    return [*sentence.named("part"), *sentence.named("piece")]


def beside_material(sentence: Sentence, at: int) -> bool:
    """Tell whether a figure stands beside a material that is no part's name."""
    return any(
        word is not None and word.name is None and "material" in word.tags
        for word in (sentence.word(at - 1), sentence.word(at + 1))
    )


def priced(sentence: Sentence) -> bool:
    """Tell whether an amount of money with its currency stands in the line."""
    return any(word.dimension.startswith("money") for word in sentence.words)


def money(sentence: Sentence) -> bool:
    """Tell whether an amount of money stands in the line, currency typed or not."""
    return priced(sentence) or any(
        len(word.amounts[0].replace(",", ".").partition(".")[2]) == 2 and not word.unit
        for word in sentence.words
        if word.sort is Sort.NUMBER
    )


def first_past(sentence: Sentence) -> int | None:
    """Give where the first verb of work done stands."""
    found = sentence.tagged("make:past", "close:past", "rework:past")
    return found[0] if found else None


def to_be_made(sentence: Sentence) -> bool:
    """Tell whether a line begins with an order to make something: make 3, do 3."""
    if not sentence.words:
        return False
    tags, counted = sentence.tags(0), sentence.word(1)
    if sentence.words[0].low == "do" and counted is not None:
        return counted.whole is not None
    return "make:base" in tags and "make:past" not in tags


def adjectival(sentence: Sentence, at: int) -> bool:
    """Tell “the cracked diffuser” from “cracked the diffuser”."""
    word, following = sentence.words[at], sentence.word(at + 1)
    if not any(tag.endswith(":past") for tag in word.tags) or following is None:
        return False
    noun = following.name is not None or bool(
        following.tags & {"structure", "fastener"}
    )
    return noun and at > 0 and bool(sentence.tags(at - 1) & {"article", "scrap"})


def opens_by_itself(sentence: Sentence, at: int) -> bool:
    """Tell “the joint opened up” from “opened up the hole”."""
    before = sentence.word(at - 1) if at else None
    return before is not None and (
        before.name is not None or "structure" in before.tags
    )


def opens_part(sentence: Sentence, at: int) -> bool:
    """Tell “opened the lid again”, taken apart, from a hole opened up to a size."""
    name = at + 2 if "article" in sentence.tags(at + 1) else at + 1
    part, behind = sentence.word(name), sentence.word(name + 1)
    if sentence.words[at].low != "opened" or part is None or part.name is None:
        return False
    widened = behind is not None and (
        behind.low in ("up", "out", "wider") or bool(behind.tags & {"structure"})
    )
    return part.name.role == "part" and not widened and not sentence.sorts(*FIGURES)
