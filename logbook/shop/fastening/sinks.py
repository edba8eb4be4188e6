"""Heads of screws, sinks for them, and washers over their holes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.fastening.drills import clearance
from logbook.shop.fastening.screws import WASHERS, head, size_name, washer
from logbook.shop.given import POSITIVE, Given, Input, Kind, between
from logbook.shop.sums import Sum


def sink_depth(sink: float, hole: float, included: float = 90.0) -> float:
    """Give the depth of a sink of this diameter over a hole, in its own unit."""
    return (sink - hole) / 2 / math.tan(math.radians(included) / 2)


@dataclass(frozen=True, slots=True)
class Sink:
    """A 90° sink for a countersunk head; mm.

    The sink is opened to the theoretical diameter; the head then sits below
    the face by `sunk_low` to `sunk_high`. `left` is the sheet under the sink.
    """

    diameter: float
    hole: float
    depth: float
    sunk_low: float
    sunk_high: float
    left: float | None

    @property
    def breaks_through(self) -> bool:
        """Whether the sheet is no thicker than the sink is deep."""
        return self.left is not None and self.left <= 0


def sink(
    size: str, standard: str, hole: float, sheet: float | None, diameter: float | None
) -> Sink:
    """Work out the sink of a countersunk screw.

    Raises:
        BadInput: no countersunk head of this standard and size.
    """
    row = head(standard, size)
    if "dk_theoretical" not in row.cells:
        raise BadInput(
            f"{standard} is not countersunk; accepted: iso7046, iso2009, iso10642"
        )
    wide = row.number("dk_theoretical") if diameter is None else diameter
    depth = round(sink_depth(wide, hole), 9)
    largest = float(row.cells.get("dk") or row.number("dk_theoretical"))
    smallest = row.number("dk_min")
    return Sink(
        wide,
        hole,
        depth,
        round((wide - largest) / 2, 9),
        round((wide - smallest) / 2, 9),
        None if sheet is None else round(sheet - depth, 9),
    )


def washer_cover(size: str, standard: str, hole: float) -> tuple[float, float]:
    """Give how far a washer overlaps a hole: centred, and pushed aside; mm."""
    one = washer(size, standard)
    diameter = float(size_name(size)[1:])
    centred = (one.outside_low - hole) / 2
    aside = centred - (hole - diameter) / 2 - (one.hole_high - diameter) / 2
    return round(centred, 9), round(aside, 9)


_HEAD_WORDS = {
    "dk": "greatest head diameter", "dk_plain": "plain head, greatest diameter",
    "dk_knurled": "knurled head, greatest diameter", "k": "greatest head height",
    "dk_min": "least head diameter", "k_min": "least head height",
    "s": "socket across flats", "dk_theoretical": "theoretical sharp diameter",
}  # fmt: skip


def _compute_head(given: Given) -> Answer:
    row = head(given.word("standard"), given.word("size"))
    results = tuple(
        Result(name, float(value), "mm", 2, _HEAD_WORDS[name])
        for name, value in row.cells.items()
        if name != "size" and value != ""
    )
    knurled = "dk_knurled" in row.cells
    return Answer(
        results,
        warnings=("Counterbore for the larger, knurled head.",) if knurled else (),
        sources=(row.table.cited,),
    )


def _compute_sink_depth(given: Given) -> Answer:
    depth = sink_depth(
        given.number("sink"), given.number("hole"), given.number("angle")
    )
    if depth < 0:
        raise BadInput("the sink is narrower than the hole; accepted: a wider sink")
    return Answer((Result("depth", depth, "mm", 2, "depth of the sink"),))


def _compute_sink(given: Given) -> Answer:
    size = given.word("size")
    hole = given.maybe("hole")
    if hole is None:
        hole = clearance(size)["medium"]
    found = sink(
        size, given.word("standard"), hole, given.maybe("sheet"), given.maybe("sink")
    )
    results = [
        Result("sink", found.diameter, "mm", 2, "diameter to open the sink to"),
        Result("hole", found.hole, "mm", 2, "clearance hole"),
        Result("sink_depth", found.depth, "mm", 2, "depth of the sink"),
        Result("sunk_min", found.sunk_low, "mm", 2, "head below the face, least"),
        Result("sunk_max", found.sunk_high, "mm", 2, "head below the face, most"),
    ]
    if found.left is not None:
        results.append(
            Result("left_under", found.left, "mm", 2, "sheet under the sink")
        )
        results.append(
            Result("breaks_through", found.breaks_through, "", 0, "the hole grows")
        )
    return Answer(tuple(results))


def _compute_cover(given: Given) -> Answer:
    centred, aside = washer_cover(
        given.word("size"), given.word("washer"), given.number("hole")
    )
    return Answer(
        (
            Result("centred", centred, "mm", 2, "cover all round when centred"),
            Result("worst", aside, "mm", 2, "screw and washer pushed to one side"),
        ),
        warnings=("The washer can slip off the edge of the hole.",)
        if aside < 0
        else (),
    )


_SIZE = Input("size", "screw size, as M4", kind=Kind.TEXT, also=("screw", "thread"))


SUMS: tuple[Sum, ...] = (
    Sum(
        name="screw-head",
        also=("head",),
        title="Head of a screw: diameters and height",
        inputs=(
            Input("standard", "iso4762, iso7380, iso10642, iso7046, iso2009, iso14581, "
                  "iso7045, iso14583 or iso1580", kind=Kind.TEXT),
            _SIZE,
        ),
        compute=_compute_head,
        formula="table value; countersunk at 90°: k = (dk − d) / 2",
        source="the standard named",
        how="read",
        example={"standard": "iso4762", "size": "M4"},
        relied_on=False,
    ),
    Sum(
        name="sink-depth",
        also=("countersink-depth",),
        title="Depth of a sink of given diameter",
        inputs=(
            Input("sink", "diameter of the sink", "mm", accept=POSITIVE,
                  also=("sink-diameter", "sink-dia")),
            Input("hole", "hole", "mm", accept=POSITIVE),
            Input("angle", "included angle of the sink", "°", accept=between(0, 180),
                  default="90°", also=("included", "included-angle")),
        ),
        compute=_compute_sink_depth,
        formula="(sink − hole) / 2 / tan(angle / 2)",
        source="geometry",
        how="computed",
        example={"sink": "6.72 mm", "hole": "3.4 mm"},
        relied_on=False,
    ),
    Sum(
        name="countersink",
        also=("countersunk", "countersunk-screw"),
        title="Sink for a countersunk screw: diameter, depth, and the sheet under it",
        inputs=(
            _SIZE,
            Input("standard", "iso7046, iso2009, iso14581 or iso10642", kind=Kind.TEXT,
                  default="iso7046"),
            Input("hole", "clearance hole; ISO 273 medium without", "mm",
                  accept=POSITIVE, optional=True),
            Input("sheet", "thickness of the sheet", "mm", accept=POSITIVE,
                  optional=True, also=("t", "thickness")),
            Input("sink", "diameter of the sink; theoretical head without", "mm",
                  accept=POSITIVE, optional=True),
        ),
        compute=_compute_sink,
        formula="depth = (sink − hole) / 2; head below the face = (sink − head) / 2",
        source="ISO 7046, ISO 10642; geometry at 90°",
        how="computed",
        caution="Three countersunk families share one thread: M4 heads are 7.5, 8.96 "
        "or 9.4 mm sharp.",
        example={"size": "M4", "sheet": "3 mm"},
    ),
    Sum(
        name="washer-cover",
        also=("washer-overlap",),
        title="How far a washer covers an oversize hole",
        inputs=(
            _SIZE,
            Input("hole", "hole under the washer", "mm", accept=POSITIVE),
            Input("washer", "which washer", kind=Kind.CHOICE, choices=WASHERS,
    words={"normal": "iso7089", "large": "iso7093", "wide": "iso7093"},
                  default="iso7089"),
        ),
        compute=_compute_cover,
        formula="(least outside − hole) / 2, less (hole − d) / 2 and (greatest washer "
        "hole − d) / 2",
        source="ISO 7089, ISO 7093-1; geometry",
        how="computed",
        example={"size": "M4", "hole": "6 mm"},
    ),
)  # fmt: skip
