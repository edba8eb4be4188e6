"""The thickness of sheet by its gauge and metal, or by its weight.

A measured thickness always wins over a gauge.
"""

from __future__ import annotations

import re

from logbook.errors import BadInput
from logbook.quantity import Metal, parse_quantity
from logbook.shop.answers import Answer, Result
from logbook.shop.given import POSITIVE, Given, Input, Kind
from logbook.shop.materials.gauges import gauge_thickness
from logbook.shop.sums import Sum
from logbook.shop.tables import table

ZINC_WEIGHT = 2.5 / 16
"""Zinc of the galvanized gauge, lb/ft²: 2.5 oz."""


INCH_WEIGHT = {
    Metal.STEEL: 41.82,
    Metal.GALVANIZED: 41.82,
    Metal.STAINLESS: 40.0,
}
"""Weight of one inch of sheet, lb/ft²."""


def thickness_by_weight(metal: Metal, weight: float) -> float:
    """Give the thickness in mm of sheet that weighs so many lb/ft².

    Raises:
        BadInput: aluminium, whose gauge is not one of weight.
    """
    if metal not in INCH_WEIGHT:
        raise BadInput(
            "metal: found aluminium, whose gauge is not by weight; accepted: steel, "
            "galvanized, stainless"
        )
    zinc = ZINC_WEIGHT if metal is Metal.GALVANIZED else 0.0
    return (weight + zinc) / INCH_WEIGHT[metal] * 25.4


def metal_named(word: str) -> Metal:
    """Give the metal that a word names, as it may stand behind a gauge.

    Raises:
        BadInput: it has no gauge table.
    """
    try:
        metal = parse_quantity(f"1 ga {word}").metal
    except BadInput as error:
        raise BadInput(f"metal: {error}") from None
    assert metal
    return metal


def _metal_and_gauge(given: Given) -> tuple[Metal, int]:
    """Read `18` beside a metal, or `18 ga steel` by itself."""
    text = " ".join(given.word("gauge").split())
    found = re.fullmatch(r"(\d+)\s*-?\s*(?:ga|gauge|gage)?\.?\s*([A-Za-z ]*)", text)
    if not found:
        raise BadInput(
            f"gauge: found {text[:30]}; accepted: a whole number at least 0, or with "
            "its metal, as 18 ga steel"
        )
    word = found[2].strip() or given.word("metal")
    if not word:
        raise BadInput(
            "metal is missing (gauges differ by metal); accepted: steel, galvanized, "
            "stainless or aluminium"
        )
    if (
        found[2]
        and given.has("metal")
        and metal_named(word) != metal_named(given.word("metal"))
    ):
        raise BadInput(
            f"gauge: found {text} beside metal {given.word('metal')}; accepted: one "
            "metal"
        )
    return metal_named(word), int(found[1])


def _gauge(given: Given) -> Answer:
    metal, number = _metal_and_gauge(given)
    by_table = float(gauge_thickness(metal, number))
    measured = given.maybe("measured")
    rows = table("gauges", metal.value)
    said: list[str] = []
    if measured is not None and abs(measured - by_table) > 0.15 * by_table:
        said.append(
            f"measured {measured:g} mm is far from {by_table:.3f} mm by the table: is "
            "it another metal's gauge?"
        )
    return Answer(
        (
            Result(
                "thickness",
                by_table if measured is None else measured,
                "mm",
                3,
                "by the table" if measured is None else "as measured",
            ),
            Result("table_thickness", by_table, "mm", 3, rows.title),
        ),
        assumptions=()
        if measured is not None
        else ("a table thickness: measure the sheet, a measured thickness wins",),
        warnings=tuple(said),
        sources=(rows.cited,),
    )


def _weight(given: Given) -> Answer:
    metal = metal_named(given.word("metal"))
    thickness = thickness_by_weight(metal, given.number("weight"))
    return Answer((Result("thickness", thickness, "mm", 3),))


SUMS = (
    Sum(
        name="gauge",
        title="Sheet thickness by gauge and metal",
        inputs=(
            Input(
                "metal",
                "steel, galvanized, stainless or aluminium: gauges differ by metal",
                kind=Kind.TEXT,
                optional=True,
                also=("series", "material"),
            ),
            Input(
                "gauge",
                "gauge number, or with its metal: 18 ga steel",
                kind=Kind.TEXT,
                also=("number", "ga"),
            ),
            Input(
                "measured",
                "thickness as measured, which wins",
                "mm",
                accept=POSITIVE,
                optional=True,
            ),
        ),
        compute=_gauge,
        formula="table; aluminium 0.005 in x 92^((36 - n)/39)",
        source="sheet gauges by metal",
        how="read",
        caution="Galvanized thickness includes the zinc; bend and joint arithmetic "
        "should use a measured thickness.",
        relied_on=False,
        example={"metal": "steel", "gauge": "18"},
        also=("sheet-gauge", "gauge-thickness"),
    ),
    Sum(
        name="gauge-by-weight",
        title="Sheet thickness from its weight per square foot",
        inputs=(
            Input("metal", "steel, galvanized or stainless", kind=Kind.TEXT),
            Input("weight", "pounds per square foot", "lb/ft2", Kind.NUMBER, POSITIVE),
        ),
        compute=_weight,
        formula="steel weight / 41.82; galvanized (weight + 2.5 oz) / 41.82; stainless "
        "weight / 40, in inches",
        source="US standard gauge weights",
        how="read",
        relied_on=False,
        example={"metal": "steel", "weight": "2.0"},
    ),
)
