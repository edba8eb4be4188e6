"""Where in a circuit something was measured that is no part: the supply, a plug.

Volts, amperes and ohms are read at a point. A project that has its parts makes none of
a point: a value is called by it, “supply 24.1 V”, or taken there, “4.9 V at the plug”.
"""

from __future__ import annotations

from collections.abc import Sequence

from logbook.plain.named.name_places import is_young, subject
from logbook.plain.named.names import (
    AXES,
    ELECTRICAL,
    after_leads,
    is_thing,
    name_run,
    singular,
)
from logbook.plain.named.unnamed import Unnamed
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence


def measured_point(sentence: Sentence) -> Unnamed | None:
    """Give the words for a point of a circuit that a value is told of."""
    if is_young(sentence):
        return None
    values = [
        at for at, word in enumerate(sentence.words) if word.dimension in ELECTRICAL
    ]
    if not values:
        return None
    run: Sequence[int] = subject(sentence)
    role = "characteristic"
    if not run or run[0] > values[0]:
        run, role = _at_a(sentence, values[0], values[-1]), "place"
    if not run or not _may_be_point(sentence, run, role):
        return None
    if len(run) > 1 and sentence.words[run[0]].low in AXES:
        return None
    if role == "characteristic" and _is_measure(sentence, run[-1] + 1):
        run = [*run, run[-1] + 1]
    words = tuple(sentence.words[at].low for at in run)
    known = sentence.vocabulary
    if known.containing(words) or known.misspelt(words) or known.compounded(words[-1]):
        return None
    return Unnamed(words, role=role)


def _may_be_point(sentence: Sentence, run: Sequence[int], role: str) -> bool:
    """Tell the supply, and where a motor is fed, from the motor that draws so much."""
    called = " ".join(singular([sentence.words[at].low for at in run]))
    points = sentence.lexicon.names["of_circuits"]
    return role == "place" or called in points or not is_thing(sentence, run)


def _is_measure(sentence: Sentence, at: int) -> bool:
    """See the voltage of “the supply voltage is 23.9 V”."""
    tags = sentence.tags(at)
    return bool(tags & {"measures"}) and not tags & {"is"}


def _at_a(sentence: Sentence, value: int, last: int) -> Sequence[int]:
    """Give the plug of “24.1 V at the plug”, and of “voltage at the plug 24.1 V”."""
    for at in (last + 1, *range(max(1, value - 4), value)):
        word, before = sentence.word(at), sentence.tags(at - 1)
        figure = sentence.words[at - 1].sort is Sort.NUMBER
        told = figure or "measures" in before
        if told and word is not None and word.low in ("at", "on", "across"):
            return name_run(sentence, after_leads(sentence, at + 1))
    return ()
