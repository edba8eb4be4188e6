"""The state a value was read in, put to the values it is told of."""

from __future__ import annotations

from dataclasses import replace

from logbook.plain.values.walk import Walk
from logbook.plain.words.figures import FIGURES, Sort, Word


def take_state(walk: Walk, at: int, word: Word) -> None:
    """Give a state to the value right before it, to all before it, or those to come.

    “63 C with the cover on” is of that value; “…, measured clamped” of all that have
    none of their own.
    """
    readings = walk.values.readings
    walk.preposition = ""
    walk.sentence.note("state", word)
    if not readings or _value_follows(walk, at):
        walk.state = _said(word)
        return
    behind = _is_behind(walk, at)
    first = len(readings) - behind
    own = range(first if behind else 0, len(readings))
    for one in own:
        if not readings[one].state:
            readings[one] = replace(readings[one], state=_said(word))


def _said(word: Word) -> str:
    """Give a state in known words, or as typed where a figure is in it: at 55 % rh."""
    figured = any(sign.isdigit() for sign in word.text)
    return " ".join(word.text.split()) if figured else word.low


def _is_behind(walk: Walk, at: int) -> int:
    """Give behind how many values the word stands at once: 18.2 thick when dry."""
    words = walk.sentence.words[max(0, at - 3) : at]
    while words and (words[-1].tags & {"length_adjective"} or words[-1].low in _LED):
        words.pop()
    told = bool(words) and words[-1].sort in FIGURES
    return min(len(words[-1].amounts), len(walk.values.readings)) if told else 0


_LED = frozenset({"when", "while", "once", "after"})


def _value_follows(walk: Walk, at: int) -> bool:
    """Tell whether a value stands right behind the word: cold 0.42 ohm."""
    following = walk.at(at + 1)
    if following is not None and following.low == ":":
        following = walk.at(at + 2)
    return (
        following is not None and following.sort in FIGURES and not _is_behind(walk, at)
    )


def held_at(walk: Walk, at: int, word: Word) -> None:
    """Give the value before it what held then: 0.82 A at 24 V, 38 dB at 1 m."""
    readings, led = walk.values.readings, walk.at(at - 1)
    told = walk.at(at - 2) if at > 1 else None
    behind = told is not None and told.sort in FIGURES
    at_it = led is not None and led.low in ("at", "@") and bool(word.unit)
    if readings and behind and at_it and not readings[-1].state:
        readings[-1] = replace(readings[-1], state=f"at {word.text}")
        walk.sentence.note("state", word)


def held_value(walk: Walk, at: int) -> bool:
    """Tell whether “at 178.3” is the value itself: nothing else is measured here."""
    others = [
        word
        for place, word in enumerate(walk.sentence.words)
        if place != at
        and word.sort in (Sort.NUMBER, Sort.SIZE)
        and word.dimension != "time"
    ]
    word, of = walk.sentence.words[at], walk.at(at - 2) if at > 1 else None
    warm = word.dimension == "temperature" and walk.preposition == "at"
    name = of.name if of is not None else None
    if warm and name is not None and name.role in ("part", "piece"):
        return True  # Bracket at 44 °C, whatever else the line tells.
    weighed = any(one.low.startswith("weighed") for one in walk.sentence.words[:at])
    if word.dimension == "mass" and weighed and walk.preposition == "at":
        return True  # Weighed the lid at 186 g.
    measured = any("measures" in one.tags or one.name for one in walk.buffer)
    at_it = walk.preposition == "at" or (measured and not word.unit)
    return at_it and not others and word.has_decimals
