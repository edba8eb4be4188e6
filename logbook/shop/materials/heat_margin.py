"""Whether a plastic holds where it gets warm.

A measured temperature means nothing without the room it was measured in: the
rise is carried to the hottest room. Temperatures in °C.
"""

from __future__ import annotations

from dataclasses import dataclass

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.given import Given, Input, Kind, above, at_least
from logbook.shop.sums import Sum
from logbook.shop.tables import Row, table


def margin(
    measured: float, room: float, hottest_room: float, softens: float
) -> tuple[float, float]:
    """Give the temperature in the hottest room and what is left below softening."""
    hottest = measured + (hottest_room - room)
    return hottest, softens - hottest


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
    caution = "" if loaded else found.if_loaded(hottest, wanted)
    return Answer(
        (
            Result("holds", _verdict(left, wanted, loaded=loaded), "", 0),
            Result("margin", left, "K", 0, f"to {counts:g} °C, which counts here"),
            Result(
                "margin_loaded", found.loaded - hottest, "K", 0, "the same under load"
            ),
            Result("hottest", hottest, "°C", 0, "in the hottest room"),
            Result("rise", measured - room, "K", 0, "above the room"),
            *_softens(found),
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


def _verdict(left: float, wanted: float, *, loaded: bool) -> str:
    if left <= 0:
        return "no: it softens there"
    if left < wanted:
        return "too close: below the margin wanted"
    return "yes, with the margin wanted" + ("" if loaded else ", unloaded")


def _softens(found: Softening) -> tuple[Result, ...]:
    low, high = found.deflection, found.deflection_high
    return (
        Result("glass_low", found.glass, "°C", 0, "glass transition from"),
        Result("glass_high", found.glass_high, "°C", 0, "to"),
        Result("deflection_low", low, "°C", 0, "bends under 0.45 MPa from"),
        Result("deflection_high", high, "°C", 0, "to, by sheet"),
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


SUMS = (
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
)
