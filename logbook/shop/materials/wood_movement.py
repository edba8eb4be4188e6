"""How far a board moves across the grain, by both published methods, as a sum.

The coefficient is good between 6 and 14 % moisture, the other method goes by
total shrinkage. The moisture a board comes to in steady air is an upper bound: a
finished board follows the seasons late and damped.
"""

from __future__ import annotations

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.given import POSITIVE, Given, Input, Kind, at_least, between
from logbook.shop.materials.wood import (
    BOARD_SPREAD,
    COEFFICIENT_RANGE,
    FIBRE_SATURATION,
    change_by_coefficient,
    change_by_shrinkage,
    equilibrium_moisture,
)
from logbook.shop.materials.wood_inputs import TEMPERATURE, humidity_input, percent
from logbook.shop.sums import Sum
from logbook.shop.tables import table

USUAL_MOISTURE = 8.0
"""Percent, where only a change of moisture is given: wood kept indoors."""


DIRECTIONS = ("tangential", "radial")


def _moisture(given: Given, end: str) -> float:
    """Give the moisture content at one end, from the air where not given."""
    if given.has(f"moisture_{end}"):
        return given.number(f"moisture_{end}")
    if given.has(f"humidity_{end}"):
        return equilibrium_moisture(
            given.number("temperature"), given.number(f"humidity_{end}")
        )
    raise BadInput(
        f"moisture {end}: not given; accepted: a moisture content such as 8 %, or "
        f"humidity {end} such as 30 %"
    )


def _moistures(given: Given) -> tuple[float, float]:
    """Give the moisture content before and after."""
    if not given.has("moisture_change"):
        return _moisture(given, "from"), _moisture(given, "to")
    known = given.has("moisture_from") or given.has("humidity_from")
    before = _moisture(given, "from") if known else USUAL_MOISTURE
    after = before + given.number("moisture_change")
    if after < 0:
        raise BadInput(
            f"moisture change: found {given.typed('moisture_change')} from "
            f"{before:.1f} %; accepted: down to 0 % moisture"
        )
    return before, after


def _figures(given: Given) -> tuple[float | None, float | None, tuple[str, ...]]:
    """Give coefficient and shrinkage, typed or of the species, and their sources."""
    coefficient, shrinkage = given.maybe("coefficient"), given.maybe("shrinkage")
    sources: list[str] = []
    if given.has("species"):
        way = given.word("direction")
        if coefficient is None:
            coefficient = _of_species("coefficients", given, way, sources)
        if shrinkage is None:
            shrinkage = _of_species("shrinkage", given, way, sources)
    if coefficient is None and shrinkage is None:
        raise BadInput(
            "species: not given; accepted: a species such as beech, or a coefficient, "
            "or a shrinkage"
            if not given.has("species")
            else f"species: found “{given.word('species')}”; accepted: "
            + ", ".join(table("wood", "shrinkage").names())
        )
    return coefficient, shrinkage, tuple(sources)


def _of_species(name: str, given: Given, way: str, sources: list[str]) -> float | None:
    rows = table("wood", name)
    other = table("wood", "shrinkage" if name == "coefficients" else "coefficients")
    try:
        row = rows.named(given.word("species"))
    except BadInput:
        other.named(given.word("species"))
        return None
    sources.append(f"{row.label}: {row.source}")
    return row.number(way)


def _movement(given: Given) -> Answer:
    width = given.number("width")
    before, after = _moistures(given)
    coefficient, shrinkage, sources = _figures(given)
    results: list[Result] = []
    changes: list[float] = []
    if coefficient is not None:
        by_c = change_by_coefficient(width, coefficient, before, after)
        results.append(Result("change_by_coefficient", by_c, "mm", 1))
        changes.append(by_c)
    if shrinkage is not None:
        by_s = change_by_shrinkage(width, shrinkage, before, after)
        results.append(Result("change_by_shrinkage", by_s, "mm", 1))
        changes.append(by_s)
    low, high = COEFFICIENT_RANGE
    inside = all(low <= each <= high for each in (before, after))
    greatest = max(changes, key=abs)
    results = [
        Result("change", greatest, "mm", 1, "of the width, upper bound"),
        Result("width_after", width + greatest, "mm", 1),
        *results,
        Result("moisture_from", before, "%", 1),
        Result("moisture_to", after, "%", 1),
        Result("each_way", abs(greatest) / 2, "mm", 1, "at each edge, fixed mid-board"),
    ]
    results += _against_slots(given, greatest)
    return Answer(
        tuple(results),
        assumptions=(
            *_species_taken(given),
            *_wood_assumptions(given, inside=inside, methods=len(changes)),
        ),
        warnings=_wood_warnings(
            inside=inside, shrinkage=shrinkage, ends=(before, after)
        ),
        sources=sources,
    )


def _species_taken(given: Given) -> tuple[str, ...]:
    """Say which row a species was taken for, and which others are near it."""
    if not given.has("species"):
        return ()
    lines = [
        table("wood", name).taken(given.word("species"))
        for name in ("coefficients", "shrinkage")
    ]
    # Both tables may say the same, one of them with more neighbours.
    longest = max(lines, key=len)
    said = [line for line in lines if line and not longest.startswith(line)]
    return (*said, longest) if longest else ()


def _wood_assumptions(given: Given, *, inside: bool, methods: int) -> tuple[str, ...]:
    said = ["flat-sawn" if given.word("direction") == "tangential" else "quarter-sawn"]
    said[0] += f" board, moving in the {given.word('direction')} direction"
    if given.has("humidity_from") or given.has("humidity_to"):
        said.append(
            "the board comes all the way to the moisture of steady air: an upper "
            "bound, a finished board follows late and less"
        )
    if given.has("moisture_change") and not given.has("moisture_from"):
        said.append(f"starting from {USUAL_MOISTURE:g} % moisture")
    if methods > 1:
        said.append("the larger of the two methods is taken")
    if not inside:
        said.append("outside 6 to 14 % moisture the coefficient is not published")
    said.append("single boards vary by a fifth and more")
    return tuple(said)


def _wood_warnings(
    *, inside: bool, shrinkage: float | None, ends: tuple[float, float]
) -> tuple[str, ...]:
    said = []
    if not inside and shrinkage is None:
        said.append("the coefficient is published for 6 to 14 % moisture only")
    if max(ends) > FIBRE_SATURATION:
        said.append("above 30 % moisture wood does not move; 30 % is taken")
    return tuple(said)


def _against_slots(given: Given, change: float) -> list[Result]:
    """Compare with what the slots allow; screws at a distance share the width."""
    if not given.has("slot_play"):
        return []
    width = given.number("width")
    distance = given.maybe("screw_distance")
    share = 1.0 if distance is None else distance / width
    needed = abs(change) * share
    play = given.number("slot_play")
    if needed > play:
        enough = "no: it moves more than the slot allows"
    elif needed * (1 + BOARD_SPREAD) > play:
        enough = "too close: single boards vary by more than what is left"
    else:
        enough = "yes"
    return [
        Result("slots_enough", enough),
        Result("movement_at_slot", needed, "mm", 1, "from the round hole to the slot"),
        Result("slot_play", play, "mm", 1, "the screw may travel in all"),
    ]


SUMS = (
    Sum(
        name="wood-movement",
        title="How far a board moves across the grain, by both methods",
        inputs=(
            Input(
                "species",
                "kind of wood",
                kind=Kind.TEXT,
                optional=True,
                rows_of="wood.shrinkage",
            ),
            Input(
                "direction",
                "tangential for flat-sawn boards, radial for quarter-sawn",
                kind=Kind.CHOICE,
                choices=DIRECTIONS,
                default="tangential",
            ),
            Input(
                "width",
                "across the grain",
                "mm",
                accept=POSITIVE,
                also=("dimension",),
            ),
            percent("moisture_from", "moisture content before", "mc_from"),
            percent("moisture_to", "moisture content after", "mc_to"),
            Input(
                "moisture_change",
                "points of moisture instead of the end",
                "%",
                optional=True,
                also=("mc_points",),
            ),
            humidity_input("humidity_from", "instead: relative humidity before"),
            humidity_input("humidity_to", "and after"),
            TEMPERATURE,
            Input(
                "coefficient",
                "per percent of moisture, instead of the table",
                "1/%",
                Kind.NUMBER,
                POSITIVE,
                optional=True,
            ),
            Input(
                "shrinkage",
                "total, green to ovendry, instead of the table",
                "%",
                accept=between(0, 100),
                optional=True,
                also=("total_shrinkage",),
            ),
            Input(
                "slot_play",
                "how far the screw may travel in its slot, in all",
                "mm",
                accept=at_least(0),
                optional=True,
                also=("slot",),
            ),
            Input(
                "screw_distance",
                "from the round hole to the slot; the whole width where not given",
                "mm",
                accept=POSITIVE,
                optional=True,
            ),
        ),
        compute=_movement,
        formula="coefficient: D C (M2 - M1), 6 to 14 %; shrinkage: D (M2 - M1) / "
        "(3000/S - 30 + M1), M capped at 30 %",
        source="Wood Handbook FPL-GTR-190 equations 13-2 and 13-3, 4-5 for the air",
        how="read",
        caution="One screw stays round, all others want slots across the grain.",
        example={
            "species": "beech",
            "width": "240 mm",
            "humidity_from": "30 %",
            "humidity_to": "65 %",
            "slot_play": "4 mm",
        },
        also=("wood",),
    ),
)
