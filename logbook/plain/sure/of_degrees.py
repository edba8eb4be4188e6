"""Degrees that may be of heat or of an angle, where nothing in the line tells which."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.plain.sure.unread import Unread
from logbook.plain.understanding import Doubt, Kind
from logbook.plain.words.degrees import is_bare, is_heat, of_an_angle

_SQUARE, _NEAR = 90, 3
"""So near to square, and not whole, an angle was measured."""


def heat_or_angle(reading: Unread) -> Iterator[Doubt]:
    """See “lamp is 58 degrees” where no angle of it is on record."""
    line, sentence = reading.line, reading.sentence
    words, known = sentence.vocabulary, sentence.lexicon
    sizes = words.characteristics.get(line.facts.part, ())
    if line.kind not in (Kind.READING, Kind.STEP) or of_an_angle(sentence.words, known):
        return
    if any("angle" in one.casefold() for one in sizes):
        return
    for word in sentence.words:
        if not is_bare(word) or not reading.read(word):
            continue
        for value in word.quantities("°"):
            if abs(value.value - _SQUARE) <= _NEAR and word.has_decimals:
                continue
            number = value.text.rstrip("degrs° ") or value.text
            angle = f"angle {number}°"
            heat: tuple[str, ...] = (f"{number} °C",)
            if words.unit == "in":
                heat = (f"{number} °F", *heat)
            sure = is_heat(sentence.words, word, words, known)
            which = " / ".join(heat) if sure else "of heat, or an angle"
            choices = heat if sure else (*heat, angle)
            yield Doubt("value", f"“{word.text}”: {which}?", choices)
