"""Figures of wood as sums: moisture in steady air, published movement, shrinkage."""

from __future__ import annotations

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.given import Given, Input, Kind, between
from logbook.shop.materials.wood import (
    coefficient_from_shrinkage,
    equilibrium_moisture,
    shrinkage_at,
)
from logbook.shop.materials.wood_inputs import HUMIDITY, TEMPERATURE, percent
from logbook.shop.sums import Sum
from logbook.shop.tables import Row, table


def _moisture_sum(given: Given) -> Answer:
    t, h = given.number("temperature"), given.number("humidity")
    return Answer(
        (Result("moisture", equilibrium_moisture(t, h), "%", 1, "in steady air"),),
        assumptions=("bare wood after weeks in steady air",),
    )


def _species(given: Given) -> Answer:
    results: list[Result] = []
    sources: list[str] = []
    rows: list[tuple[str, Row]] = []
    for name in ("coefficients", "shrinkage"):
        try:
            rows.append((name, table("wood", name).named(given.word("species"))))
        except BadInput:
            continue
    if not rows:
        table("wood", "shrinkage").named(given.word("species"))
    for name, row in rows:
        sources.append(f"{row.label}: {row.source}")
        if name == "coefficients":
            results += [
                Result("coefficient_radial", row.number("radial"), "1/%", 5),
                Result("coefficient_tangential", row.number("tangential"), "1/%", 5),
            ]
        else:
            results += [
                Result("shrinkage_radial", row.number("radial"), "%", 1),
                Result("shrinkage_tangential", row.number("tangential"), "%", 1),
                Result("shrinkage_volumetric", row.number("volumetric"), "%", 1),
            ]
    return Answer(tuple(results), sources=tuple(sources))


def _shrinkage(given: Given) -> Answer:
    total = given.number("shrinkage")
    results = [
        Result(
            "coefficient", coefficient_from_shrinkage(total), "1/%", 5, "per percent"
        )
    ]
    if (moisture := given.maybe("moisture")) is not None:
        part = shrinkage_at(total, moisture)
        results.append(Result("shrinkage", part, "%", 2, "from green to there"))
    return Answer(tuple(results), assumptions=("fibre saturation at 30 % moisture",))


SUMS = (
    Sum(
        name="wood-moisture",
        title="Moisture content that wood comes to in steady air",
        inputs=(
            TEMPERATURE,
            Input(
                "humidity",
                "relative humidity",
                "%",
                accept=HUMIDITY,
                also=("rh", "relative_humidity"),
                share=True,
            ),
        ),
        compute=_moisture_sum,
        formula="Hailwood and Horrobin, constants by temperature",
        source="Wood Handbook FPL-GTR-190 equation 4-5; FPL-RN-0268",
        how="read",
        relied_on=False,
        example={"temperature": "20 °C", "humidity": "50 %"},
        also=("emc", "equilibrium-moisture", "wood-emc"),
    ),
    Sum(
        name="wood-species",
        title="Published movement and shrinkage figures of a species",
        inputs=(
            Input("species", "kind of wood", kind=Kind.TEXT, rows_of="wood.shrinkage"),
        ),
        compute=_species,
        formula="table",
        source="Wood Handbook FPL-GTR-190 tables 4-3, 4-4 and 13-5",
        how="read",
        relied_on=False,
        caution="Four decimals are more than a single board is good for.",
        example={"species": "walnut, black"},
        also=("species",),
    ),
    Sum(
        name="wood-shrinkage",
        title="Shrinkage to a moisture content, and the coefficient it stands for",
        inputs=(
            Input(
                "shrinkage",
                "total, green to ovendry",
                "%",
                accept=between(0, 100),
                also=("total_shrinkage",),
            ),
            percent("moisture", "dried to", "mc"),
        ),
        compute=_shrinkage,
        formula="S_M = S (30 - M)/30; C = 1 / (3000/S - 20)",
        source="Wood Handbook equation 4-9; C links its tables 4-3 and 13-5",
        how="computed",
        relied_on=False,
        example={"shrinkage": "7.8 %", "moisture": "12 %"},
    ),
)
