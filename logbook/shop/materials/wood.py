"""Wood: moisture from the air, and how far a board moves across the grain.

Both published methods are shown: the coefficient, good between 6 and 14 %
moisture, and the one from total shrinkage. The moisture a board comes to in
steady air is an upper bound: a finished board follows the seasons late and
damped. Sizes in mm, moisture and humidity in percent, temperatures in °C.
"""

from __future__ import annotations

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.given import POSITIVE, Given, Input, Kind, at_least, between
from logbook.shop.sums import Sum
from logbook.shop.tables import Row, table

FIBRE_SATURATION = 30.0
COEFFICIENT_RANGE = (6.0, 14.0)
"""Moisture contents between which the coefficient method is published."""
BOARD_SPREAD = 0.2
"""Share by which a single board may differ from its species; common practice."""
USUAL_MOISTURE = 8.0
"""Percent, where only a change of moisture is given: wood kept indoors."""
DIRECTIONS = ("tangential", "radial")


def equilibrium_moisture(temperature: float, humidity: float) -> float:
    """Give the moisture content wood comes to, in percent.

    Hailwood and Horrobin, Wood Handbook equation 4-5; temperature in °C, relative
    humidity in percent.
    """
    t, h = temperature, humidity / 100
    weight = 349 + 1.29 * t + 0.0135 * t * t
    k = 0.805 + 0.000736 * t - 0.00000273 * t * t
    k1 = 6.27 - 0.00938 * t - 0.000303 * t * t
    k2 = 1.91 + 0.0407 * t - 0.000293 * t * t
    kh = k * h
    hydrate = (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2)
    return 1800 / weight * (kh / (1 - kh) + hydrate)


def change_by_coefficient(
    width: float, coefficient: float, before: float, after: float
) -> float:
    """Give the change in mm; the coefficient is per percent of moisture."""
    return width * coefficient * (after - before)


def change_by_shrinkage(
    width: float, shrinkage: float, before: float, after: float
) -> float:
    """Give the change in mm from the total shrinkage, green to ovendry, in percent.

    Wood Handbook equation 13-3; moisture above 30 % moves nothing more.
    """
    before, after = min(before, FIBRE_SATURATION), min(after, FIBRE_SATURATION)
    room = FIBRE_SATURATION * 100 / shrinkage - FIBRE_SATURATION + before
    return width * (after - before) / room


def coefficient_from_shrinkage(shrinkage: float) -> float:
    """Give the coefficient that a total shrinkage stands for at 10 % moisture."""
    return 1 / (3000 / shrinkage - 20)


def shrinkage_at(shrinkage: float, moisture: float) -> float:
    """Give the shrinkage from green to a moisture content, in percent."""
    left = FIBRE_SATURATION - min(moisture, FIBRE_SATURATION)
    return shrinkage * left / FIBRE_SATURATION


def _moisture(given: Given, end: str) -> float:
    """Give the moisture content at one end, from the air where not given."""
    if given.has(f"moisture_{end}"):
        return given.number(f"moisture_{end}")
    if given.has(f"humidity_{end}"):
        return equilibrium_moisture(
            given.number("temperature"), given.number(f"humidity_{end}")
        )
    raise BadInput(
        f"moisture_{end}: not given; accepted: a moisture content such as 8 %, or "
        f"humidity_{end} such as 30 %"
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
            f"moisture_change: found {given.typed('moisture_change')} from "
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


def _percent(name: str, meaning: str, *also: str) -> Input:
    return Input(
        name,
        meaning,
        "%",
        accept=at_least(0, 200),
        optional=True,
        also=also,
        share=True,
    )


def _humidity(name: str, meaning: str) -> Input:
    return Input(name, meaning, "%", accept=HUMIDITY, optional=True, share=True)


HUMIDITY = at_least(0, 100)
_TEMPERATURE = Input(
    "temperature",
    "of the air",
    "°C",
    accept=between(-30, 100),
    default="21 °C",
)

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
            _percent("moisture_from", "moisture content before", "mc_from"),
            _percent("moisture_to", "moisture content after", "mc_to"),
            Input(
                "moisture_change",
                "points of moisture instead of the end",
                "%",
                optional=True,
                also=("mc_points",),
            ),
            _humidity("humidity_from", "instead: relative humidity before"),
            _humidity("humidity_to", "and after"),
            _TEMPERATURE,
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
    Sum(
        name="wood-moisture",
        title="Moisture content that wood comes to in steady air",
        inputs=(
            _TEMPERATURE,
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
            _percent("moisture", "dried to", "mc"),
        ),
        compute=_shrinkage,
        formula="S_M = S (30 - M)/30; C = 1 / (3000/S - 20)",
        source="Wood Handbook equation 4-9; C links its tables 4-3 and 13-5",
        how="computed",
        relied_on=False,
        example={"shrinkage": "7.8 %", "moisture": "12 %"},
    ),
)
