"""What is doubtful about a line that was read: asked about, before it is taken."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from logbook.plain.kinds.choice import Choice
from logbook.plain.named.names import singular
from logbook.plain.sure.unusual import unusual
from logbook.plain.understanding import Doubt, Kind
from logbook.plain.when.moments import Moment
from logbook.plain.words.cutting import wrong_number
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence
from logbook.plain.words.spoken import spoken
from logbook.quantity import quantity

_WHOSE = Doubt(
    "met_by_others",
    "would another builder meet this?",
    ("the drawing", "only this piece", "my machine", "not known yet"),
    needed=False,
)

_NUMBERED = (
    Kind.READING, Kind.STOCK, Kind.DRAWN, Kind.STEP, Kind.DISPOSITION,
    Kind.REVISION, Kind.ORDER,
)  # fmt: skip


def doubts_of(
    sentence: Sentence, choice: Choice, moment: Moment | None, facts: dict[str, Any]
) -> list[Doubt]:
    """Give what is to be asked about a line that was read so."""
    doubts: list[Doubt] = [*unusual(sentence, choice, facts)]
    if choice.doubt is not None:
        doubts.append(choice.doubt)
    if moment is not None and moment.future and choice.kind is not Kind.NOTE:
        doubts.append(_ahead(moment))
    if moment is not None and moment.hours and choice.kind is not Kind.NOTE:
        doubts.append(_which_hour(moment))
    if choice.kind in (Kind.STEP, Kind.JOINT):
        doubts += _which_fastener(sentence)
    if choice.kind is Kind.COUNT and facts.get("counted_as"):
        doubts += _which_counted(sentence, facts.get("counted", ""))
    if choice.kind in _NUMBERED:
        doubts += [
            _two_ways(word)
            for word in sentence.words
            if word.asks and not _turns(sentence, word, facts)
        ]
        doubts += _size_or_limit(sentence)
        doubts += _long_or_too_long(sentence, facts)
        if wrong := wrong_number(sentence.text):
            question = f"“{wrong}” is no number: which was meant?"
            doubts.append(Doubt("value", question))
    if (
        choice.kind is Kind.FAILURE
        or (choice.kind is Kind.READING and _off_nominal(facts))
    ) and not facts.get("met_by_others"):
        doubts.append(_WHOSE)
    return doubts


def _turns(sentence: Sentence, word: Word, facts: dict[str, Any]) -> bool:
    """Tell whether a fraction is of degrees: 89 1/2 can be no inches then."""
    angles = all(one.value.dimension == "angle" for one in facts["readings"])
    read = word in sentence.spans.get("readings", [])
    return bool(facts["readings"]) and angles and read


def _which_fastener(sentence: Sentence) -> list[Doubt]:
    threads = [sentence.words[at].text for at in sentence.sorts(Sort.THREAD)]
    if len(set(threads)) < 2:
        return []
    return [Doubt("fastener", "which one was fitted?", tuple(dict.fromkeys(threads)))]


def _which_counted(sentence: Sentence, counted: str) -> list[Doubt]:
    """Ask which of several parts was counted: rivets may be rivet nuts."""
    words = sentence.vocabulary
    if not counted or counted in words.parts or counted in words.proposed:
        return []
    longer = words.containing(singular([*spoken(counted)]))
    return [Doubt("counted", f"which {counted}?", longer[:5])] if longer else []


def _off_nominal(facts: dict[str, Any]) -> bool:
    return bool(facts.get("off") or facts.get("wanted"))


def _ahead(moment: Moment) -> Doubt:
    said = together(moment.words)
    return Doubt("when", f"“{said}” lies ahead: when was it?", ("still to do", "now"))


def _size_or_limit(sentence: Sentence) -> list[Doubt]:
    """Doubt “40.2 -0.1”: a size with its limit, or a size taken off another."""
    found = []
    for word, signed in pairwise(sentence.words):
        if word.sort is not Sort.NUMBER or signed.sort is not Sort.NUMBER:
            continue
        if signed.text[:1] not in "+-" or signed.start == word.end:
            continue
        both = sentence.text[word.start : signed.end]
        one, other = word.quantities("mm"), signed.quantities("mm")
        if one and other and one[0].unit == other[0].unit:
            total = quantity(one[0].value + other[0].value, "mm", other[0].step)
            choices = (word.text, total.text.removesuffix(" mm"))
            question = f"“{both}” is two numbers: which was measured?"
            found.append(Doubt("value", question, choices))
    return found


_LITTLE = 2


def _long_or_too_long(sentence: Sentence, facts: dict[str, Any]) -> list[Doubt]:
    """Doubt “came out 0.8 long”: its length, or how much too long it is."""
    found = []
    for word, adjective in pairwise(sentence.words):
        small = word.sort is Sort.NUMBER and adjective.low in ("long", "wide", "high")
        read = word.quantities(sentence.vocabulary.unit) if small else ()
        if not any(
            one.value in read and one.value.to("mm") < _LITTLE
            for one in facts["readings"]
            if one.what and one.value.dimension == "length"
        ):
            continue
        said = sentence.text[word.start : adjective.end]
        by = f"{word.text} too {adjective.low}"
        as_size = f"{sentence.lexicon.dimension_of[adjective.low]} {word.text}"
        found.append(
            Doubt(
                "value",
                f"“{said}”: too {adjective.low} by so much, or all of it?",
                (by, as_size),
            )
        )
    return found


def _which_hour(moment: Moment) -> Doubt:
    said = together(moment.words)
    return Doubt("hour", f"“{said}”: at which hour?", moment.hours)


def together(words: tuple[Word, ...]) -> str:
    """Give words as they were typed, one blank between them."""
    return " ".join(word.text for word in words)


def _two_ways(word: Word) -> Doubt:
    """Ask of the number; its unit, which stays in the line, is in no doubt."""
    number = word.amounts[0] if len(word.amounts) == 1 else ""
    said = number if number in word.text and number else word.text
    return Doubt("value", f"“{said}” can be two numbers: which?", word.asks)
