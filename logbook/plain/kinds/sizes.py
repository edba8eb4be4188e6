"""Measured values: when a number in a line is a reading, and when it is asked."""

from __future__ import annotations

from itertools import pairwise

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.drawn import beside_material
from logbook.plain.kinds.revisions import revision_label
from logbook.plain.kinds.sizes_in_doubt import (
    counts_holes,
    not_one_size,
    numbers_a_brand,
    one_line_each,
)
from logbook.plain.named.names import ELECTRICAL
from logbook.plain.understanding import NO_PART, Doubt, Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort
from logbook.plain.words.sentence import Sentence, parts_named

AS_BOUGHT = "made from it"
"""The answer that a size is that of the stock a part is made from."""


def said_absent(sentence: Sentence, _: Values) -> Choice | None:
    """See “not measured” and “untried”."""
    found = unmeasured(sentence)
    if found and not revision_label(sentence):
        sure = bool(parts_named(sentence)) or sentence.has("measures", "structure")
        return Choice(Kind.READING, 0.9 if sure else 0.5, found[0])
    return None


def unmeasured(sentence: Sentence) -> list[int]:
    """Give where a line says that something was not measured, or not tried.

    “Never took the lid off” is of no size; “has no length on record” is.
    """
    found = sentence.tagged("absent", "untried")
    sized = sentence.tagged("measures")
    if found or not sized:
        return found
    missing = [
        at for at in sized if at and "negation" in sentence.tags(at - 1)
    ] and sentence.tagged("on_record")
    return sentence.tagged("absent_of_size") or missing


def unmeasured_at(sentence: Sentence) -> int | None:
    """Give where a line of one clause says that a size was not measured."""
    found = [at for at in unmeasured(sentence) if "untried" not in sentence.tags(at)]
    alone = sentence.has("measures") and len([*clauses(sentence)]) == 1
    return found[0] if found and alone else None


def stock_measured(sentence: Sentence, values: Values) -> Choice | None:
    """See stock that is not as sold: the 6 mm plate is really 6.35."""
    materials = sentence.tagged("material")
    if not materials or parts_named(sentence):
        return None
    sure = sentence.tagged("really_sure")
    lead = [at for at in sentence.tagged("really") if at > materials[0]]
    figures = sentence.sorts(*FIGURES)
    if len(figures) < 2 or not (sure or lead) or not values.readings:
        return None
    told = sum(
        not word.tags - {"never_part"}
        for word in sentence.words
        if word.sort is Sort.WORD
    )
    at = (sure or lead)[0]
    return Choice(Kind.STOCK, 0.85 if told == 0 else 0.6, at, None)


def weighed_at(sentence: Sentence) -> int | None:
    """Give where a line begins with having weighed something, and says how heavy."""
    for at, word in enumerate(sentence.words[:3]):
        if word.low in _WEIGHED:
            heavy = any(one.dimension == "mass" for one in sentence.words[at:])
            out = sentence.word(at + 1)
            return at if heavy and out is not None and out.low != "out" else None
    return None


_WEIGHED = frozenset({"weighed", "re-weighed", "reweighed"})


def weighed(sentence: Sentence, values: Values) -> Choice | None:
    """See “weighed the finished lid at 186 g”: nothing was finished by it."""
    at = weighed_at(sentence)
    if at is None or not values.readings:
        return None
    parts = {sentence.words[one].name for one in parts_named(sentence)}
    if len(parts) > 1 and len(values.readings) > 1:
        return Choice(Kind.READING, 0.5, at, one_line_each())
    of_no_part = sentence.vocabulary.parts and not parts
    return None if of_no_part else Choice(Kind.READING, 0.9, at)


def fit_felt(sentence: Sentence, values: Values) -> Choice | None:
    """See how parts go together: slides, snug, loose."""
    found = sentence.tagged("fit")
    subject = parts_named(sentence) or sentence.tagged("fastener")
    if not found or not subject or values.off is not None:
        return None
    if values.readings and sentence.has("measures"):
        return None
    unknown = [
        word
        for word in sentence.words
        if word.sort is Sort.WORD and not word.tags and not word.name
    ]
    return Choice(Kind.FIT, 0.82 if len(unknown) <= 3 else 0.6, found[0])


def reading(sentence: Sentence, values: Values) -> Choice | None:
    """See measured values, where nothing in the line stays unexplained."""
    found = bool(values.readings) or values.off is not None
    if not found and values.conditions and parts_named(sentence):
        return None
    if not found:
        return None
    known = bool(parts_named(sentence) or sentence.named("characteristic"))
    if any(numbers_a_brand(*pair) for pair in pairwise(sentence.words)):
        return None
    if (asked := not_one_size(sentence)) is not None:
        return asked
    named = known or bool(values.measures) or _placed(values)
    if counts_holes(sentence):
        at = sentence.sorts(Sort.SIZE)[0]
        return Choice(Kind.READING, 0.5, at, _is_reading(values))
    if "because" in sentence.tags(0):
        at = sentence.sorts(*FIGURES)[0]
        return Choice(Kind.READING, 0.5, at, _is_reading(values))
    if known and _of_stock(sentence, values):
        at = sentence.sorts(*FIGURES)[0]
        return Choice(Kind.READING, 0.5, at, _measured_or_bought(values))
    figure = next(iter(sentence.sorts(*FIGURES)), -1)
    off = values.off is not None and known and len(values.left_over) == 1
    if values.left_over and not off:
        exact = any(
            sentence.words[at].unit or sentence.words[at].has_decimals
            for at in sentence.sorts(*FIGURES)
        )
        near = len(values.left_over) <= 2 and exact and named and values.readings
        if near and known:
            return Choice(Kind.READING, 0.5, figure, _is_reading(values))
        return None
    return _named_reading(sentence, values, figure, known=known, named=named)


def _of_stock(sentence: Sentence, values: Values) -> bool:
    """See “base sheet 2.0 mm”: what it is made from, or measured on it."""
    if len(values.readings) != 1 or values.measures or values.wanted or values.off:
        return False
    read = sentence.spans.get("readings", [])
    at = next((at for at, word in enumerate(sentence.words) if word in read), -1)
    told = sentence.has("is", "measure", "instead", "negation")
    return beside_material(sentence, at) and not told


def _measured_or_bought(values: Values) -> Doubt:
    shown = values.readings[0].value.text
    choices = ("measured", AS_BOUGHT, "only a note")
    return Doubt("kind", f"{shown}: measured, or what it is made from?", choices)


def _placed(values: Values) -> bool:
    return bool(values.readings) and all(
        reading.place and not reading.place[-1:].isdigit()
        for reading in values.readings
    )


_FEW = 2
"""Words nobody knows that may name what was measured: dark inrush 3.1 A."""


def _named_reading(
    sentence: Sentence, values: Values, figure: int, *, known: bool, named: bool
) -> Choice | None:
    if sentence.has("vague"):
        return Choice(Kind.READING, 0.5, figure, _exact_value())
    exact = any(sentence.words[at].has_decimals for at in sentence.sorts(*FIGURES))
    if sentence.has("instead") and not exact and not values.measures:
        return Choice(Kind.READING, 0.5, figure, _is_reading(values))
    point = any(
        one.place and one.value.dimension in ELECTRICAL for one in values.readings
    )
    by_unit = 0 < len(values.guessed) <= _FEW and _electrical(values)
    told = known or values.measures or point or by_unit
    if not told and sentence.vocabulary.parts:
        return Choice(Kind.READING, 0.5, figure, _of_what(sentence, values))
    foreign = _of_other_trades(sentence, values)
    if values.unitless or foreign:
        return Choice(
            Kind.READING,
            0.5,
            figure,
            Doubt("unit", f"{values.unitless or foreign}: in which unit?"),
        )
    first = exact and not sentence.vocabulary.parts
    if first and values.wanted and not values.measures and values.guessed:
        called = " ".join(word.low for word in values.guessed)
        return Choice(Kind.READING, 0.5, figure, _whose_size(called))
    if not named and (by_unit or (first and 0 < len(values.guessed) <= _FEW)):
        return Choice(Kind.READING, 0.75, figure)
    if not named:
        return Choice(Kind.READING, 0.5, figure, _of_what(sentence, values))
    if known and not values.measures and _could_be_piece(sentence, values):
        return Choice(Kind.READING, 0.5, figure, _piece_or_value(sentence, values))
    if len(values.guessed) > 2:
        return Choice(Kind.READING, 0.5, figure, _is_reading(values))
    return Choice(Kind.READING, 0.85, figure)


def _of_other_trades(sentence: Sentence, values: Values) -> str:
    """Give the unit that names a bare figure: lux, 3400 at the bed."""
    length = any(one.value.dimension == "length" for one in values.readings)
    said = [word for word in values.measures if length] + [*values.guessed]
    foreign = sentence.lexicon.units.foreign
    return next((word.text for word in said if word.low in foreign), "")


def _whose_size(called: str) -> Doubt:
    return Doubt("part", "which part?", (called, NO_PART))


def _electrical(values: Values) -> bool:
    """Tell whether the unit alone shows that something was measured."""
    return bool(values.readings) and values.readings[0].value.dimension in (
        "voltage", "current", "resistance", "torque", "frequency", "temperature",
        "force", "pressure", "power", "sound level", "illuminance",
    )  # fmt: skip


def _could_be_piece(sentence: Sentence, values: Values) -> bool:
    figures = [sentence.words[at] for at in sentence.sorts(*FIGURES)]
    if len(figures) != 1 or values.off is not None:
        return False
    word = figures[0]
    return word.whole is not None and word.whole < 100 and not word.unit


_MOST_OFFERED = 12


def _of_what(sentence: Sentence, values: Values) -> Doubt:
    shown = values.readings[0].value.text if values.readings else str(values.off)
    parts = tuple(sentence.vocabulary.parts)
    if len(parts) > _MOST_OFFERED:
        parts = ()  # The first few of many are hardly the one.
    return Doubt("what", f"{shown}: what was measured, on which part?", parts)


def _is_reading(values: Values) -> Doubt:
    shown = values.readings[0].value.text if values.readings else ""
    choices = ("measured", "only a note")
    return Doubt("kind", f"is {shown} a measured value?", choices, faint=True)


def _exact_value() -> Doubt:
    return Doubt("value", "measured, or an estimate?", ("measured", "only a note"))


def _piece_or_value(sentence: Sentence, values: Values) -> Doubt:
    shown = values.readings[0].value.text if values.readings else ""
    part = sentence.words[parts_named(sentence)[0]].text
    return Doubt("kind", f"{part}: measured {shown}?", ("measured", "only a note"))
