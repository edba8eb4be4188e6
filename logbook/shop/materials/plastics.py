"""Plastics in the shop: whether one is brittle, bending it hot, curving it cold.

Sizes in mm, elongation in percent.
"""

from __future__ import annotations

from logbook.shop.answers import Answer, Result
from logbook.shop.given import POSITIVE, Given, Input, Kind, at_least
from logbook.shop.sums import Sum
from logbook.shop.tables import table

BRITTLE_BELOW = 5.0
"""Percent elongation at break below which a plastic counts as brittle."""


def _brittle(given: Given) -> Answer:
    notch, sources = "", list[str]()
    if given.has("elongation"):
        low = high = given.number("elongation")
    else:
        row = table("heat", "elongation").named(given.word("material"))
        low, high = row.number("low"), row.number("high")
        notch = row.text("notch")
        sources.append(f"{row.label}: {row.source}")
    brittle = low < BRITTLE_BELOW
    said = (
        (
            "washers under every head, oversize holes, no bare countersink, no "
            "self-tapping screw, no snap fit"
        ),
    )
    results = [
        Result("brittle", brittle, "", 0, "below 5 % elongation at break"),
        Result("elongation_low", low, "%", 1, "from"),
        Result("elongation_high", high, "%", 1, "to"),
    ]
    if notch:
        results.append(Result("notch", notch))
    return Answer(
        tuple(results), warnings=said if brittle else (), sources=tuple(sources)
    )


def _line_bend(given: Given) -> Answer:
    row = table("heat", "hot_bend").named(given.word("material"))
    t = given.number("thickness")
    return Answer(
        (
            Result("radius", row.number("radius") * t, "mm", 1, "inside, at least"),
            Result(
                "heated_low", row.number("width_low") * t, "mm", 1, "heat a strip of"
            ),
            Result("heated_high", row.number("width_high") * t, "mm", 1, "to"),
        ),
        sources=(f"{row.label}: {row.source}",),
    )


def _cold_curve(given: Given) -> Answer:
    t = given.number("thickness")
    rows = table("heat", "cold_curve")
    typed = given.maybe("factor")
    factors = [row.number("factor") for row in rows.rows]
    factor = max(factors) if typed is None else typed
    return Answer(
        (
            Result("least_radius", factor * t, "mm", 0, "of the curve, held cold"),
            Result("factor", factor, "", 0, "in thicknesses"),
        ),
        assumptions=()
        if typed is not None
        else (
            (
                f"makers ask for {min(factors):.0f} to {max(factors):.0f} thicknesses; "
                "the "
                "largest is taken: give your sheet's factor"
            ),
        ),
        sources=() if typed is not None else (rows.cited,),
    )


SUMS = (
    Sum(
        name="brittle",
        title="Whether a plastic must be treated as brittle",
        inputs=(
            Input(
                "material",
                "the plastic",
                kind=Kind.TEXT,
                optional=True,
                rows_of="heat.elongation",
            ),
            Input(
                "elongation",
                "at break, instead of the table",
                "%",
                accept=at_least(0),
                optional=True,
            ),
        ),
        compute=_brittle,
        formula="brittle where the elongation at break may be below 5 %",
        source="plastics tables, each row its own",
        how="read",
        example={"material": "polystyrene"},
    ),
    Sum(
        name="hot-line-bend",
        title="Hot line bend of plastic sheet: radius and heated strip",
        inputs=(
            Input(
                "material",
                "the sheet",
                kind=Kind.TEXT,
                default="acrylic",
                rows_of="heat.hot_bend",
            ),
            Input("thickness", "of the sheet", "mm", accept=POSITIVE, also=("t",)),
        ),
        compute=_line_bend,
        formula="radius = 2 t; strip 3 t to 5 t wide",
        source="sheet maker's brief on line bending",
        how="read",
        dangers=("strip heater",),
        example={"material": "acrylic", "thickness": "4 mm"},
        also=("line-bend",),
    ),
    Sum(
        name="cold-curve",
        title="Least radius to which acrylic may be curved cold",
        inputs=(
            Input("thickness", "of the sheet", "mm", accept=POSITIVE, also=("t",)),
            Input(
                "factor",
                "radius in thicknesses, from the maker of the sheet",
                kind=Kind.NUMBER,
                accept=POSITIVE,
                optional=True,
            ),
        ),
        compute=_cold_curve,
        formula="least radius = factor x thickness",
        source="sheet makers' guidance",
        how="read",
        example={"thickness": "3 mm", "factor": "330"},
        also=("acrylic-cold-curve",),
    ),
)
