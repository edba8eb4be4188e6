"""What the metal of a folded part says to its radius and to the rule used."""

from __future__ import annotations

import re
from collections.abc import Sequence

from logbook.shop.bending.bends import Bend
from logbook.shop.bending.part_inputs import by_rule
from logbook.shop.given import Given, Input, Kind

METAL = Input(
    "material",
    "alloy or metal, to check the inside radius and the rule of the allowance",
    kind=Kind.TEXT,
    optional=True,
    also=("alloy",),
)

_STEEL = re.compile(r"steel|stainless|\binox\b|\b(?:dc|dx|s)\d{2,3}", re.IGNORECASE)


def rule_for_metal(given: Given) -> tuple[str, ...]:
    """Say for which metal the rule of the allowance is stated."""
    material = given.word("material")
    if not by_rule(given) or given.word("rule") != "DIN 6935":
        return ()
    if _STEEL.search(material):
        return ()
    here = f", and here it is {material}" if material else ""
    return (
        (
            f"DIN 6935 is stated for steel{here}: for aluminium and other metals take "
            "a coupon (sum bend-coupon), or a neutral factor K from neutral-factor, "
            "commonly 0.33 to 0.45 (common practice, no source)"
        ),
    )


def metal_warnings(given: Given, bends: Sequence[Bend]) -> tuple[str, ...]:
    """Say where an inside radius is smaller than its metal asks for."""
    from logbook.shop.bending.radii import radius_warning, with_temper

    if not given.has("material"):
        return ()
    material, assumed = with_temper(given.word("material"), bends[0].thickness)
    lines = [
        (f"bend {number}: ", line)
        for number, each in enumerate(bends, 1)
        for line in radius_warning(material, each.thickness, each.radius)
    ]
    alike = len({line for _, line in lines}) == 1 and len(lines) == len(bends)
    said = [lines[0][1]] if alike else [place + line for place, line in lines]
    return (*said, *([assumed] if assumed else []))


def metal_sources(given: Given) -> tuple[str, ...]:
    """Give the sources of the radius tables, where a metal was given."""
    from logbook.shop.bending.radii import radius_sources, with_temper

    if not given.has("material"):
        return ()
    thick = given.number("thickness")
    return radius_sources(with_temper(given.word("material"), thick)[0])
