"""How near an edge a hole may be, and which layers crack there.

Metal forgives, brittle sheet does not: a countersunk head is a wedge, a hole
near an edge a crack waiting. Distances in mm, from the centre of the hole.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.fastening.drills import clearance
from logbook.shop.fastening.screws import size_name
from logbook.shop.given import POSITIVE, Given, Input, Kind, at_least
from logbook.shop.sums import Sum
from logbook.shop.tables import Row, names_in, table

HEADS = ("flat-bearing", "countersunk", "self-tapping")
_DISTANCES = {
    "a1": "between screws, along the grain",
    "a2": "between screws, across the grain",
    "a3t": "to a loaded end",
    "a3c": "to an unloaded end",
    "a4t": "to a loaded edge",
    "a4c": "to an unloaded edge",
}


@dataclass(frozen=True, slots=True)
class Edge:
    """What a layer asks of a hole: centre to edge, and rim to edge; mm."""

    layer: str
    centre: float
    rim: float
    brittle: bool
    source: str


def _layer_row(layer: str) -> Row:
    """Find a layer by name, else by the metal or the way of making in its words."""
    sheet = table("edges", "sheet")
    words = set(layer.lower().replace(",", " ").split())
    if layer.strip().lower() not in names_in("edges", "sheet"):
        if words & _METALS:
            return sheet.named("metal")
        if words & _PRINTS and not words & {"pla", "resin"}:
            return sheet.named("printed part")
    return sheet.named(layer)


@lru_cache(maxsize=4096)
def edge_distance(layer: str, hole: float, thickness: float | None = None) -> Edge:
    """Give the least edge distance of a hole in a layer of sheet or print.

    In brittle layers it is at least two thicknesses too.

    Raises:
        BadInput: a layer that is not in the table.
    """
    row = _layer_row(layer)
    brittle = bool(row.cells["brittle"])
    centre = row.number("factor") * hole
    if brittle and thickness is not None:
        centre = max(centre, 2 * thickness)
    return Edge(row.label, centre, centre - hole / 2, brittle, row.source)


def wood_distances(
    diameter: float, angle: float, *, predrilled: bool
) -> dict[str, float]:
    """Give the least distances of screws in softwood by EN 1995-1-1; mm.

    `angle` is that between force and grain, in degrees from 0 to 90.

    Raises:
        BadInput: an angle outside 0 to 90, or no diameter.
    """
    if not 0 <= angle <= 90 or diameter <= 0:
        raise BadInput(
            f"found {angle:g}° and {diameter:g} mm; accepted: 0 to 90°, above 0 mm"
        )
    rows = table("edges", "wood_screw").where(predrilled=predrilled, thin=diameter < 5)
    turned = math.radians(angle)
    return {
        row.label: diameter
        * (
            row.number("constant")
            + row.number("cosine") * math.cos(turned)
            + row.number("sine") * math.sin(turned)
        )
        for row in rows.rows
    }


_WOODS = {"wood", "softwood", "hardwood", "solid wood", "timber", "board", "plywood"}
_METALS = {"aluminium", "aluminum", "steel", "stainless", "brass", "copper", "metal"}
_PRINTS = {"print", "printed", "prints"}
_WOOD = (
    ("end_low", 7, "to the end of the grain, at least"),
    ("end_high", 10, "better, in wood that splits"),
    ("edge_low", 3, "to the edge beside the grain, at least"),
    ("edge_high", 5, "better"),
)
"""Screw diameters to end and edge of a board; common practice, no source."""


def _is_wood(layer: str) -> bool:
    plain = layer.strip().lower()
    return plain in _WOODS or plain in names_in("wood", "shrinkage")


def _compute_in_wood(given: Given) -> Answer:
    """Say how near end and edge of a board a screw may be, by its diameter."""
    if given.has("screw"):
        diameter = float(size_name(given.word("screw"))[1:])
        assumed = (f"screw of {diameter:g} mm, {given.word('screw')}",)
    elif given.has("hole"):
        diameter = given.number("hole")
        assumed = (f"screw as thick as the hole, {diameter:g} mm",)
    else:
        raise BadInput("screw is missing; accepted: a screw such as M4, or its hole")
    results = [
        Result(name, times * diameter, "mm", 0, said) for name, times, said in _WOOD
    ]
    if given.has("distance"):
        distance = given.number("distance")
        for place, least in (("end", 7), ("edge", 3)):
            enough = distance >= least * diameter - 1e-9
            results.append(
                Result(f"enough_to_{place}", enough, "", 0, f"at {distance:g} mm")
            )
    return Answer(
        tuple(results),
        assumptions=(*assumed, "a pilot hole is drilled"),
        warnings=(
            (
                "Furniture and fixtures only; the sum wood-screw-distances gives what "
                "structures ask for."
            ),
        ),
        sources=("common practice, no source: 7 to 10 and 3 to 5 screw diameters",),
    )


def _compute_edge(given: Given) -> Answer:
    if _is_wood(given.word("layer")):
        return _compute_in_wood(given)
    hole = given.maybe("hole")
    assumed: tuple[str, ...] = ()
    if hole is None:
        if not given.has("screw"):
            raise BadInput("hole is missing; accepted: a hole, or a screw such as M3")
        hole = clearance(given.word("screw"))["medium"]
        assumed = (f"hole {hole:g} mm, ISO 273 medium for {given.word('screw')}",)
    thick = given.maybe("thickness")
    found = edge_distance(given.word("layer"), hole, thick)
    results = [
        Result(
            "centre_to_edge", found.centre, "mm", 1, "hole centre to edge, at least"
        ),
        Result("rim_to_edge", found.rim, "mm", 1, "hole rim to edge, at least"),
        Result("brittle", found.brittle, "", 0, "whether the layer cracks"),
    ]
    warnings = _brittle_said(given.word("head")) if found.brittle else []
    if given.has("distance"):
        distance = given.number("distance")
        enough = distance >= found.centre - 1e-9
        results.append(Result("enough", enough, "", 0, f"at {distance:g} mm"))
        wise = enough and not (found.brittle and given.word("head") != "flat-bearing")
        results.append(Result("wise", wise, "", 0, "distance and head together"))
        if not enough:
            warnings.insert(
                0,
                f"{distance:g} mm is {found.centre - distance:.1f} mm too near it.",
            )
    return Answer(
        tuple(results),
        assumptions=assumed,
        warnings=tuple(warnings),
        sources=(found.source,),
    )


def _brittle_said(head: str) -> list[str]:
    said = [
        (
            "Brittle layer: hole oversize for movement, edges of the hole broken, "
            "washer under a flat-bearing head, hand tight only."
        )
    ]
    if head == "countersunk":
        said.insert(
            0, "A countersunk head wedges a brittle layer open: do not sink it there."
        )
    if head == "self-tapping":
        said.insert(0, "A self-tapping screw bursts a brittle layer: do not cut there.")
    return said


def _compute_wood(given: Given) -> Answer:
    found = wood_distances(
        given.number("diameter"),
        given.number("angle"),
        predrilled=given.yes("predrilled"),
    )
    results = tuple(
        Result(name, value, "mm", 1, _DISTANCES[name]) for name, value in found.items()
    )
    return Answer(
        results,
        warnings=(
            (
                "These are values for structures; closer holes with a pilot hole are "
                "usual in furniture and then claim no strength."
            ),
        ),
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        name="edge-distance",
        also=("edge", "brittle-layer", "hole-to-edge"),
        title="How far from an edge a hole must be, and what a brittle layer asks",
        inputs=(
            Input("layer", "acrylic, polycarbonate, polystyrene, metal, printed part, "
                  "pla, wood", kind=Kind.TEXT, also=("material",)),
            Input("hole", "hole in the layer", "mm", accept=POSITIVE, optional=True,
                  also=("hole-diameter",)),
            Input("screw", "screw, where no hole is given: as M3", kind=Kind.TEXT,
                  optional=True, also=("size",)),
            Input("distance", "hole centre to edge as it is or is planned", "mm",
                  accept=at_least(0), optional=True, also=("edge", "edge-distance")),
            Input("thickness", "thickness of the layer", "mm", accept=POSITIVE,
                  optional=True, also=("t",)),
            Input("head", "what bears on the layer", kind=Kind.CHOICE, choices=HEADS,
                  default="flat-bearing"),
        ),
        compute=_compute_edge,
        formula="factor × hole diameter from its centre; brittle: two thicknesses at "
        "least",
        source="sheet makers' fabrication notes; metal, wood and prints: common "
        "practice, no source",
        how="read",
        caution="Where people or loads hang from it, licensed practice decides.",
        example={"layer": "polystyrene", "screw": "M3", "distance": "4 mm",
                 "thickness": "4 mm", "head": "countersunk"},
    ),
    Sum(
        name="wood-screw-distances",
        also=("wood-edge", "screw-distances"),
        title="Screw distances in softwood by EN 1995-1-1",
        inputs=(
            Input("diameter", "outer thread diameter", "mm", accept=POSITIVE,
                  also=("d",)),
            Input("angle", "between force and grain", "°", accept=at_least(0, 90),
                  default="0°", also=("angle-to-grain",)),
            Input("predrilled", "pilot holes are drilled", kind=Kind.YES, default="no"),
        ),
        compute=_compute_wood,
        formula="multiples of d by the angle between force and grain",
        source="EN 1995-1-1 as in an LVL handbook, Table 5.1",
        how="read",
        caution="Structures are for a licensed engineer and the local code.",
        example={"diameter": "4 mm"},
    ),
)  # fmt: skip
