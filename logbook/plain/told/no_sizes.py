"""Figures that look like a size and are none: a grit, an hour, so many holes."""

from __future__ import annotations

from itertools import pairwise

from logbook.plain.kinds.choice import Choice
from logbook.plain.told.several import typed_unit
from logbook.plain.understanding import Kind, Reading
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence
from logbook.quantity import Quantity

_NUMBERED = frozenset({"no", "no.", "nr", "nr.", "#", "number"})
_MOST_PIECES = 20


def is_of_piece(
    sentence: Sentence, choice: Choice, one: Reading, readings: list[Reading]
) -> bool:
    """Tell the 2 of “lamp 2”, which of them it is, from a size."""
    if choice.kind is Kind.READING and len(readings) < 2:
        return False
    for before, word in pairwise(sentence.words):
        bare = word.sort is Sort.NUMBER and not word.unit
        whole = word.whole or 0 if bare else 0
        small = whole == one.value.value and 0 < whole <= _MOST_PIECES
        part = before.name is not None and before.name.role == "part"
        if small and (part or before.low in _NUMBERED):
            return True
    return False


def is_of_another(sentence: Sentence, one: Reading, readings: list[Reading]) -> bool:
    """Tell the 100 mm of “the 100 mm hose does not go on” from a size that was read.

    What is said of another thing than the part names it; the size that was measured has
    a name of its own.
    """
    if one.what or not any(other.what for other in readings):
        return False
    words = sentence.words
    for at, word in enumerate(words[1:-1], 1):
        behind = words[at + 1]
        led = "article" in words[at - 1].tags
        plain = behind.sort is Sort.WORD and behind.name is None
        named = plain and not behind.tags & {"measures", "is", "place", "joiner"}
        if (
            led
            and named
            and word.sort in FIGURES
            and one.value in word.quantities("mm")
        ):
            return True
    return False


_HOLES = ("drill", "tap", "countersunk", "countersank", "punch", "bore", "ream")


def so_many_holes(sentence: Sentence) -> bool:
    """See the 4 of “drilled 4 x 3.2 in the lid”: so many holes, no size."""
    drills = any(word.low.startswith(_HOLES) for word in sentence.words)
    for at in sentence.sorts(Sort.SIZE):
        word = sentence.words[at]
        if len(word.amounts) == 2 and word.amounts[0].isdecimal():
            return drills and "." in word.amounts[1] and len(word.amounts[0]) < 3
    return False


def sizes_in(sentence: Sentence, words: list[Word]) -> list[Quantity]:
    """Give the numbers of these words, in the project's unit where none was typed."""
    unit = sentence.vocabulary.unit
    return [value for word in words for value in word.quantities(unit)]


def is_size(one: Reading) -> bool:
    """Tell a size from the number of a revision: 1 and 4 are good."""
    return one.value.step != 1 or one.value.value > 20


def is_by_so_much(sentence: Sentence, one: Reading) -> bool:
    """Tell the 4 mm of “cable hole 4 mm higher”: a change, and no size it has now."""
    known = sentence.lexicon.clauses
    for at, word in enumerate(sentence.words):
        if word.sort not in FIGURES or one.value not in word.quantities("mm"):
            continue
        before = sentence.words[at - 1].low if at else ""
        behind = sentence.word(at + 1)
        first = behind.low.split(" ")[0] if behind is not None else ""
        if first in known["by_so_much"] or before in known["moved_by"]:
            return True
    return False


_BY_THEN = frozenset({"by", "until", "till", "before", "from", "around", "since"})


def is_an_hour(sentence: Sentence, one: Reading) -> bool:
    """Tell the 8 of “dry by 8”, which is no length."""
    for before, word in pairwise(sentence.words):
        bare = word.whole is not None and not word.unit and word.whole <= 24
        if bare and word.whole == one.value.value and before.low in _BY_THEN:
            return True
    return False


_PLAY = frozenset({"play", "clearance", "slack", "slop"})


def is_play(sentence: Sentence, one: Reading) -> bool:
    """Tell the 0.2 of “fits with 0.2 play”: how it fits, and no size it was made to."""
    return any(
        word.sort is Sort.NUMBER
        and following.low in _PLAY
        and one.value.value in {x.value for x in sizes_in(sentence, [word])}
        for word, following in pairwise(sentence.words)
    )


_OUT_OF = frozenset({"from", "out of", "in"})


def is_of_stock(sentence: Sentence, one: Reading) -> bool:
    """Tell the 3 mm of “cut from 3 mm acrylic”: what it is made of, and no size cut."""
    for at in sentence.tagged("material"):
        row = sentence.words[max(0, at - 2) : at]
        led = len(row) == 2 and row[0].low in _OUT_OF
        if led and one.value in sizes_in(sentence, row[1:]):
            read = sentence.spans.get("readings", [])
            sentence.spans["readings"] = [word for word in read if word is not row[1]]
            sentence.note("material", row[1])
            return True
    return False


_ABRADES = ("sand", "polish", "hone", "buff", "wet sand")
_ABRASIVES = frozenset(
    {"paper", "grit", "stone", "paste", "emery", "cloth", "mesh", "abrasive", "belt"}
)


def is_put_on(sentence: Sentence, one: Reading) -> bool:
    """Tell the 0.4 of “shimmed it with 0.4 brass” from a size of what was reworked."""
    for at in sentence.sorts(Sort.NUMBER):
        before, following = sentence.word(at - 1) if at else None, sentence.word(at + 1)
        led = before is not None and before.low in ("with", "using", "from")
        stuff = following is not None and following.name is None
        if following is not None and following.low in sentence.lexicon.names["packing"]:
            return one.value in sizes_in(sentence, [sentence.words[at]])
        if led and stuff and "material" in sentence.tags(at + 1):
            sentence.note("material", sentence.words[at])
            return one.value in sizes_in(sentence, [sentence.words[at]])
    return False


def is_grit(sentence: Sentence, choice: Choice, one: Reading) -> bool:
    """Tell the 120 of “sanded to 120”, the 400 of “with 400 paper”: no length."""
    if one.value.step != 1 or one.value.value < 40 or typed_unit(sentence, one.value):
        return False
    work = choice.kind in (Kind.STEP, Kind.DISPOSITION)
    if work and sentence.words[choice.at].low.startswith(_ABRADES):
        return True
    return any(
        following.low in _ABRASIVES
        and word.sort is Sort.NUMBER
        and one.value.value in {x.value for x in sizes_in(sentence, [word])}
        for word, following in pairwise(sentence.words)
    )


_BORES = frozenset({"drill", "bit", "drill bit", "tap", "reamer", "countersink"})
"""Tools whose size is that of what they leave: drilled with a 3.2 bit."""
_LED = frozenset({"with", "with a", "using", "by", ",", ";", "the", "a", "an"})


def is_of_a_tool(sentence: Sentence, one: Reading) -> bool:
    """Tell the 2.2 of “cut the lid, blade 2.2”: how the tool is, and no size."""
    return any(
        one.value in sizes_in(sentence, [word])
        for word in sentence.words
        if tool_of(sentence, word)
    )


def tool_of(sentence: Sentence, figure: Word) -> bool:
    """Tell whether a figure stands beside the tool that work was done with."""
    at = sentence.words.index(figure)
    behind, first = sentence.word(at + 1), at - 1
    if figure.sort is not Sort.NUMBER or at < _LEAST:
        return False
    if behind is not None and _is_tool(behind):
        led = sentence.words[at - 1].low
    elif _is_tool(sentence.words[first]):
        led = sentence.words[first - 1].low
    else:
        return False
    return led in _LED


_LEAST = 2


def _is_tool(word: Word) -> bool:
    disc = word.low in ("disc", "wheel", "needle", "cutter", "blade")
    tool = "tool" in word.tags and word.low not in _BORES
    return word.name is None and (tool or disc)
