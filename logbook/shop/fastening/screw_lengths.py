"""Screws into tapped holes, and how long a screw must or may be, as sums."""

from __future__ import annotations

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.fastening.joint import blind_joint
from logbook.shop.fastening.joint_inputs import (
    GRADE,
    LAYERS,
    SCREW,
    SCREW_SERIES,
    WASHER,
    WASHER_COUNT,
    layers_of,
)
from logbook.shop.fastening.screws import length_limits, read_screw, shortest_from
from logbook.shop.given import POSITIVE, Given, Input, Kind, at_least
from logbook.shop.sums import Sum


def _compute_blind(given: Given) -> Answer:
    bolt = read_screw(given.word("screw"), given.word("grade"))
    threaded, depth = given.number("threaded"), given.number("depth")
    found = blind_joint(bolt, layers_of(given, bolt.size), threaded, depth)
    share = found.engaged_low / bolt.diameter
    return Answer(
        (
            Result(
                "engaged_min", found.engaged_low, "mm", 2, "thread that surely bites"
            ),
            Result("engaged_diameters", share, "× d", 2, "the same in diameters"),
            Result("reach_min", found.reach_low, "mm", 2, "end below the face, least"),
            Result("reach_max", found.reach_high, "mm", 2, "end below the face, most"),
            Result(
                "bottom_room", found.room, "mm", 2, "left under the end, worst case"
            ),
            Result("bottoms", found.bottoms, "", 0, "it can touch before it clamps"),
        ),
        warnings=(
            ("The screw can bottom: it then feels tight and clamps nothing.",)
            if found.bottoms
            else ()
        ),
    )


def _compute_length(given: Given) -> Answer:
    least = given.number("clamped")
    if given.has("pitch") == given.has("factor"):
        raise BadInput(
            "pitch or factor: found both or neither; accepted: pitch and nut for a "
            "screw through a nut, factor and diameter for a tapped hole"
        )
    results = []
    if given.has("pitch"):
        least += given.number("nut_height") + 2 * given.number("pitch")
        least += given.count("washers") * given.number("washer_thickness")
    else:
        if not given.has("diameter"):
            raise BadInput(
                "diameter is missing (thread diameter); accepted: above 0 mm"
            )
        engagement = given.number("factor") * given.number("diameter")
        least += engagement + given.count("washers") * given.number("washer_thickness")
        results.append(Result("engagement", engagement, "mm", 2, "thread that bites"))
    least = round(least, 9)
    stock = shortest_from(least, given.word("series"))
    return Answer(
        (
            *results,
            Result("length_min", least, "mm", 2, "shortest that will do, nominal"),
            Result("length_stock", stock, "mm", 1, "next standard length"),
        ),
        assumptions=("nominal sizes; the sum “joint” takes the worst case",),
    )


def _compute_length_limits(given: Given) -> Answer:
    low, high = length_limits(given.number("length"), given.word("grade"))
    return Answer(
        (
            Result("low", low, "mm", 2, "shortest"),
            Result("high", high, "mm", 2, "longest"),
        )
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        name="screw-in-hole",
        also=("blind-hole", "bottoming", "insert-screw", "screw-in-insert"),
        title="Screw into a tapped hole or an insert: engagement and bottoming",
        inputs=(
            SCREW,
            LAYERS,
            Input("threaded", "length of thread in the hole or insert", "mm",
                  accept=POSITIVE, also=("insert-length", "thread-length")),
            Input("depth", "depth of the hole below the face", "mm", accept=POSITIVE,
                  also=("hole-depth",)),
            WASHER_COUNT,
            WASHER,
            GRADE,
        ),
        compute=_compute_blind,
        formula="thread = shortest length − thickest layers, at most what is threaded; "
        "room = depth − (longest length − thinnest layers)",
        source="geometry; ISO 4759-1, ISO 7089",
        how="computed",
        example={"screw": "M3x8", "layers": ("cover 3.0 ±0.2", "washer"),
                 "threaded": "5.7 mm", "depth": "6.2 mm"},
    ),
    Sum(
        name="screw-length",
        title="Shortest screw for a nut or a tapped hole, nominal",
        inputs=(
            Input("clamped", "thickness clamped", "mm", accept=POSITIVE,
                  also=("stack", "grip")),
            WASHER_COUNT,
            Input("washer_thickness", "of each washer", "mm", accept=at_least(0),
                  default="0 mm", also=("washer-each",)),
            Input("nut_height", "height of the nut", "mm", accept=at_least(0),
                  default="0 mm", also=("nut",)),
            Input("pitch", "thread pitch, with a nut", "mm", accept=POSITIVE,
                  optional=True),
            Input("factor", "thread in the hole as a multiple of the diameter",
                  kind=Kind.NUMBER, accept=POSITIVE, optional=True),
            Input("diameter", "thread diameter, with a tapped hole", "mm",
                  accept=POSITIVE, optional=True, also=("d",)),
            SCREW_SERIES,
        ),
        compute=_compute_length,
        formula="through: clamped + washers + nut + 2 pitches; tapped: clamped + "
        "factor × diameter; then the next standard length",
        source="common practice, no source: factor 1 in steel, 1.5 in cast iron and "
        "brass, 2 in aluminium",
        how="common practice",
        example={"clamped": "6 mm", "washers": "2", "washer_thickness": "0.5 mm",
                 "nut_height": "2.4 mm", "pitch": "0.5 mm"},
    ),
    Sum(
        name="screw-length-limits",
        also=("screw-length-tolerance",),
        title="How long a screw may be",
        inputs=(
            Input("length", "nominal length", "mm", accept=POSITIVE),
            GRADE,
        ),
        compute=_compute_length_limits,
        formula="nominal ± js15 (grade A up to 150 mm), js17 beyond and for grade B",
        source="ISO 4759-1 with ISO 286-1",
        how="read",
        example={"length": "16 mm"},
        relied_on=False,
    ),
)  # fmt: skip
