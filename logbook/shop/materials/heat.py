"""Heat: growth, room for growth, and whether a plastic holds where it gets warm.

A measured temperature means nothing without the room it was measured in: the
rise is carried to the hottest room. Temperatures in °C, lengths in mm,
expansion in millionths per kelvin.
"""

from __future__ import annotations

from dataclasses import dataclass

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.given import POSITIVE, Given, Input, Kind, above, at_least
from logbook.shop.sums import Sum
from logbook.shop.tables import Row, table

BRITTLE_BELOW = 5.0
"""Percent elongation at break below which a plastic counts as brittle."""


def growth(expansion: float, length: float, rise: float) -> float:
    """Give the change of a length in mm; `expansion` in 1e-6 per kelvin."""
    return expansion * 1e-6 * length * rise


def expansion_of(material: str) -> Row:
    """Give the row of expansion figures of a material: `low`, `typical`, `high`."""
    return table("heat", "expansion").named(material)


def margin(
    measured: float, room: float, hottest_room: float, softens: float
) -> tuple[float, float]:
    """Give the temperature in the hottest room and what is left below softening."""
    hottest = measured + (hottest_room - room)
    return hottest, softens - hottest


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
        "temperature_change: not given; accepted: a change such as 20 K, or "
        "from_temperature and to_temperature"
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


@dataclass(frozen=True, slots=True)
class Softening:
    """Where a plastic gives way, in °C, each as the low end of what sheets say.

    The glass transition counts for a part that carries nothing but itself. The
    deflection temperature is that of a bar bent under 0.45 MPa (ISO 75-2 method
    B), and counts for one that is loaded, clamped or sprung.
    """

    glass: float
    glass_high: float
    deflection: float
    deflection_high: float
    source: str

    @property
    def loaded(self) -> float:
        """What counts for a loaded part: the lower of the two."""
        return min(self.glass, self.deflection)

    def if_loaded(self, hottest: float, wanted: float) -> str:
        """Caution about a load where a part holds without one; else empty."""
        left = self.loaded - hottest
        if self.glass - hottest < wanted or left >= wanted:
            return ""
        short = f"{left:.0f} K above" if left > 0 else "no more than"
        return (
            "that is for a part that carries only itself: under load the deflection "
            f"temperature counts, {self.deflection:g} to {self.deflection_high:g} °C "
            f"by sheet, of which the low end is {short} the {hottest:.0f} °C here; put "
            "no load, clamp or spring on it, and check your own spool's sheet"
        )


def softening_of(row: Row) -> Softening:
    """Give what a row of the softening table says."""
    return Softening(
        row.number("glass_low"),
        row.number("glass_high"),
        row.number("deflection_low"),
        row.number("deflection_high"),
        f"{row.label}: {row.source}",
    )


def _margin(given: Given) -> Answer:
    found = softening_of(table("heat", "softening").named(given.word("material")))
    loaded = given.yes("loaded")
    counts = found.loaded if loaded else found.glass
    measured, room = given.number("measured"), given.number("room")
    if measured < room:
        raise BadInput(
            f"measured: found {measured:g} °C in a room of {room:g} °C; accepted: at "
            "least the room's temperature"
        )
    hottest, left = margin(measured, room, given.number("hottest_room"), counts)
    wanted = given.number("wanted_margin")
    if left <= 0:
        verdict = "no: it softens there"
    elif left < wanted:
        verdict = "too close: below the margin wanted"
    else:
        verdict = "yes, with the margin wanted"
        verdict += "" if loaded else ", unloaded"
    caution = "" if loaded else found.if_loaded(hottest, wanted)
    low, high = found.deflection, found.deflection_high
    return Answer(
        (
            Result("holds", verdict, "", 0),
            Result("margin", left, "K", 0, f"to {counts:g} °C, which counts here"),
            Result(
                "margin_loaded", found.loaded - hottest, "K", 0, "the same under load"
            ),
            Result("hottest", hottest, "°C", 0, "in the hottest room"),
            Result("rise", measured - room, "K", 0, "above the room"),
            Result("glass_low", found.glass, "°C", 0, "glass transition from"),
            Result("glass_high", found.glass_high, "°C", 0, "to"),
            Result("deflection_low", low, "°C", 0, "bends under 0.45 MPa from"),
            Result("deflection_high", high, "°C", 0, "to, by sheet"),
        ),
        assumptions=(
            "the rise above the room stays the same in a warmer room",
            "it carries nothing but itself, so the glass transition counts"
            if not loaded
            else "it is loaded, so the lower of glass transition and deflection counts",
            (
                "makers' sheets differ: check your own spool's sheet; a load held for "
                "months creeps below its figures"
            ),
        ),
        warnings=(
            *([caution[0].upper() + caution[1:]] if caution else []),
            *_heat_warnings(given),
        ),
        sources=(found.source,),
    )


def _heat_warnings(given: Given) -> list[str]:
    said = []
    if not given.has("hours"):
        said.append("hours not given: a lamp needs an hour or two to reach its heat")
    elif given.number("hours") < 1:
        said.append(
            f"after {given.typed('hours')} it may still be warming: measure again later"
        )
    if not given.has("place"):
        said.append("place not given: measure on the part's hottest face")
    return said


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
    Sum(
        name="heat-margin",
        title="Whether a plastic holds at the heat it will see in the hottest room",
        inputs=(
            Input("material", "the plastic", kind=Kind.TEXT, rows_of="heat.softening"),
            Input(
                "measured",
                "temperature at the part",
                "°C",
                accept=above(-273.15),
                also=("temperature", "reads"),
            ),
            Input(
                "room",
                "temperature of the room then",
                "°C",
                accept=above(-273.15),
                also=("room_temperature",),
            ),
            Input(
                "hottest_room",
                "hottest room it will stand in",
                "°C",
                accept=above(-273.15),
                default="35 °C",
                also=("hot_room",),
            ),
            Input(
                "wanted_margin",
                "wanted below softening",
                "K",
                Kind.DIFFERENCE,
                at_least(0),
                default="10 K",
            ),
            Input(
                "loaded",
                "whether it carries, clamps or springs anything while warm",
                kind=Kind.YES,
                default="no",
                also=("load", "under-load"),
            ),
            Input(
                "hours",
                "under heat before measuring",
                "h",
                accept=at_least(0),
                optional=True,
            ),
            Input("place", "where it was measured", kind=Kind.TEXT, optional=True),
        ),
        compute=_margin,
        formula="hottest = measured + (hottest room - room); margin = low end "
        "of the glass transition - hottest; loaded: lower of that and the low end of "
        "the deflection temperature - hottest",
        source="maker data sheets as quoted; some low ends are from memory, see the "
        "row of the material; the wanted margin of 10 K is common "
        "practice, no source",
        how="read",
        caution="Hot surfaces burn before they glow; what carries mains or guards a "
        "lamp is for its maker's instructions and a licensed electrician.",
        dangers=("hot lamp",),
        example={
            "material": "PETG",
            "measured": "51 °C",
            "room": "22 °C",
            "hottest_room": "35 °C",
            "hours": "2 h",
            "place": "face towards the lamp",
        },
        also=("plastic-heat", "heat"),
    ),
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
