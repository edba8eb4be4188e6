"""How a verb of a line is meant: as work done, as an order, or of what only is so."""

from __future__ import annotations

from logbook.plain.words.figures import FIGURES
from logbook.plain.words.sentence import Sentence


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


_CANNOT = frozenset({"cannot", "can't", "cant", "never", "not", "won't", "wont"})


def shut_for_good(sentence: Sentence) -> list[int]:
    """Give where something is said to stay as it is: glued on, this can't be undone."""
    found = []
    for at, word in enumerate(sentence.words):
        before = [low for one in sentence.words[max(0, at - 4) : at]
                  for low in one.low.split(" ")]  # fmt: skip
        said = [*before, *word.low.split(" ")]
        undone = said[-1] in ("undone", "reversed", "reopened") and len(said) > 1
        if undone and said[-2] == "be" and _CANNOT & {*said}:
            found.append(at)
    return found


def refused(sentence: Sentence) -> bool:
    """See “don't glue the lid, I may need to get in again”, which is decided.

    Not “do not bend it before the holes are drilled”: it only tells what comes first.
    """
    verb = sentence.tags(1) & {"make:base", "close:base"}
    if not verb or not sentence.tags(0) & {"negative"}:
        return False
    lows = {word.low.split(" ")[0] for word in sentence.words[2:]}
    return not lows & {"before", "until", "till", "unless", "while"}
