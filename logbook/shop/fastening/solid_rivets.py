"""Solid rivets: length, hole, edge, pitch, and one size up.

In inches, and metric ones in mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.fastening.drills import drill
from logbook.shop.fastening.rivets import DIAMETER, INCH, Distances, distances, rule
from logbook.shop.given import POSITIVE, Given, Input
from logbook.shop.sums import Sum
from logbook.shop.tables import Row, table

SIXTEENTH = 1 / 16


@dataclass(frozen=True, slots=True)
class Solid:
    """A solid rivet: calculated length and the next 1/16 in, in inches."""

    needed: float
    length: float
    sixteenths: int


def solid_length(diameter: float, grip: float) -> Solid:
    """Give the length of a solid rivet in inches: grip + 1.5 D, up to 1/16.

    Raises:
        BadInput: a diameter or grip that is not above 0.
    """
    if diameter <= 0 or grip <= 0:
        raise BadInput("diameter and grip; accepted: both above 0")
    needed = grip + rule("length beyond the grip") * diameter
    count = math.ceil(round(needed / SIXTEENTH, 6))
    return Solid(needed, count * SIXTEENTH, count)


@dataclass(frozen=True, slots=True)
class SizeUp:
    """A drilled-out solid rivet replaced by one 1/32 in thicker; inches."""

    diameter: float
    hole: float | None
    edge: float
    pitch: float

    def fits(self, edge: float | None, pitch: float | None) -> bool:
        """Tell whether the edge and pitch there are still enough."""
        near = edge is not None and edge < self.edge - 1e-9
        close = pitch is not None and pitch < self.pitch - 1e-9
        return not (near or close)


def size_up(diameter: float) -> SizeUp:
    """Give the next rivet up (1/32 in), its hole, edge and pitch."""
    thicker = diameter + 1 / 32
    least = distances(thicker)
    return SizeUp(thicker, finish_hole(thicker), least.edge, least.pitch)


def finish_hole(diameter: float) -> float | None:
    """Give the finish drill of a solid rivet in inches; None outside the table."""
    for row in table("rivets", "solid_drill").rows:
        if abs(row.number("diameter") - diameter) < 1e-6:
            return drill(row.text("drill"))
    return None


def metric_rivet(diameter: float) -> Row | None:
    """Give the row of a metric solid rivet (mm); None where it is no such size."""
    for row in table("rivets", "solid_metric").rows:
        if abs(row.number("diameter") - diameter) < 1e-6:
            return row
    return None


def _compute_solid(given: Given) -> Answer:
    metric = metric_rivet(given.number("diameter"))
    if metric is not None and given.unit("diameter") != "in":
        return _solid_metric(metric, given.number("grip"))
    found = _solid_inch(given)
    near = given.number("diameter") / INCH * 32
    if given.unit("diameter") == "in" or abs(near - round(near)) < 1e-3:
        return found
    known = ", ".join(
        f"{row.number('diameter'):g}" for row in table("rivets", "solid_metric").rows
    )
    return replace(
        found,
        warnings=(
            (
                f"{given.typed('diameter')} is no nominal rivet diameter here; metric "
                f"ones are {known} mm. The length is stepped as inch rivets are."
            ),
            *found.warnings,
        ),
    )


def _solid_metric(row: Row, grip: float) -> Answer:
    """Work out a metric rivet: the same rules, lengths and hole by DIN 660 (mm)."""
    diameter = row.number("diameter")
    needed = grip + rule("length beyond the grip") * diameter
    listed = table("rivets", "solid_metric_lengths")
    length = listed.up_to("length", round(needed, 9), "mm").number("length")
    sizes = [one.number("diameter") for one in row.table.rows]
    thicker = next((one for one in sizes if one > diameter), None)
    results = [
        Result("length_calc", needed, "mm", 2, "grip + 1.5 D"),
        Result("length_std", length, "mm", 0, "next listed length (from memory)"),
        *_distance_results(distances(diameter), 1.0, 1),
        Result("hole", row.number("hole"), "mm", 2, "finished hole (from memory)"),
    ]
    warnings: tuple[str, ...] = ()
    if thicker:
        least = distances(thicker)
        results.append(
            Result("size_up", thicker, "mm", 1, "if drilled out: next diameter up")
        )
        warnings = (_size_up_said(least.edge, least.pitch),)
    return Answer(
        tuple(results),
        assumptions=(
            (
                f"a metric rivet of {diameter:g} mm; the rules for length, edge and "
                "pitch are stated for inch rivets and taken by diameter"
            ),
        ),
        warnings=warnings,
        sources=(row.table.cited, listed.cited),
    )


def _size_up_said(edge: float, pitch: float) -> str:
    return (
        "Drilled out and riveted one size up, edge and pitch must still hold: "
        f"{edge:.1f} mm and {pitch:.1f} mm."
    )


def _solid_inch(given: Given) -> Answer:
    diameter, grip = given.number("diameter") / INCH, given.number("grip") / INCH
    found = solid_length(diameter, grip)
    results = [
        Result("length_calc", found.needed * INCH, "mm", 3, "grip + 1.5 D"),
        Result("length_std", found.length * INCH, "mm", 3, "next 1/16 in up"),
        Result(
            "sixteenths", found.sixteenths, "", 0, "length in sixteenths of an inch"
        ),
        *_distance_results(distances(diameter), INCH),
    ]
    for row in table("rivets", "solid_drill").rows:
        if abs(row.number("diameter") - diameter) < 1e-3:
            name = row.text("drill")
            results.append(Result("drill", name, "", 0, "finish drill (from memory)"))
            results.append(
                Result("drill_diameter", drill(name) * INCH, "mm", 3, "its diameter")
            )
    thicker = size_up(diameter)
    results.append(
        Result(
            "size_up", thicker.diameter * INCH, "mm", 3, "if drilled out: 1/32 in up"
        )
    )
    return Answer(
        tuple(results),
        assumptions=("an inch rivet: length in sixteenths, drill by number",),
        warnings=(_size_up_said(thicker.edge * INCH, thicker.pitch * INCH),),
    )


def _distance_results(least: Distances, scale: float, places: int = 3) -> list[Result]:
    named = (
        ("edge_min", least.edge, "centre to edge, at least"),
        ("edge_min_countersunk", least.edge_countersunk, "the same, countersunk"),
        ("pitch_min", least.pitch, "between rivets of a row, at least"),
        ("row_min", least.rows, "between rows, at least"),
        ("head_thickness", least.head_thick, "driven head"),
        ("head_diameter", least.head_wide, "driven head"),
    )
    return [
        Result(name, scale * value, "mm", places, what) for name, value, what in named
    ]


def _compute_distances(given: Given) -> Answer:
    diameter = given.number("diameter")
    thicker = size_up(diameter / INCH)
    results = _distance_results(distances(diameter), 1.0)
    warnings: tuple[str, ...] = ()
    if given.has("edge") or given.has("pitch"):
        edge, pitch = given.maybe("edge"), given.maybe("pitch")
        fits = thicker.fits(
            None if edge is None else edge / INCH,
            None if pitch is None else pitch / INCH,
        )
        results.append(
            Result(
                "size_up_fits", fits, "", 0, "drilled out, 1/32 in thicker still fits"
            )
        )
        if not fits:
            warnings = ("One size up comes too near the edge or the next rivet.",)
    results.append(
        Result("size_up", thicker.diameter * INCH, "mm", 3, "1/32 in thicker")
    )
    results.append(
        Result("size_up_edge", thicker.edge * INCH, "mm", 3, "edge it then needs")
    )
    return Answer(tuple(results), warnings=warnings)


SUMS: tuple[Sum, ...] = (
    Sum(
        name="solid-rivet",
        also=("rivet-length", "rivet"),
        title="Solid rivet: length, hole, edge, pitch, driven head",
        inputs=(DIAMETER, Input("grip", "thickness riveted", "mm", accept=POSITIVE,
                                 also=("stack",))),
        compute=_compute_solid,
        formula="length = grip + 1.5 D, up to the next 1/16 in (metric rivets: to the "
        "next listed length); edge 2 D, countersunk 2.5 D; pitch 3 D; "
        "rows 2.5 D; driven head 0.5 D by 1.5 D",
        source="FAA AC 43.13-1B 4-57, 4-58; NAVEDTRA 14018 Fig. 13-43; TM "
        "10-5410-229-13P 5-6",
        how="read",
        caution="Wear eye protection at the drill and the hammer.",
        example={"diameter": "1/8 in", "grip": "0.080 in"},
    ),
    Sum(
        name="rivet-distances",
        also=("rivet-edge", "rivet-pitch"),
        title="Edge and pitch of rivets, and whether one size up still fits",
        inputs=(
            DIAMETER,
            Input("edge", "centre to edge as it is", "mm", accept=POSITIVE,
                  optional=True),
            Input("pitch", "pitch as it is", "mm", accept=POSITIVE, optional=True),
        ),
        compute=_compute_distances,
        formula="edge 2 D (countersunk 2.5 D), pitch 3 D, rows 2.5 D; one size up is "
        "1/32 in more",
        source="FAA AC 43.13-1B 4-57, 4-58; TM 10-5410-229-13P 5-6",
        how="read",
        example={"diameter": "1/8 in", "edge": "8 mm", "pitch": "12 mm"},
    ),
)  # fmt: skip
