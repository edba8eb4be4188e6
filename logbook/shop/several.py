"""Several figures typed together: lists, and one unit for all of them.

`20,30,20 mm` is a list, `20,5` a decimal comma; a unit behind the last figure
holds for all where the others have none.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from logbook.errors import BadInput, NeedsAnswer
from logbook.shop.given import Input, Kind, Value, in_words
from logbook.units import UNITS, convert

_WHOLE = re.compile(r"[-+]?[1-9]\d{0,2}(?:,\d{3})+")
_COMMA_LIST = re.compile(r"[-+\d.]+(?:,[-+\d.]+)+(?P<unit>\s*[^\d\s,].*)?")
BARE = re.compile(r"[-+−\s0-9.,/]+")
"""A figure without a unit."""


def divided(each: Input, text: str) -> list[str]:
    """Split a list typed in one go at semicolons, or commas before a blank.

    Commas without blanks divide figures where they cannot be decimal commas.
    """
    if not each.many:
        return [text.strip()]
    parts = [part.strip() for part in re.split(r";|,\s+", text) if part.strip()]
    if each.kind in {Kind.TEXT, Kind.CHOICE, Kind.YES}:
        return parts
    return [
        one for part in parts for row in _blanks(part) for one in _comma_list(each, row)
    ]


def _blanks(part: str) -> list[str]:
    """Split figures that blanks divide: 178.60 178.65 mm; a unit stays with its own.

    Not where a blank may stand inside one figure: 3 1/2 in, 5' 3", 1 000.
    """
    words = part.split()
    if re.search(r"[/'\"]|\+-|\b0\d\d\b", part) or len(words) < 2:
        return [part]
    values: list[str] = []
    for word in words:
        whole = values and re.search(r"\d", values[-1]) and not values[-1].endswith("±")
        if whole and re.match(r"[-+−]?[.,]?\d", word):
            values.append(word)
        else:
            values[-1:] = [f"{values[-1]} {word}" if values else word]
    return values


def _comma_list(each: Input, part: str) -> list[str]:
    found = _COMMA_LIST.fullmatch(part)
    commas = part.count(",")
    if not found or (commas == 1 and "." not in part):
        return [part]
    figures = part.removesuffix(found["unit"] or "")
    if _WHOLE.fullmatch(figures):
        apart = figures.replace(",", " ")
        raise NeedsAnswer(
            f"{each.said}: “{part}” can be several figures or one of thousands; "
            f"accepted: {apart}, or {figures.replace(',', '')}",
            (apart, figures.replace(",", "")),
        )
    listed = figures.split(",")
    return [*listed[:-1], listed[-1] + (found["unit"] or "")]


def one_unit_behind(each: Input, found: list[str], assumed: list[str]) -> list[str]:
    """Take a unit behind the last of several bare figures for all of them.

    Raises:
        BadInput: some figures have a unit and some, not just the first, have none.
    """
    bare = [bool(BARE.fullmatch(text)) for text in found]
    if all(bare) or not any(bare):
        return found
    *_, last = found
    unit = re.sub(r"^[-+−\s0-9.,/]+", "", last)
    if any(not one for one in bare[:-1]) or bare[-1] or "±" in last:
        units = {re.sub(r"^[-+−\s0-9.,/]+", "", text) for text in found} - {""}
        if units <= {each.unit} or any("±" in text for text in found):
            return found
        raise BadInput(
            f"{each.said}: found {', '.join(found)}, some without a unit; accepted: "
            "a unit behind each, or one behind the last for all"
        )
    if unit != each.unit:
        assumed.append(f"{each.said}: all of them in {unit}, typed once at the end")
    return [*(f"{text} {unit}" for text in found[:-1]), last]


def bare_beside_inches(
    inputs: Sequence[Input], values: Mapping[str, tuple[Value, ...]]
) -> Iterable[str]:
    """Say what was taken as millimetres where other lengths came in inches."""
    lengths = [
        (each, value)
        for each in inputs
        if each.kind is Kind.QUANTITY and each.unit == "mm"
        for value in values[each.name]
        if value.typed != each.default
    ]
    if any(value.unit in {"in", "ft", "thou"} for _, value in lengths):
        for each, value in lengths:
            if BARE.fullmatch(value.typed) and value.exact:
                yield f"{each.said}: {value.typed.strip()} taken as millimetres"


def in_one_unit(
    inputs: Sequence[Input], values: Mapping[str, tuple[Value, ...]]
) -> tuple[dict[str, tuple[Value, ...]], str]:
    """Bring all figures of any unit to the first unit typed; bare ones have it.

    Raises:
        BadInput: units of different dimensions, or two scales of temperature.
    """
    common = dict(values)
    names = [each.name for each in inputs if each.kind is Kind.FIGURE]
    units = [value.unit for name in names for value in values[name] if value.unit]
    if not units:
        return common, next(
            (each.unit for each in inputs if each.kind is Kind.FIGURE), ""
        )
    unit = units[0]
    if UNITS[unit].dimension == "temperature" and set(units) != {unit}:
        raise BadInput(f"found {', '.join(sorted(set(units)))}; accepted: one scale")
    for name in names:
        common[name] = tuple(_turned(name, value, unit) for value in values[name])
    return common, unit


def _turned(name: str, value: Value, unit: str) -> Value:
    if value.unit in {"", unit}:
        return value
    try:
        exact = convert(value.exact, value.unit, unit)
        width = convert(value.uncertainty, value.unit, unit)
    except BadInput as error:
        raise BadInput(f"{in_words(name)}: {error}") from None
    return replace(value, exact=exact, uncertainty=width)
