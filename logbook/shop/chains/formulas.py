"""A formula over named dimensions as a sum: exactly, with its slopes."""

from __future__ import annotations

from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity
from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.chains.evaluation import exact_measure, sensitivities
from logbook.shop.chains.formula import read_formula
from logbook.shop.chains.measure import base_unit, describe, in_unit
from logbook.shop.digits import decimals
from logbook.shop.given import Given, Input, Kind
from logbook.shop.sums import Sum


def _compute_formula(given: Given) -> Answer:
    formula = read_formula(given.word("formula"))
    values: dict[str, Quantity] = {}
    for name, value in (_value(text) for text in given.words("values")):
        if name in values:
            raise BadInput(f"{name} is given twice; accepted: one value for each name")
        values[name] = value
    unit = given.word("unit")
    if not unit:
        exponents = exact_measure(formula, values).exponents
        unit = base_unit(exponents)
        if exponents and not unit:
            raise BadInput(
                f"the formula is a {describe(exponents)}; accepted: a unit for it"
            )
    found = sensitivities(formula, values, unit)
    measure = exact_measure(formula, values)
    places = decimals(found.value)
    columns = (Column("name"), Column("slope", "", 6), Column("per"))
    rows = tuple(
        (name, float(slope), values[name].unit) for name, slope in found.slopes.items()
    )
    return Answer(
        (
            Result(
                "value", float(in_unit(measure, unit)), unit, places, "what it comes to"
            ),
            Result("exact", str(found.value), "", 0, f"as a fraction of {unit or '1'}"),
            Result("linear", found.linear, "", 0, "whether the slopes hold everywhere"),
        ),
        tables=(Rows("How much each name moves it", columns, rows),) if rows else (),
    )


def _value(text: str) -> tuple[str, Quantity]:
    name, sign, value = text.partition("=")
    if not sign:
        raise BadInput(f"“{text[:40]}” names no value; accepted: part.name = 178.60 mm")
    return name.strip(), parse_quantity(value, "mm")


SUMS: tuple[Sum, ...] = (
    Sum(
        name="formula",
        also=("work-out", "expression"),
        title="A formula over named dimensions, exactly, with its slopes",
        inputs=(
            Input("formula", "as base.opening - bar.length", kind=Kind.TEXT),
            Input("values", "value of each name, as bar.length = 178.3 mm",
                  kind=Kind.TEXT, many=True, optional=True, also=("value", "names")),
            Input("unit", "unit of the result; the base unit without one",
                  kind=Kind.TEXT, optional=True),
        ),
        compute=_compute_formula,
        formula="+ − × ÷, min, max, abs, parentheses; units are checked",
        source="arithmetic in exact fractions",
        how="computed",
        example={"formula": "min(base@left.opening, base@right.opening) - bar.length",
                 "values": ("base@left.opening = 178.60 mm",
                            "base@right.opening = 178.68 mm", "bar.length = 178.3 mm")},
        relied_on=False,
    ),
)  # fmt: skip
