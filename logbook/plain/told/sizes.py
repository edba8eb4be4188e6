"""The sizes that a line of each kind tells as its own."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from logbook.plain.kinds.choice import Choice
from logbook.plain.told.no_sizes import (
    is_an_hour,
    is_by_so_much,
    is_grit,
    is_of_a_tool,
    is_of_another,
    is_of_piece,
    is_of_stock,
    is_play,
    is_put_on,
    is_size,
    sizes_in,
    so_many_holes,
)
from logbook.plain.told.set_to import set_to
from logbook.plain.told.several import standing
from logbook.plain.understanding import Kind, Reading
from logbook.plain.values.walk import Values
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort
from logbook.plain.words.machine_set import sets_a_machine
from logbook.plain.words.sentence import Sentence
from logbook.quantity import Quantity, quantity

WORK_KINDS = (
    Kind.STEP, Kind.DISPOSITION, Kind.DECISION, Kind.REVISION, Kind.SUBSTITUTION,
    Kind.ORDER, Kind.JOINT,
)  # fmt: skip


def sizes_of(sentence: Sentence, values: Values, choice: Choice) -> dict[str, Any]:
    """Give the sizes of a line, as the fields of `Facts`."""
    facts: dict[str, Any] = {
        "wanted": tuple(values.wanted),
        "off": values.off,
        "off_sense": values.off_sense,
        "room": values.room,
        "hours": values.hours,
        "minutes": values.minutes,
        "instrument": values.instrument,
        "material": values.material,
    }
    readings, conditions = list(values.readings), list(values.conditions)
    spans = sentence.spans
    if choice.kind in WORK_KINDS:
        readings += [
            Reading(value) for value in conditions if value.dimension != "time"
        ]
        conditions = [value for value in conditions if value.dimension == "time"]
        if "conditions" in spans:
            spans.setdefault("readings", []).extend(spans.pop("conditions"))
            readings = _as_they_stand(sentence, readings)
    if choice.kind in (Kind.DECISION, Kind.COUNT, Kind.JOINT):
        facts["wanted"] = ()
    if choice.kind is Kind.ORDER:
        facts["room"] = None
    if choice.kind is Kind.FAILURE:
        _forget_other_times(sentence, facts)
    readings = _of_kind(sentence, values, choice, readings)
    readings, earlier = standing(sentence, choice, readings)
    conditions += earlier
    facts["readings"], facts["conditions"] = tuple(readings), tuple(conditions)
    if any(one.state for one in readings):
        sentence.note("readings", *spans.pop("state", []))
    facts["wanted"] = _in_their_unit(sentence, facts["wanted"], readings)
    facts["what"] = next((one.what for one in readings if one.what), "")
    if not facts["what"] and values.off is not None and values.measures:
        facts["what"] = " ".join(word.low for word in values.measures)
    facts["place"] = next((one.place for one in readings if one.place), "")
    facts["place"] = facts["place"] or _where_off(sentence, values)
    return facts


def _as_they_stand(sentence: Sentence, readings: list[Reading]) -> list[Reading]:
    """Put readings in the order of the line: sawed at 178.9, filed to 178.6."""
    places: dict[Quantity, int] = {}
    for at, word in enumerate(sentence.words):
        for value in sizes_in(sentence, [word]) if word.sort in FIGURES else ():
            places.setdefault(value, at)
    return sorted(readings, key=lambda one: places.get(one.value, -1))


_OTHER_TIME = frozenset(
    {"took", "taking", "spent", "ok", "okay", "fine", "good", "holds", "held", "works",
     "worked", "since"}
)  # fmt: skip
"""In whose clause a time is not that after which something failed."""


def _in_their_unit(
    sentence: Sentence, wanted: tuple[Quantity, ...], readings: list[Reading]
) -> tuple[Quantity, ...]:
    """Give bare wanted figures the unit of what was read: 4870 K, spec 5000.

    A length has the unit it is nearer in: 12 in, plan says 10; 3 in, should be 76.
    """
    figures = [one for one in sentence.spans.get("wanted", []) if one.sort in FIGURES]
    units = {one.value.unit for one in readings if not one.value.metal}
    bare = not any(one.unit for one in figures) and not any(one.metal for one in wanted)
    if not bare or len(units) != 1:
        return wanted
    [unit] = units
    alike = tuple(quantity(one.value, unit, one.step) for one in wanted)
    sizes = [one.value for one in readings if one.value.dimension == "length"]
    if not sizes:
        return alike
    nearer = all(
        abs(other.to("mm") - sizes[0].to("mm")) < abs(one.to("mm") - sizes[0].to("mm"))
        for one, other in zip(wanted, alike, strict=True)
        if one.dimension == "length"
    )
    return alike if nearer else wanted


def _forget_other_times(sentence: Sentence, facts: dict[str, Any]) -> None:
    """Leave in words how long it took to make, and how long it has held since."""
    for fact in ("hours", "minutes"):
        read = sentence.spans.get(fact, [])
        for start, end in clauses(sentence):
            row = sentence.words[start:end]
            lows = {low for word in row for low in word.low.split(" ")}
            if any(word in read for word in row) and lows & _OTHER_TIME:
                facts[fact] = None
                sentence.spans.pop(fact)


_AT = frozenset({"at", "at the", "on", "on the", "in", "in the"})


def _of_kind(
    sentence: Sentence, values: Values, choice: Choice, readings: list[Reading]
) -> list[Reading]:
    """Give the values that a line of this kind tells as its own."""
    if choice.kind in (Kind.COUNT, Kind.JOINT) or sets_a_machine(sentence):
        return []
    readings = [
        one for one in readings if not is_of_piece(sentence, choice, one, readings)
    ]
    readings = [one for one in readings if not is_grit(sentence, choice, one)]
    readings = [one for one in readings if not is_of_another(sentence, one, readings)]
    if choice.kind is Kind.DISPOSITION:
        readings = [one for one in readings if not is_put_on(sentence, one)]
    if choice.kind is Kind.DECISION:
        readings = _chosen(sentence, values, choice, readings)
    if choice.kind is Kind.REVISION:
        readings = [
            one for one in readings if is_size(one) and not is_by_so_much(sentence, one)
        ]
    if choice.kind is Kind.STEP:
        readings = readings[1:] if so_many_holes(sentence) else readings
        readings = [one for one in readings if not is_an_hour(sentence, one)]
        readings = [one for one in readings if not is_play(sentence, one)]
        readings = [one for one in readings if not is_of_a_tool(sentence, one)]
        readings = [one for one in readings if not is_of_stock(sentence, one)]
    if choice.kind in WORK_KINDS or choice.kind is Kind.FAILURE:
        readings = [_worked(sentence, values, one) for one in readings]
    if choice.kind is Kind.ORDER:
        readings = [
            one
            for one in readings
            if one.value.dimension != "length" or "mm" not in one.value.text
        ]
    return readings


def _chosen(
    sentence: Sentence, values: Values, choice: Choice, readings: list[Reading]
) -> list[Reading]:
    """Give the sizes a choice is of: staying with 2 mm sheet; nothing is off it."""
    found = [*readings, *([Reading(values.off)] if values.off else [])]
    if not found and sentence.has("attribution_drawing"):
        found = [Reading(value) for value in values.wanted]
        sentence.note("readings", *sentence.spans.get("wanted", []))
    return [*found, *_chosen_sizes(sentence, choice, found)]


_NOT_CHOSEN = frozenset(
    {"not", "instead of", "rather than", "than", "over", "from", "was", "of", "i/o"}
)


def _chosen_sizes(
    sentence: Sentence, choice: Choice, readings: list[Reading]
) -> list[Reading]:
    """Give the sizes of a choice that nothing else took: all holes at 4 mm."""
    known = {one.value.value for one in readings}
    found = []
    for at, word in enumerate(sentence.words):
        exact = word.sort is Sort.NUMBER and (word.has_decimals or word.unit)
        before = sentence.word(at - 1) if at else None
        refused = before is not None and before.low in _NOT_CHOSEN
        timed = word.dimension == "time" or word.dimension.startswith("money")
        if not exact or refused or timed or word.name is not None:
            continue
        if word in sentence.spans.get("instead_of", []) or choice.at > at + 8:
            continue
        for value in word.quantities(sentence.vocabulary.unit):
            if value.value not in known:
                sentence.note("readings", word)
                found.append(Reading(value))
    return found


def _where_off(sentence: Sentence, values: Values) -> str:
    """Give where something is off: proud by 0.6 at the rear."""
    if values.off is None or values.readings:
        return ""
    for at, word in enumerate(sentence.words):
        first = at + 2 if "article" in sentence.tags(at + 1) else at + 1
        place = sentence.word(first)
        if not at or word.low not in _AT or place is None:
            continue
        told = place.sort is Sort.WORD and place.name is None
        if told and (not place.tags or place.tags & {"place", "structure"}):
            sentence.note("place", place)
            return place.text
    placed = sentence.spans.get("place", [])
    return placed[0].text if placed and placed[0].sort is Sort.WORD else ""


def _worked(sentence: Sentence, values: Values, one: Reading) -> Reading:
    """Name a value set in work by its measure only, and heat by its unit."""
    said = [word.low for word in values.measures]
    names, what = sentence.lexicon.dimension_of, one.what.lower()
    forms = [(word, names.get(word, word), word.removesuffix("s")) for word in said]
    told = {one: None for row in forms for one in row if one in what.split()}
    told |= {word: None for word in said if " " in word and word in what}
    told |= dict.fromkeys(one for one in what.split() if one in _SIDES)
    whole = [
        one for one in told if not any(one in of.split() for of in told if of != one)
    ]
    named = sorted(whole, key=what.index)
    named = named or _named_alone(sentence, one)
    value = one.value
    if value.dimension == "temperature":  # No size of a wall is so warm.
        warm = [x.low for x in values.measures if "measures:temperature" in x.tags]
        named = [word for word in named if word in warm]
    value = set_to(sentence, value)
    return replace(one, value=value, what=" ".join(named))


def _named_alone(sentence: Sentence, one: Reading) -> list[str]:
    """Give the spigot of “printed the gate, spigot 5.91”: a name nobody used yet."""
    for start, end in clauses(sentence):
        row = sentence.words[start:end]
        plain = row[:-1]
        figure = row[-1].sort is Sort.NUMBER and row[-1].dimension in ("", "length")
        if start == 0 or not figure or not 0 < len(plain) <= _FEW:
            continue
        new = all(word.sort is Sort.WORD and not word.tags for word in plain)
        new = new and all(word.name is None for word in plain)
        if new and one.value in sizes_in(sentence, row[-1:]):
            sentence.note("what", *plain)
            return [word.low for word in plain]
    return []


_SIDES = frozenset({"width", "depth", "length", "height", "thickness", "spacing"})
_FEW = 2
"""Words that may name a size: spigot, seat stem."""
