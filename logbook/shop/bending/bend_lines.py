"""Where the line of a bend goes: by the tool it is bent on and the side that is held.

A line is right for one machine only. On a press brake the punch comes down on
the bend's centre. On a folder the line lies under the nose, one inside radius
from the tangent line of the clamped side, inside the bend. Folding bars in a
vice do the same with the radius of the bar's edge; over sharp bars the line is
the tangent line itself. Lengths in mm.
"""

from __future__ import annotations

from logbook.shop.bending.bends import Bend
from logbook.shop.given import Input, Kind, at_least

TOOLS = ("press brake", "folder", "folding bars")


MARKS = (
    "sight line",
    "sight line of the other side",
    "bend centre",
    "near tangent line",
    "far tangent line",
    "outside corner",
)


SIDES = ("near", "far")


def line_in_bend(bend: Bend, tool: str, clamped: str, bar_edge: float) -> float:
    """Give the line's place from the bend's near tangent line, in mm.

    `clamped` is the side that is held: `near` the datum or `far` from it.
    """
    if tool == "press brake":
        return bend.allowance / 2
    inward = bend.radius if tool == "folder" else bar_edge
    return inward if clamped == "near" else bend.allowance - inward


def mark_in_bend(bend: Bend, mark: str, clamped: str) -> float:
    """Give where a mark of another kind lies, from the near tangent line, in mm.

    The outside corner is the outside size of the leg towards the datum, marked
    off on the flat sheet.
    """
    held, other = bend.radius, bend.allowance - bend.radius
    if clamped == "far":
        held, other = other, held
    places = {
        "sight line": held,
        "sight line of the other side": other,
        "bend centre": bend.allowance / 2,
        "near tangent line": 0.0,
        "far tangent line": bend.allowance,
        "outside corner": bend.setback,
    }
    return places[mark]


TOOL = Input(
    "tool",
    "what the part is folded on",
    kind=Kind.CHOICE,
    choices=TOOLS,
    words={
        "vice": "folding bars",
        "bars": "folding bars",
        "vise": "folding bars",
        "box and pan folder": "folder",
        "box-and-pan": "folder",
        "leaf brake": "folder",
        "hand brake": "folder",
        "pressbrake": "press brake",
    },
    default="folder",
    also=("machine",),
)


BAR_EDGE = Input(
    "bar_edge",
    "radius of the edge of the folding bars, 0 for sharp ones",
    "mm",
    accept=at_least(0),
    optional=True,
)
