"""Growth with temperature, and the room a hole must leave for it.

Temperatures in °C, lengths in mm, expansion in millionths per kelvin.
"""

from __future__ import annotations

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.given import POSITIVE, Given, Input, Kind, at_least
from logbook.shop.sums import Sum
from logbook.shop.tables import Row, table


def growth(expansion: float, length: float, rise: float) -> float:
    """Give the change of a length in mm; `expansion` in 1e-6 per kelvin."""
    return expansion * 1e-6 * length * rise


def expansion_of(material: str) -> Row:
    """Give the row of expansion figures of a material: `low`, `typical`, `high`."""
    return table("heat", "expansion").named(material)


def _coefficients(given: Given) -> tuple[float, float, float, tuple[str, ...]]:
    """Give typical, low and high expansion, and its source."""
    if given.has("expansion"):
        each = given.number("expansion")
        return each, each, each, ()
    if not given.has("material"):
        raise BadInput(
            "material or expansion: neither was given; accepted: a material such as "
            "acrylic, or a coefficient in 1e-6/K"
        )
    row = expansion_of(given.word("material"))
    typical, low, high = (row.number(name) for name in ("typical", "low", "high"))
    return typical, low, high, (f"{row.label}: {row.source}",)


def _rise(given: Given) -> float:
    if given.has("temperature_change"):
        return given.number("temperature_change")
    if given.has("from_temperature") and given.has("to_temperature"):
        return given.number("to_temperature") - given.number("from_temperature")
    raise BadInput(
        "temperature change: not given; accepted: a change such as 20 K, or "
        "from temperature and to temperature"
    )


def _growth(given: Given) -> Answer:
    typical, low, high, sources = _coefficients(given)
    length, rise = given.number("length"), _rise(given)
    change = growth(typical, length, rise)
    results = [
        Result("change", change, "mm", 3, "of the length"),
        Result("length_after", length + change, "mm", 3),
        Result("temperature_change", rise, "K", 1),
        Result("expansion", typical, "1e-6/K", 1, "typical"),
    ]
    if low != high:
        ends = sorted((growth(low, length, rise), growth(high, length, rise)))
        results += [
            Result("change_low", ends[0], "mm", 2, "from"),
            Result("change_high", ends[1], "mm", 2, "to, by the range of the material"),
        ]
    return Answer(tuple(results), assumptions=_taken(given), sources=sources)


def _taken(given: Given) -> tuple[str, ...]:
    """Say which row of the expansion table a material was taken for."""
    if given.has("expansion") or not given.has("material"):
        return ()
    line = table("heat", "expansion").taken(given.word("material"))
    return (line,) if line else ()


def _room_hole(given: Given) -> Answer:
    typical, low, high, sources = _coefficients(given)
    frame = given.number("frame_expansion")
    distance, rise = given.number("distance"), _rise(given)
    move = growth(abs(typical - frame), distance, abs(rise))
    ways = 2 if given.yes("both_ways") else 1
    screw = given.number("screw")
    results = [
        Result("movement", move, "mm", 2, "at this hole, one way"),
        Result("hole", screw + ways * move, "mm", 2, "for the screw to stay free"),
    ]
    if low != high:
        widest = growth(max(abs(low - frame), abs(high - frame)), distance, abs(rise))
        results.append(
            Result("hole_high", screw + ways * widest, "mm", 2, "by the upper figure")
        )
    return Answer(
        tuple(results),
        assumptions=(
            *_taken(given),
            "one fixed point; the sheet grows and shrinks about it by the same"
            if ways == 2
            else "fitted at one end of the temperature range, so it moves one way only",
        ),
        sources=sources,
    )


_MATERIAL = Input(
    "material",
    "a plastic, metal or wood",
    kind=Kind.TEXT,
    optional=True,
    rows_of="heat.expansion",
)


_EXPANSION = Input(
    "expansion",
    "coefficient, instead of a material",
    "1e-6/K",
    Kind.NUMBER,
    optional=True,
    also=("alpha", "cte"),
)


_CHANGE = (
    Input(
        "temperature_change",
        "how much warmer (or colder)",
        "K",
        Kind.DIFFERENCE,
        optional=True,
        also=("rise", "dt"),
    ),
    Input(
        "from_temperature", "instead: from", "°C", optional=True, also=("from", "t1")
    ),
    Input("to_temperature", "and to", "°C", optional=True, also=("to", "t2")),
)


SUMS = (
    Sum(
        name="thermal-growth",
        title="How much a length grows with temperature",
        inputs=(
            _MATERIAL,
            _EXPANSION,
            Input("length", "at the first temperature", "mm", accept=POSITIVE),
            *_CHANGE,
        ),
        compute=_growth,
        formula="change = α length ΔT",
        source="linear expansion",
        how="read",
        example={
            "material": "acrylic",
            "length": "300 mm",
            "temperature_change": "20 K",
        },
        also=("expansion", "thermal-expansion"),
    ),
    Sum(
        name="room-for-growth",
        title="Oversize hole so that a sheet may grow under its screws",
        inputs=(
            _MATERIAL,
            _EXPANSION,
            Input(
                "frame_expansion",
                "coefficient of what it is screwed to",
                "1e-6/K",
                Kind.NUMBER,
                at_least(0),
                default="0",
            ),
            Input(
                "distance",
                "from the fixed point to the hole",
                "mm",
                accept=POSITIVE,
                also=("length",),
            ),
            *_CHANGE,
            Input("screw", "diameter", "mm", accept=POSITIVE, also=("screw_diameter",)),
            Input(
                "both_ways",
                "whether it may get warmer and colder than when fitted",
                kind=Kind.YES,
                default="yes",
            ),
        ),
        compute=_room_hole,
        formula="move = (α - α of the frame) distance ΔT; hole = screw + 2 move, or + "
        "move where it moves one way only",
        source="linear expansion; sheet makers' fixing guides",
        how="computed",
        example={
            "material": "acrylic",
            "distance": "200 mm",
            "temperature_change": "20 K",
            "screw": "4 mm",
        },
        also=("oversize-hole",),
    ),
)
