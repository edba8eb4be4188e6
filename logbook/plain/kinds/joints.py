"""Joints as fitted, and fasteners counted."""

from __future__ import annotations

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.verbs import first_past, to_be_made
from logbook.plain.understanding import Doubt, Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.figures import FIGURES, Sort
from logbook.plain.words.sentence import Sentence, parts_named


def joint_made(sentence: Sentence, values: Values) -> Choice | None:
    """See a fastener as fitted through its layers."""
    fastener = sentence.sorts(Sort.THREAD) or sentence.tagged("fastener")
    parts = parts_named(sentence)
    if not parts:
        return None
    way = sentence.tagged("in_the_way")
    if way:
        return Choice(Kind.FAILURE, 0.5, way[0], _in_the_way(sentence, way[0]))
    if not fastener or _is_measured(sentence, values):
        return None
    through = sentence.tagged("through_sure")
    held = [at for at in sentence.tagged("hold") if not _commanded(sentence, at)]
    stands = [
        at
        for at in range(len(sentence.words))
        if sentence.words[at].low in ("stands", "sticks", "protrudes")
    ]
    two = len({sentence.words[at].name for at in parts}) >= 2
    if through and (two or sentence.sorts(Sort.THREAD)):
        return Choice(Kind.JOINT, 0.88, through[0])
    to = [word for word in sentence.words if word.low in ("to", "with", "on")]
    if two and to and sentence.sorts(Sort.THREAD) and first_past(sentence) is None:
        return Choice(Kind.JOINT, 0.8, sentence.sorts(Sort.THREAD)[0])
    if held and two:
        return Choice(Kind.JOINT, 0.82, held[0])
    if stands and sentence.sorts(Sort.THREAD):
        return Choice(Kind.JOINT, 0.8, stands[0])
    return None


def _is_measured(sentence: Sentence, values: Values) -> bool:
    """See the size that a line begins with: torque on the lid screws 0.4 N·m."""
    first = 1 if "article" in sentence.tags(0) else 0
    told = "measures" in sentence.tags(first) and "hold" not in sentence.tags(first)
    exact = any(one.value.dimension != "length" for one in values.readings)
    return told and exact and first_past(sentence) is None


def _commanded(sentence: Sentence, at: int) -> bool:
    """Tell the screw of “screw the bed on first” from screws that hold it."""
    tags = sentence.tags(at)
    return at == 0 and "hold:base" in tags and "hold:past" not in tags


def _in_the_way(sentence: Sentence, at: int) -> Doubt:
    """Ask of “the bolt runs into the cable”: a wire may be led into its channel."""
    verb = sentence.words[at].text
    question = f"“{verb}”: is one in the way of the other?"
    return Doubt("kind", question, ("one failure", "only a note"))


def counted(sentence: Sentence, _: Values) -> Choice | None:
    """See a count told: used 6 of 8 inserts."""
    counts = sentence.sorts(Sort.COUNT)
    openings = sentence.lexicon.names["openings"]
    behind = [word for at in counts[:1] for word in sentence.words[at + 1 : at + 2]]
    if any(word.low in openings for word in behind):
        return None  # Six holes in the collar, four was too few.
    if to_be_made(sentence):
        return None  # Make 3 spares: to be made, not counted.
    if any(sentence.words[at].has_decimals for at in sentence.sorts(*FIGURES)):
        return None  # Took three tries, but the angle reads 90.5.
    listed = sentence.tagged("list_says")
    used = sentence.tagged("used")
    sides = any(word.low == "right" for word in sentence.words)
    left = [] if sides else sentence.tagged("count_left")
    whole = [
        at
        for at, word in enumerate(sentence.words)
        if word.whole is not None and not word.unit
    ]
    if counts and listed and len(whole) >= 2:
        return Choice(Kind.COUNT, 0.82, listed[0])
    whole_part = (
        any(at < counts[0] for at in parts_named(sentence)) if counts else False
    )
    used_up = used and used[0] == 0 and not sentence.has("through_sure")
    if counts and used_up and not whole_part:
        return Choice(Kind.COUNT, 0.78, used[0])
    befell = [at for at in sentence.tagged("fail") if counts and at < counts[0]]
    if befell:
        return None  # The tap snapped in it, 2 holes are left to do.
    if counts and left and left[0] > counts[0] and first_past(sentence) is None:
        return Choice(Kind.COUNT, 0.78, left[0])
    if left and left[0] == 0 and whole and len(sentence.words) <= 4:
        return Choice(Kind.COUNT, 0.75, 0)
    return None
