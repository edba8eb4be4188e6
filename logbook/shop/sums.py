"""Sums: every computation the shop offers, declared once and worked out here.

The shell, the app's form and the manual are made from the declarations.
Uncertainties typed with the inputs are carried to the results by the law of
propagation (JCGM 100:2008, 5.1.2), with differences over the interval itself.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from importlib import import_module

from logbook.errors import BadInput, NotFound
from logbook.shop.answers import NOT_AN_APPROVAL, Answer, Found, Result
from logbook.shop.given import READING, Given, Input, Kind, Value
from logbook.shop.topics import TOPICS
from logbook.shop.typed import read_inputs
from logbook.units import UNITS

SYSTEMS = ("mm", "inch")
_SYSTEM_WORDS = {
    "": "",
    "mm": "mm",
    "metric": "mm",
    "inch": "inch",
    "in": "inch",
    "inches": "inch",
}


@dataclass(frozen=True, slots=True)
class Sum:
    """One computation: its inputs, what it does, its source, a worked example.

    `how` says how the source was read (see `tables`). `caution` warns about
    the arithmetic; `dangers` name cautions of the processes it belongs to.
    `relied_on` adds the line that a calculation is not an approval. `example`
    holds inputs as typed.
    """

    name: str
    title: str
    inputs: tuple[Input, ...]
    compute: Callable[[Given], Answer]
    formula: str
    source: str
    how: str
    example: Mapping[str, str | tuple[str, ...]]
    caution: str = ""
    dangers: tuple[str, ...] = ()
    relied_on: bool = True
    also: tuple[str, ...] = ()


@cache
def sums_by_topic() -> dict[str, tuple[Sum, ...]]:
    """Give all sums by topic, in the order of the list of topics."""
    topics: dict[str, tuple[Sum, ...]] = {}
    for topic, module in TOPICS:
        sums = tuple(import_module(f"logbook.shop.{module}").SUMS)
        topics[topic] = topics.get(topic, ()) + sums
    return topics


def all_sums() -> Iterator[Sum]:
    """Yield every sum."""
    for sums in sums_by_topic().values():
        yield from sums


def find_sum(name: str) -> Sum:
    """Find a sum by its name.

    Raises:
        NotFound: there is none of this name; near names are told.
    """
    wanted = name.strip().lower().replace("_", "-").replace(" ", "-")
    for each in all_sums():
        if wanted == each.name or wanted in each.also:
            return each
    near = _near(wanted)
    others = (
        "or another that logbook sums lists" if near else "those logbook sums lists"
    )
    raise NotFound(
        f"there is no sum “{name[:40]}”; accepted: {', '.join([*near, others])}"
    )


def sums_about(word: str) -> list[Sum]:
    """Give the sums that speak of a word: in name, title, inputs or their tables."""
    wanted = word.strip().lower().rstrip("s")
    return [each for each in all_sums() if wanted and wanted in _spoken(each)]


def _spoken(each: Sum) -> str:
    words = [each.name, each.title, each.formula, each.caution, *each.also]
    for one in each.inputs:
        words += [one.name, one.meaning, *one.choices, *one.also, *one.words]
        if one.rows_of:
            words.append(one.accepted)
    return "\n".join(words).replace("_", " ").lower()


def _near(wanted: str) -> list[str]:
    """Name the sums that speak of a word, else those spelled like it."""
    from difflib import get_close_matches

    stem = wanted.rstrip("s")
    speaking = [
        each.name
        for topic, sums in sums_by_topic().items()
        for each in sums
        if stem
        and any(
            stem in text.lower() for text in (topic, each.name, each.title, *each.also)
        )
    ]
    names = [each.name for each in all_sums()]
    return speaking or get_close_matches(wanted, names, 4, 0.6)


def work_out(
    name: str | Sum,
    typed: Mapping[str, str | Sequence[str]],
    system: str = "",
) -> Answer:
    """Work out a sum from typed inputs.

    Results are in `system` (`mm` or `inch`); without one, in inches when
    every length was typed in inches, else in millimetres.

    Raises:
        NotFound: there is no such sum.
        BadInput: an input is unknown, missing or not accepted.
    """
    each = find_sum(name) if isinstance(name, str) else name
    if system.lower() not in _SYSTEM_WORDS:
        raise BadInput(f"units: found “{system}”; accepted: {', '.join(SYSTEMS)}")
    given = read_inputs(each.inputs, typed)
    answer = _with_spread(each, given, each.compute(given))
    answer = replace(
        answer,
        name=each.name,
        title=each.title,
        formula=each.formula,
        assumptions=given.assumed + answer.assumptions,
        sources=(f"{each.source} ({each.how})", *answer.sources),
        cautions=_cautions(each),
        note=NOT_AN_APPROVAL if each.relied_on else "",
        inputs={key: given.typed(key) for key in given.values if given.has(key)},
    )
    asked = _SYSTEM_WORDS[system.lower()]
    answer = answer.in_system(asked or _system(each, given))
    results = tuple(_in_typed_unit(one, given) for one in answer.results)
    return replace(answer, results=results)


def _in_typed_unit(one: Result, given: Given) -> Result:
    """Give a result that is in the readings' unit the unit they were typed in."""
    return replace(one, unit=given.figures_in) if one.unit == READING else one


def _cautions(each: Sum) -> tuple[str, ...]:
    lines = [each.caution] if each.caution else []
    if each.dangers:
        from logbook.shop.cautions import caution_lines

        lines += caution_lines(each.dangers)
    return tuple(lines)


def _system(each: Sum, given: Given) -> str:
    lengths = [
        value.unit
        for one in each.inputs
        if one.kind is Kind.QUANTITY and UNITS[one.unit].dimension == "length"
        for value in given.values[one.name]
        if value.typed != one.default
    ]
    inches = {"in", "ft", "thou"}
    return "inch" if lengths and all(unit in inches for unit in lengths) else "mm"


def _with_spread(each: Sum, given: Given, answer: Answer) -> Answer:
    """Add the uncertainty that the inputs carry to every figure."""
    squares: dict[str, list[float]] = {}
    used = {one.name for one in each.inputs if one.uses_spread}
    for name, values in given.values.items():
        if name in used:
            continue
        for place, value in enumerate(values):
            if value.uncertainty:
                high = _shifted(each, given, name, place, value.uncertainty)
                low = _shifted(each, given, name, place, -value.uncertainty)
                _add_squares(squares, answer, high, low)
    if not squares:
        return answer
    results = tuple(_spread_of(one, squares.get(one.name)) for one in answer.results)
    return replace(
        answer,
        results=results,
        assumptions=(
            *answer.assumptions,
            "± is an expanded uncertainty at about 95 % (k = 2), independent inputs",
        ),
    )


def _shifted(
    each: Sum, given: Given, name: str, place: int, by: object
) -> Answer | None:
    """Work out with one value moved; None where that is not accepted."""
    values = list(given.values[name])
    old = values[place]
    values[place] = Value(old.typed, old.exact + by, old.word, old.unit)  # type: ignore[operator]
    moved = replace(given, values={**given.values, name: tuple(values)})
    try:
        return each.compute(moved)
    except (BadInput, ArithmeticError, ValueError):
        return None


def _add_squares(
    squares: dict[str, list[float]],
    middle: Answer,
    high: Answer | None,
    low: Answer | None,
) -> None:
    for one in middle.results:
        at = _figures(one.value)
        up = _same(high, one, at)
        down = _same(low, one, at)
        sides = int(up is not at) + int(down is not at)
        held = squares.setdefault(one.name, [0.0] * len(at))
        for place in range(len(at)):
            if sides:
                held[place] += ((up[place] - down[place]) / sides) ** 2


def _same(other: Answer | None, one: Result, at: list[float]) -> list[float]:
    """Figures of the same result in another answer; `at` where it has none."""
    for each in other.results if other else ():
        figures = _figures(each.value)
        if each.name == one.name and len(figures) == len(at):
            return figures
    return at


def _figures(value: Found) -> list[float]:
    if isinstance(value, str | bool):
        return []
    values = value if isinstance(value, tuple) else (value,)
    return [float(one) for one in values]


def _spread_of(one: Result, squares: list[float] | None) -> Result:
    if not squares or not any(squares) or not all(map(math.isfinite, squares)):
        return one
    own = one.uncertainty or 0.0
    owns = own if isinstance(own, tuple) else (own,) * len(squares)
    total = tuple(
        math.sqrt(square + old**2) for square, old in zip(squares, owns, strict=True)
    )
    return replace(one, uncertainty=total if isinstance(one.value, tuple) else total[0])
