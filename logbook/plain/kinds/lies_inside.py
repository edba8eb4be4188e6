"""What lies where it belongs now: the cable sits inside the channel.

Nobody says who put it there, but it is in: that is what a step that closes asks.
"""

from __future__ import annotations

from logbook.plain.kinds.choice import Choice
from logbook.plain.understanding import Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.figures import FIGURES
from logbook.plain.words.sentence import Sentence

LIES = frozenset({"is", "are", "lies", "lie", "sits", "sit", "runs", "rests"})
_STORES = frozenset({"box", "case", "tray", "pocket"})
"""In what a thing may as well be kept, waiting for its turn."""
_ALREADY = frozenset({"now", "all", "already", "finally"})
_NOT_SO = frozenset(
    {"negation", "negative", "hypothetical", "fail", "planned", "off_strong", "too_bad",
     "fit"}
)  # fmt: skip


def lies_inside(sentence: Sentence, _: Values) -> Choice | None:
    """See a part that is told to lie in a channel, a box, a sleeve."""
    named = sentence.named("part")
    if not named or sentence.sorts(*FIGURES):
        return None
    if any(word.tags & _NOT_SO for word in sentence.words):
        return None
    at = named[0] + 1
    verb = False
    while (word := sentence.word(at)) is not None and word.low in LIES | _ALREADY:
        verb = verb or word.low in LIES
        at += 1
    if not verb or "inside_into" not in sentence.tags(at):
        return None
    holder = at + 2 if "article" in sentence.tags(at + 1) else at + 1
    held = sentence.word(holder)
    if held is None or held.low in _STORES or "channel_nouns" not in held.tags:
        return None
    return Choice(Kind.STEP, 0.85)
