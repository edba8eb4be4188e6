"""Signs that a number of a line was left out or misplaced, or of heat or an angle."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.plain.named.unnamed import which_part
from logbook.plain.sure.chances import surely_so
from logbook.plain.sure.unread import Unread, is_it
from logbook.plain.told.no_sizes import tool_of
from logbook.plain.understanding import Doubt, Kind
from logbook.plain.words.degrees import is_bare, is_heat, of_an_angle
from logbook.plain.words.figures import FIGURES

_NOT_KEPT = frozenset({"conditions"})
"""Facts that no record of these kinds keeps."""
_EXACT = (
    Kind.STEP, Kind.DISPOSITION, Kind.JOINT, Kind.SUBSTITUTION, Kind.DECISION,
)  # fmt: skip


def figure_left(reading: Unread) -> Iterator[Doubt]:
    """See work or a choice in whose line an exact number was read as nothing."""
    kind = reading.line.kind
    if kind not in _EXACT or surely_so(reading.sentence, kind):
        return
    sentence, set_so = reading.sentence, reading.sentence.settings()
    spans = reading.line.words.items()
    taken = [one for fact, row in spans if fact not in _NOT_KEPT for one in row]
    packing = sentence.lexicon.names["packing"]
    for at, word in enumerate(sentence.words):
        if "because" in word.tags:
            return
        exact = word.sort in FIGURES and (word.has_decimals or word.unit)
        following = sentence.word(at + 1)
        other = word.dimension == "time" or word.dimension.startswith("money")
        other = other or (following is not None and following.low in packing)
        beside = word.name is not None or word in set_so or tool_of(sentence, word)
        if not exact or other or beside:
            continue
        if not any(one.start < word.end and word.start < one.end for one in taken):
            yield is_it(word.text)


_BESIDE = frozenset(
    {"by", "by the", "next to", "next to the", "near", "near the", "beside", "behind",
     "under", "over", "against", "above", "below"}
)  # fmt: skip


_LAID = frozenset({"under", "behind", "against", "over"})


def _is_stuff(reading: Unread, at: int) -> bool:
    """See the foam of “foam under the bed crumbled”: what lies there is the bed's."""
    tags = reading.sentence.tags(at)
    stuff = tags & {"material", "structure"} and not tags & {"stock_form"}
    return at >= 0 and bool(stuff)


def only_beside(reading: Unread) -> Iterator[Doubt]:
    """See a failure of something nobody read, beside a part: veneer by the lamp."""
    line, sentence = reading.line, reading.sentence
    named = [*sentence.named("part"), *sentence.named("piece")]
    if line.kind is not Kind.FAILURE or not line.facts.part or not named:
        return
    for at in named:
        first = at
        while first > 1 and "article" in sentence.tags(first - 1):
            first -= 1
        led = first > 0 and sentence.words[first - 1].low in _BESIDE
        if not led or "structure" in sentence.tags(at + 1):
            return
        if sentence.words[first - 1].low in _LAID and _is_stuff(reading, first - 2):
            return
    subject = [
        word
        for word in sentence.words[: named[0]]
        if reading.unread(word) or ("material" in word.tags and word.name is None)
    ]
    if subject and subject[0].low in sentence.lexicon.names["dirt"]:
        return  # Dust got trapped behind the diffuser.
    if subject and not any(tag.endswith(":past") for tag in subject[0].tags):
        yield which_part((line.facts.part,), (subject[0].low,))


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
