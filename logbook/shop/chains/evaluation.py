"""What a formula comes to: exactly, with its sensitivities, or over samples.

One walk serves all three; only the kind of number differs. `exact` works in
fractions, `sensitivities` carries the partial derivatives along and notices
whether the formula is linear in its names, and `sampled` works on arrays.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from logbook.errors import BadInput
from logbook.quantity import Quantity
from logbook.shop.chains.formula import Call, Formula, Name, Node, Number, Product, Sum
from logbook.shop.chains.measure import (
    Exponents,
    Measure,
    base_unit,
    combined,
    describe,
    in_unit,
    measured,
)
from logbook.shop.chains.numbers import ARRAY, DUAL, EXACT, Dual, Kind

Values = Mapping[str, Quantity]
"""The value of each name, as `str(name)` spells it."""


def exact(formula: Formula, values: Values, unit: str = "") -> Fraction:
    """Work out a formula exactly, in `unit` (empty: a plain number).

    Raises:
        BadInput: an unknown name, units that do not go together, or a division
            by zero.
    """
    names = {str(name): _named(name, values) for name in formula.names}
    found = _walk(formula.root, names, EXACT)
    result: Fraction = in_unit(found, unit, "the formula")
    return result


def exact_measure(formula: Formula, values: Values) -> Measure:
    """Work out a formula exactly, in the coherent unit of its dimension.

    Raises:
        BadInput: as for `exact`.
    """
    names = {str(name): _named(name, values) for name in formula.names}
    return _walk(formula.root, names, EXACT)


@dataclass(frozen=True, slots=True)
class Sensitivities:
    """Value, slopes (result unit per unit of each name) and whether linear.

    Where `linear` is False the slopes hold at these values only; at a corner
    of min, max or abs they are those of one side.
    """

    value: Fraction
    slopes: Mapping[str, Fraction]
    linear: bool


def sensitivities(formula: Formula, values: Values, unit: str = "") -> Sensitivities:
    """Work out a formula and how much each name moves it.

    The slope of a name is in `unit` per unit of that name's value.

    Raises:
        BadInput: as for `exact`.
    """
    names: dict[str, Measure] = {}
    for name in formula.names:
        one = _named(name, values)
        dual = Dual(one.number, {str(name): Fraction(1)}, linear=True)
        names[str(name)] = Measure(dual, one.exponents, one.point)
    found = _walk(formula.root, names, DUAL)
    dual = found.number
    slopes = {
        word: _in_units(slope, found.exponents, unit, names[word], values[word].unit)
        for word, slope in dual.slopes.items()
    }
    for word in names:
        slopes.setdefault(word, Fraction(0))
    value = Measure(dual.value, found.exponents, found.point)
    return Sensitivities(in_unit(value, unit, "the formula"), slopes, dual.linear)


def _in_units(
    slope: Fraction, result: Exponents, unit: str, name: Measure, of: str
) -> Fraction:
    """Turn a slope in coherent units into `unit` per unit of the name."""
    per: Fraction = _width(of, name.exponents)
    width = _width(unit, result) if unit else Fraction(1)
    return slope * per / width


def _width(unit: str, exponents: Exponents) -> Fraction:
    """How many coherent units one `unit` is, offsets aside."""
    one: Fraction = measured(Fraction(1), unit).number
    none: Fraction = measured(Fraction(0), unit).number
    if measured(Fraction(1), unit).exponents != exponents:
        raise BadInput(
            f"the formula is a {describe(exponents)}; accepted: a result in "
            f"{base_unit(exponents) or 'another unit'}, not in {unit}"
        )
    return one - none


def sampled(
    formula: Formula, arrays: Mapping[str, Any], units: Mapping[str, str], unit: str
) -> Any:
    """Work out a formula over arrays of samples, one per name, in `unit`.

    Raises:
        BadInput: as for `exact`; a division by zero in any sample counts.
    """
    names: dict[str, Measure] = {}
    for name in formula.names:
        if str(name) not in arrays:
            raise _unknown(str(name), list(arrays))
        names[str(name)] = measured(arrays[str(name)], units[str(name)])
    return in_unit(_walk(formula.root, names, ARRAY), unit, "the formula")


def _named(name: Name, values: Values) -> Measure:
    if str(name) not in values:
        raise _unknown(str(name), list(values))
    value = values[str(name)]
    if value.metal:
        raise BadInput(
            f"{name} is {value}, a gauge; accepted: its thickness by table or measured"
        )
    return measured(value.value, value.unit)


def _unknown(name: str, known: list[str]) -> BadInput:
    have = ", ".join(sorted(known)[:12]) or "none is given"
    return BadInput(f"{name} has no value here; accepted: {have}")


def _walk(node: Node, names: Mapping[str, Measure], kind: Kind) -> Measure:
    match node:
        case Number(value, unit):
            return kind.constant(measured(value, unit))
        case Name():
            return names[str(node)]
        case Sum(terms):
            return _sum([(sign, _walk(term, names, kind)) for sign, term in terms])
        case Product(factors):
            return _product(
                [(sign, _walk(factor, names, kind)) for sign, factor in factors], kind
            )
        case Call(function, members):
            return _call(function, [_walk(each, names, kind) for each in members], kind)


def _sum(terms: list[tuple[int, Measure]]) -> Measure:
    sign, first = terms[0]
    number = first.number if sign == 1 else -first.number
    points = sign * first.point
    for sign, term in terms[1:]:
        _same(first, term, "added or subtracted")
        number = number + term.number if sign == 1 else number - term.number
        points += sign * term.point
    if points not in {0, 1}:
        raise BadInput(
            "two temperatures cannot be added, nor one be made negative; "
            "accepted: a difference of two, or a difference in K"
        )
    return Measure(number, first.exponents, bool(points))


def _product(factors: list[tuple[int, Measure]], kind: Kind) -> Measure:
    number, exponents = factors[0][1].number, factors[0][1].exponents
    for sign, factor in factors[1:]:
        exponents = combined(exponents, factor.exponents, sign)
        if sign == 1:
            number = number * factor.number
        else:
            number = kind.divide(number, factor.number)
    if any(factor.point for _, factor in factors):
        raise BadInput(
            "a temperature cannot be multiplied or divided, because 0 °C is no "
            "zero; accepted: a difference of two temperatures, or one in K"
        )
    return Measure(number, exponents)


def _call(function: str, members: list[Measure], kind: Kind) -> Measure:
    first = members[0]
    for member in members[1:]:
        _same(first, member, f"compared by {function}")
        if member.point != first.point:
            raise BadInput(
                f"{function} compares a temperature with a difference of "
                "temperatures; accepted: members of one kind"
            )
    if function == "abs" and first.point:
        raise BadInput("abs of a temperature means nothing; accepted: a difference")
    number = kind.choose(function, [member.number for member in members])
    return Measure(number, first.exponents, first.point)


def _same(one: Measure, other: Measure, done: str) -> None:
    if one.exponents != other.exponents:
        raise BadInput(
            f"a {describe(one.exponents)} and a {describe(other.exponents)} cannot be "
            f"{done}; accepted: one dimension throughout"
        )
