"""What a bought sheet of a nominal thickness may measure.

A measured thickness always wins over a nominal or a tolerance.
"""

from __future__ import annotations

import re

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.given import POSITIVE, Given, Input, Kind, above
from logbook.shop.sums import Sum
from logbook.shop.tables import Row, Table, table

MATERIALS = (
    "acrylic cast",
    "acrylic extruded",
    "plywood sanded",
    "steel",
    "aluminium I",
    "aluminium II",
)


_GROUP_I = ("1", "3003", "3103", "3105", "5005")


_GROUP_II = ("2", "5052", "5083", "5251", "5754", "6061", "6082", "7")


def aluminium_group(alloy: str) -> str:
    """Give the EN 485-4 group of a wrought alloy, as `aluminium I` or `II`.

    Raises:
        BadInput: the alloy is in neither list.
    """
    found = re.search(r"(?<![0-9])[1-8][0-9]{3}(?![0-9])", alloy)
    for group, starts in (("aluminium II", _GROUP_II), ("aluminium I", _GROUP_I)):
        if found and found[0].startswith(starts):
            return group
    raise BadInput(
        f"material: found “{alloy}”; accepted: {', '.join(MATERIALS)}, or an aluminium "
        "alloy such as 5052"
    )


def sheet_material(word: str) -> str:
    """Give the material with a thickness standard that a word names.

    Raises:
        BadInput: none, or more than one, is meant.
    """
    plain = " ".join(word.lower().replace("aluminum", "aluminium").split())
    begin = [each for each in MATERIALS if each.lower().startswith(plain)]
    for each in MATERIALS:
        if each.lower() == plain:
            return each
    if len(begin) == 1:
        return begin[0]
    if plain.endswith("steel") and "stainless" not in plain:
        return "steel"
    if begin:
        raise BadInput(f"material: found “{word}”; accepted: {', '.join(begin)}")
    return aluminium_group(word)


def thickness_limits(
    material: str, thickness: float, width: float | None, grade: str = "normal"
) -> tuple[float, float]:
    """Give the least and greatest thickness a sheet may have, in mm.

    Without a width the widest column counts, which is the most cautious.

    Raises:
        BadInput: thickness or width is outside the standard's table.
    """
    t = thickness
    if material == "acrylic cast":
        return t - (0.4 + 0.1 * t), t + 0.4 + 0.1 * t
    if material == "acrylic extruded":
        share = 0.10 if t < 3 else 0.05
        return t * (1 - share), t * (1 + share)
    if material == "plywood sanded":
        return t - (0.4 + 0.03 * t), t + 0.2 + 0.03 * t
    name = "steel" if material == "steel" else "aluminium"
    row = table("sheet", name).band(t, "mm", "thickness")
    prefix = f"{grade}_" if name == "steel" else f"{material.split()[1]}_"
    column = _width_column(row.table, prefix, width)
    half = row.number(column)
    return t - half, t + half


def _width_column(rows: Table, prefix: str, width: float | None) -> str:
    columns = [each for each in rows.columns if each.startswith(prefix)]
    if width is None:
        return columns[-1]
    for column in columns:
        end = column.removeprefix(prefix)
        if end == "wide" or width <= float(end) * (1 + 1e-9):
            return column
    last = columns[-1].removeprefix(prefix)
    raise BadInput(
        f"width: found {width:g} mm; accepted in {rows.title}: up to {last} mm"
    )


def _limits(given: Given) -> Answer:
    material = sheet_material(given.word("material"))
    t, width = given.number("thickness"), given.maybe("width")
    low, high = thickness_limits(material, t, width, given.word("grade"))
    results = [
        Result("low", low, "mm", 2, "thinnest that still conforms"),
        Result("high", high, "mm", 2, "thickest"),
        Result("tolerance_minus", t - low, "mm", 2),
        Result("tolerance_plus", high - t, "mm", 2),
    ]
    said: list[str] = []
    if (measured := given.maybe("measured")) is not None:
        results.insert(0, Result("thickness", measured, "mm", 2, "as measured"))
        if not low <= measured <= high:
            said.append(
                f"measured {measured:g} mm is outside {low:.2f} to {high:.2f} mm"
            )
    return Answer(
        tuple(results),
        assumptions=_limit_assumptions(material, width, given.has("measured")),
        warnings=tuple(said),
        sources=(_limit_row(material).source,),
    )


def _limit_row(material: str) -> Row:
    return table("sheet", "standards").named(material)


def _limit_assumptions(
    material: str, width: float | None, measured: object
) -> tuple[str, ...]:
    said = []
    if material.startswith(("steel", "aluminium")):
        said.append("the width is that of the sheet as rolled, not of the piece")
        if width is None:
            said.append("width not given: the widest sheet of the table is assumed")
    if not measured:
        said.append("a sheet in hand is measured, and that thickness wins")
    return tuple(said)


SUMS = (
    Sum(
        name="sheet-limits",
        title="What a bought sheet of a nominal thickness may really measure",
        inputs=(
            Input(
                "material",
                "one of " + ", ".join(MATERIALS) + ", or an aluminium alloy",
                kind=Kind.TEXT,
            ),
            Input("thickness", "nominal", "mm", accept=above(0, 50), also=("t",)),
            Input(
                "width",
                "of the sheet as rolled, for metals",
                "mm",
                accept=POSITIVE,
                optional=True,
            ),
            Input(
                "grade",
                "tolerance class of steel sheet",
                kind=Kind.CHOICE,
                choices=("normal", "special"),
                default="normal",
            ),
            Input(
                "measured",
                "thickness as measured",
                "mm",
                accept=POSITIVE,
                optional=True,
            ),
        ),
        compute=_limits,
        formula="acrylic cast ±(0.4 + 0.1 t); extruded ±10 % below 3 mm, ±5 % from it; "
        "sanded plywood +(0.2 + 0.03 t) -(0.4 + 0.03 t); metals by table",
        source="ISO 7823-1 and -2; EN 315; EN 10131; EN 485-4",
        how="read",
        caution="One sheet may be anywhere between; two pieces of one sheet are alike.",
        example={"material": "5052", "thickness": "2.0 mm", "width": "1000 mm"},
        also=("thickness-tolerance", "sheet-thickness"),
    ),
)
