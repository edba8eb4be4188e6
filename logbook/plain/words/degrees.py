"""Degrees of heat told from degrees of an angle, where only “degrees” was typed.

“Lamp gets 58 degrees after an hour” is warmth, “upright leans 0.4 degrees” an angle.
Words beside the figure tell; where none does it is asked (`sure/of_figures.py`).
"""

from __future__ import annotations

from dataclasses import replace

from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.lexicon import Lexicon
from logbook.plain.words.vocabulary import Vocabulary

_WAITED = frozenset({"after", "for", "within"})
_HOTTER_THAN_TURNED = 100
"""Made at more degrees than this, a thing was made hot: nothing is turned so far."""


def heat_told(words: list[Word], vocabulary: Vocabulary, known: Lexicon) -> list[Word]:
    """Read degrees as °C where the line, or its part, tells that they are of heat.

    Who works in inches may mean °F: there they are left to be asked about.
    """
    if vocabulary.unit == "in" or not any(map(is_bare, words)):
        return words
    return [
        replace(word, unit="°C")
        if is_bare(word) and is_heat(words, word, vocabulary, known)
        else word
        for word in words
    ]


def is_bare(word: Word) -> bool:
    """Tell degrees of which only that was typed, 58 degrees or 58°."""
    return word.sort is Sort.NUMBER and word.unit == "°" and len(word.amounts) == 1


def is_heat(
    words: list[Word], degrees: Word, vocabulary: Vocabulary, known: Lexicon
) -> bool:
    """Tell whether words of the line say that degrees are of heat."""
    if of_an_angle(words, known):
        return False
    said = _said(words)
    if any("hot_verb" in word.tags for word in words):
        [value] = degrees.quantities("°") or (None,)
        return value is not None and value.value > _HOTTER_THAN_TURNED
    if said & known.names["of_heat"] or any(
        _waited(words, at) for at in range(len(words))
    ):
        return True
    owners = {
        word.name.thing for word in words if word.name and word.name.role == "part"
    }
    sizes = [one for part in owners for one in vocabulary.characteristics.get(part, ())]
    return bool(sizes) and all("temperature" in one.casefold() for one in sizes)


_LOOSE = frozenset({"play", "backlash", "slack", "slop"})


def of_an_angle(words: list[Word], known: Lexicon) -> bool:
    """Tell whether words of the line say that degrees are of an angle."""
    angled = ("measures:angle", "measures:weak_angle", "measures:angle_or_length")
    said, figures = _said(words), [word for word in words if word.sort in FIGURES]
    turned = bool(said & _LOOSE) and len(figures) == 1  # Knob has 4 deg of play.
    return (
        turned
        or bool(said & known.names["of_angles"])
        or any(one in word.tags for word in words for one in angled)
    )


def _said(words: list[Word]) -> set[str]:
    return {one for word in words for one in word.low.replace("-", " ").split()}


def _waited(words: list[Word], at: int) -> bool:
    """See “after an hour”: what is read then has grown warm, or has cooled."""
    time = at > 0 and words[at].sort is Sort.NUMBER and words[at].dimension == "time"
    return time and any(one.low in _WAITED for one in words[max(0, at - 2) : at])
