"""The least inside radius a sheet takes without cracking.

Published tables disagree, because they serve different trades; every table
that knows the metal is shown, and the larger figure is the cautious one.
"""

from __future__ import annotations

import re

from logbook.errors import BadInput
from logbook.shop.tables import Row, Table, table

STEELS = {"steel", "mild steel", "galvanized", "galvanized steel", "carbon steel"}


def trade_factor(alloy: str, thickness: float) -> float | None:
    """Give the trade table's least radius in thicknesses, None for other alloys.

    The listed sheet or the next thicker one counts; within 2 % of a listed
    thickness (in mm) it is the listed one.
    """
    rows = _alloy_rows("radius_trade", alloy)
    if rows is None:
        return None
    return _row_for(rows, thickness, within=0.02).number("factor")


def aircraft_range(alloy: str, thickness: float) -> tuple[float, float] | None:
    """Give the range of AC 43.13-1B table 4-6 in thicknesses, None where unknown."""
    rows = _alloy_rows("radius_aircraft", alloy)
    if rows is None:
        return None
    row = _row_for(rows, thickness, within=0.001)
    return row.number("low"), row.number("high")


def both_tables(
    alloy: str, thickness: float
) -> tuple[float | None, tuple[float, float] | None, BadInput | None]:
    """Give what each of the two tables says, and why one that knows the alloy does not.

    A table that ends before this thickness leaves the word to the other.
    """
    factor, pair, beyond = None, None, None
    try:
        factor = trade_factor(alloy, thickness)
    except BadInput as error:
        beyond = error
    try:
        pair = aircraft_range(alloy, thickness)
    except BadInput as error:
        beyond = error
    return factor, pair, beyond


def _row_for(rows: Table, thickness: float, *, within: float) -> Row:
    """Give the row of the listed sheet or the next thicker one.

    Raises:
        BadInput: the sheet is thicker than the table goes.
    """
    thickest = rows.rows[-1].number("thickness") * 25.4
    if thickness > thickest * (1 + within):
        raise BadInput(
            f"thickness: found {thickness:g} mm; accepted in {rows.title}: up to "
            f"{thickest:.2f} mm"
        )
    return rows.up_to("thickness", thickness / 25.4, "in", within=within)


def with_temper(material: str, thickness: float) -> tuple[str, str]:
    """Give alloy and temper where only the alloy was named, and what to say of it.

    The temper that asks for the largest radius is taken.
    """
    wanted = re.sub(
        r"^(?:en aw-?|aluminium|aluminum|al)\s*", "", material.strip().lower()
    )
    wanted = wanted.upper().replace(" ", "-")
    tempers = [each for each in known_alloys() if each.startswith(f"{wanted}-")]
    if not re.fullmatch(r"\d{4}", wanted) or not tempers:
        return (wanted if wanted in known_alloys() else material), ""
    hard = max(tempers, key=lambda each: _asked(each, thickness))
    return hard, (
        f"temper of {wanted} not given: {hard} is taken, which of "
        f"{', '.join(tempers)} asks for the largest radius"
    )


def _asked(alloy: str, thickness: float) -> float:
    """Give the radius an alloy asks for, in thicknesses; the larger of the tables."""
    factor, pair, _ = both_tables(alloy, thickness)
    return max(factor or 0.0, pair[1] if pair else 0.0)


def _alloy_rows(name: str, alloy: str) -> Table | None:
    wanted = alloy.upper().replace(" ", "-")
    rows = table("bends", name)
    names = sorted({row.label for row in rows.rows})
    hits = [each for each in names if each.upper() == wanted]
    return rows.where(alloy=hits[0]) if hits else None


def din_radius(
    thickness: float, tensile: float, bend_angle: float, *, across: bool
) -> float:
    """Give the least radius of steel by DIN 6935, in mm.

    Bends of more than 120 degrees, or along the rolling direction, take the
    next thicker band.

    Raises:
        BadInput: thickness or tensile strength (MPa) is outside the table.
    """
    if tensile > 640:
        raise BadInput(
            f"tensile strength: found {tensile:g} MPa; accepted in DIN 6935: up to 640"
        )
    column = "soft" if tensile <= 390 else "medium" if tensile <= 490 else "strong"
    rows = table("bends", "radius_din")
    row = rows.band(thickness, "mm", "thickness")
    if bend_angle > 120 or not across:
        place = rows.rows.index(row) + 1
        if place == len(rows.rows):
            raise BadInput(
                f"thickness: found {thickness:g} mm, which needs the next thicker "
                "band; "
                "accepted for this bend: up to 18 mm"
            )
        row = rows.rows[place]
    return row.number(column)


def known_alloys() -> list[str]:
    """Name the metals that have a table of inside radii."""
    names = {
        row.label
        for name in ("radius_trade", "radius_aircraft")
        for row in table("bends", name).rows
    }
    return [*sorted(names), "steel"]


def radius_warning(material: str, thickness: float, radius: float) -> list[str]:
    """Warn where a radius is below what a table gives for the material."""
    if material.lower() in STEELS:
        least = din_radius(thickness, 390, 90, across=True)
        said = f"DIN 6935 asks for {least:g} mm in soft steel"
        return _too_sharp(radius, least, said)
    factor, pair, _ = both_tables(material, thickness)
    if factor is not None:
        least = factor * thickness
        said = f"the trade table asks for {least:.2g} mm ({factor:g} T) in {material}"
    elif pair is not None:
        least = pair[0] * thickness
        said = f"AC 43.13-1B asks for {least:.2g} mm at least in {material}"
    else:
        return [
            (
                f"no table here gives a least inside radius for {material[:40]}: bend "
                "a coupon first"
            )
        ]
    return _too_sharp(radius, least, said)


def _too_sharp(radius: float, least: float, said: str) -> list[str]:
    if radius < least - 1e-9:
        return [f"inside radius {radius:g} mm: {said}, less may crack"]
    return []


def radius_sources(material: str) -> tuple[str, ...]:
    """Name the tables that know a material."""
    if material.lower() in STEELS:
        return (table("bends", "radius_din").cited,)
    return tuple(
        table("bends", name).cited
        for name in ("radius_trade", "radius_aircraft")
        if _alloy_rows(name, material) is not None
    )
