"""Whose fault it is, told as a choice: the drawing is wrong, only my machine."""

from __future__ import annotations

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.verbs import first_past
from logbook.plain.named.own_machine import own_machine
from logbook.plain.understanding import Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.figures import FIGURES
from logbook.plain.words.sentence import Sentence, parts_named

ATTRIBUTED = (
    "attribution_drawing",
    "attribution_piece",
    "attribution_machine",
    "attribution_not_drawing",
)


def attributed(sentence: Sentence, values: Values) -> Choice | None:
    """See whose fault it is: the drawing is wrong, only my machine."""
    if (own := own_machine(sentence)) is not None:
        return Choice(Kind.DECISION, 0.88, own)
    found = [at for at in sentence.tagged(*ATTRIBUTED) if not _only_used(sentence, at)]
    found = not_mine(sentence) or found
    found = found or drawn_wrong(sentence)
    found = found or my_machine(sentence)
    if not found or first_past(sentence) == 0:
        return None
    own = "attribution_piece" in sentence.tags(found[0])
    off = own and values.off is not None and bool(parts_named(sentence))
    if off and found[0] > sentence.sorts(*FIGURES)[0]:
        return None  # A size that is off, and whose fault that is.
    if values.readings and values.wanted and found[0] > sentence.sorts(*FIGURES)[0]:
        return None
    return Choice(Kind.DECISION, 0.85, found[0])


def _only_used(sentence: Sentence, at: int) -> bool:
    """See what is only worked on: hard to clamp on my folder."""
    mine = "attribution_machine" in sentence.tags(at)
    before = sentence.word(at - 1) if at else None
    used = before is not None and before.low in ("on", "with", "in", "at")
    papers = any(word.low.split(" ")[0] in _PAPERS for word in sentence.words)
    return mine and used and not papers and not sentence.has("off", "off_strong")


def my_machine(sentence: Sentence) -> list[int]:
    """See “my table saw takes 0.3 more, the drawing stays”: a fault of this shop."""
    if (own := own_machine(sentence)) is not None:
        return [own]
    drawn = any(
        word.low.split(" ")[0] in _PAPERS or word.low.split(" ")[-1] in _PAPERS
        for word in sentence.words
    )
    if (
        drawn
        and len(sentence.words) > 2
        and "tool" in sentence.tags(0)
        and sentence.words[1].low == "of"
        and sentence.words[2].low in ("mine", "ours")
    ):
        return [0]
    for at, word in enumerate(sentence.words[:-2]):
        mine = word.low in ("my", "our")
        tool = {"tool"} & (sentence.tags(at + 1) | sentence.tags(at + 2))
        owned = sentence.words[at + 1].low.removesuffix("'s")
        known = sentence.lexicon.longest([owned], 0)
        mine_too = known is not None and "tool" in known[1]
        if mine and (tool or mine_too) and drawn:
            return [at]
    return []


def not_mine(sentence: Sentence) -> list[int]:
    """See “0.4 short is the drawing, not my saw”: the paper is said to be at fault."""
    lows = [word.low for word in sentence.words]
    if not any(low.split(" ")[-1] in _PAPERS for low in lows):
        return []
    return [
        at
        for at in range(1, len(lows))
        if lows[at - 1] in _NOT and _own_doing(sentence, at)
    ]


def _own_doing(sentence: Sentence, at: int) -> bool:
    """Tell whether a word is the builder or a tool of his: me, my saw, our printer."""
    low = sentence.words[at].low
    if low in ("me", "us", "mine", "ours"):
        return True
    tags = sentence.tags(at)
    tool = "tool" in sentence.tags(at + 1) | sentence.tags(at + 2)
    return "attribution_machine" in tags or (low in ("my", "our") and tool)


_NOT = frozenset({"not", "isn't", "isnt", "wasn't", "wasnt", "never"})
_PAPERS = frozenset({"drawing", "plan", "dxf", "stl", "model", "file"})
_PUTS = frozenset({"has", "shows", "puts", "calls", "says", "gives", "places"})


def drawn_wrong(sentence: Sentence) -> list[int]:
    """See “drawing has the hole 2 mm too low”: whose fault it is, in other words."""
    lows = [word.low for word in sentence.words]
    at = next((at for at, low in enumerate(lows[:3]) if low.split()[0] in _PAPERS), -1)
    if at < 0 or not _PUTS & {one for low in lows[at : at + 2] for one in low.split()}:
        return []
    wrong = [
        place
        for place in range(at + 1, len(lows))
        if lows[place] == "wrong" or sentence.tags(place) & {"off_strong"}
    ]
    return wrong[:1]
