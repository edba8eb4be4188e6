"""Several values of one line told apart: sides, places, pieces, before and now."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from logbook.plain.kinds.choice import Choice
from logbook.plain.told.part import part_named
from logbook.plain.told.so_many import numbers_told
from logbook.plain.understanding import Kind, Reading
from logbook.plain.values.readings import pieces_counted
from logbook.plain.words.figures import FIGURES
from logbook.plain.words.sentence import Sentence
from logbook.plain.words.smallest_to_largest import ends_of_ranges
from logbook.quantity import Quantity


def standing(
    sentence: Sentence, choice: Choice, readings: list[Reading]
) -> tuple[list[Reading], list[Quantity]]:
    """Give the readings that stand, and the sizes that held before.

    What is sawn at 179.9 and filed to 179.75 is 179.75 now; one that cracked is
    no size.
    """
    if choice.kind is Kind.READING:
        readings = _sides(sentence, readings)
        readings = _of_a_range(sentence, readings)
        return _pieces_of(sentence, readings) or _places(sentence, readings), []
    if choice.kind is Kind.FAILURE:
        return [x for x in readings if x.what or not is_count(sentence, x)], []
    if choice.kind is Kind.DISPOSITION and len({one.what for one in readings}) == 1:
        return readings[-1:], [one.value for one in readings[:-1]]
    return readings, []


def _sides(sentence: Sentence, readings: list[Reading]) -> list[Reading]:
    """Tell the sides of “aperture 36.1 x 24.1” apart: they are two dimensions.

    The dimensions a part has by that name are taken in their order.
    """
    found = list(readings)
    for word in sentence.spans.get("readings", []):
        count = len(word.amounts)
        values = [one.value for one in word.quantities(sentence.vocabulary.unit)]
        for at in range(len(found) - count + 1 if count > 1 else 0):
            row = found[at : at + count]
            if [one.value.value for one in row] == values:
                names = _side_names(sentence, row[0].what, count)
                found[at : at + count] = [
                    replace(one, what=name)
                    for one, name in zip(row, names, strict=True)
                ]
                break
    return found


def _side_names(sentence: Sentence, what: str, count: int) -> list[str]:
    known = [
        title
        for named in sentence.spans.get("part", [])[:1]
        for title in sentence.vocabulary.characteristics.get(part_named(named), ())
        if what and title.casefold().startswith(what.casefold())
    ]
    sides = [f"{what} side {number}".strip() for number in range(1, count + 1)]
    return known if len(known) == count else sides


def _of_a_range(sentence: Sentence, readings: list[Reading]) -> list[Reading]:
    """Tell the smallest and the largest of “kerf 0.16 to 0.19” apart."""
    read = [one for one in sentence.spans.get("readings", []) if one.sort in FIGURES]
    found = list(readings)
    if len(read) != len(found):
        return found
    for ends in ends_of_ranges(sentence):
        both = zip(("smallest", "largest"), ends, strict=True)
        words = [(called, sentence.words[at]) for called, at in both]
        at_which = [
            (called, read.index(word)) for called, word in words if word in read
        ]
        told = next((found[at].place for _, at in at_which if found[at].place), "")
        for called, at in at_which:
            where = f"{called} {found[at].place or told}".strip()
            found[at] = replace(found[at], place=where)
    return found


_AGAIN = frozenset(
    {
        "again",
        "twice",
        "times",
        "thrice",
        "repeat",
        "repeated",
        "repeats",
        "average",
        "mean",
        "same",
    }
)


def _places(sentence: Sentence, readings: list[Reading]) -> list[Reading]:
    """Give numbered places to values of one dimension that no place tells apart.

    They may be repeats, but only those that say so are averaged: a narrow place
    among them must not be lost in a mean.
    """
    if any(_AGAIN & set(word.low.split()) for word in sentence.words):
        return readings
    alike = Counter(_kind_of(one) for one in readings)
    seen: Counter[tuple[str, str, str, str]] = Counter()
    found = []
    for one in readings:
        key = _kind_of(one)
        if alike[key] > 1:
            seen[key] += 1
            place = f"{one.place} place {seen[key]}".strip()
            one = replace(one, place=place)  # noqa: PLW2901
        found.append(one)
    return found


def _pieces_of(sentence: Sentence, readings: list[Reading]) -> list[Reading]:
    """Give each of “two legs 197.1 and 197.3” to a piece of its own."""
    numbers = numbers_told(sentence) or _counted(sentence)
    named = {one.what for one in readings if one.what}
    alike = len({one.value.dimension for one in readings}) == 1
    if (
        len(numbers) < 2
        or len(numbers) != len(readings)
        or len(named) > 1
        or not alike
        or any(x.place for x in readings)
    ):
        return []
    what = named.pop() if named else ""
    return [
        replace(one, what=what, piece=number)
        for number, one in zip(numbers, readings, strict=True)
    ]


def _counted(sentence: Sentence) -> tuple[int, ...]:
    at = pieces_counted(sentence)
    if at < 0:
        return ()
    sentence.note("readings", sentence.words[at])
    return tuple(range(1, (sentence.words[at].whole or 0) + 1))


def _kind_of(one: Reading) -> tuple[str, str, str, str]:
    return one.what, one.place, one.state, one.value.dimension


def is_count(sentence: Sentence, one: Reading) -> bool:
    """Tell the one of “1 cracked” from a size: whole, small, without a unit."""
    value = one.value
    return value.step == 1 and value.value < 20 and not typed_unit(sentence, value)


def typed_unit(sentence: Sentence, value: Quantity) -> bool:
    """Tell whether a value was typed with its unit."""
    return any(word.unit and value.text == word.text for word in sentence.words)
