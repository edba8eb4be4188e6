"""What holds of every rivet by its diameter: edge, pitch, rows, driven head."""

from __future__ import annotations

from dataclasses import dataclass

from logbook.shop.given import POSITIVE, Input
from logbook.shop.tables import table

INCH = 25.4


def rule(name: str) -> float:
    """Give a rule for rivets as a multiple of the diameter."""
    return table("rivets", "rules").named(name).number("factor")


@dataclass(frozen=True, slots=True)
class Distances:
    """Least distances of rivets, in the unit of the diameter."""

    edge: float
    edge_countersunk: float
    pitch: float
    rows: float
    head_thick: float
    head_wide: float


def distances(diameter: float) -> Distances:
    """Give edge, pitch, row distances and the driven head for a diameter."""
    return Distances(
        rule("edge") * diameter,
        rule("edge, countersunk") * diameter,
        rule("pitch") * diameter,
        rule("rows") * diameter,
        rule("driven head thickness") * diameter,
        rule("driven head diameter") * diameter,
    )


DIAMETER = Input(
    "diameter", "rivet diameter", "mm", accept=POSITIVE, also=("d", "rivet")
)
