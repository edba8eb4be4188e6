"""Kerf: what the cut takes, its sign, and how to measure it.

Kerf here is the full width of the cut. A cut outside the kept part makes it
smaller by one kerf, a cut inside a kept hole makes the hole larger by one
kerf. Half of it falls on each side; some pages call that half "kerf", so every
figure is shown both ways. Lengths in mm.
"""

from __future__ import annotations

import math

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.given import POSITIVE, Given, Input, Kind, at_least
from logbook.shop.sums import Sum
from logbook.shop.tables import table

CONTOURS = ("outside", "inside")
MEANINGS = ("full width", "per side")


def drawn_path(wanted: float, kerf: float, contour: str) -> float:
    """Give the size to draw so that the cut part, or hole, comes out as wanted.

    Raises:
        BadInput: the hole is smaller than the cut.
    """
    if contour == "outside":
        return wanted + kerf
    if wanted <= kerf:
        raise BadInput(
            f"size: found {wanted:g} mm inside a cut of {kerf:g} mm; accepted: more "
            "than the kerf"
        )
    return wanted - kerf


def cut_size(drawn: float, kerf: float, contour: str) -> float:
    """Give the size that comes out where the drawing is not compensated."""
    return drawn - kerf if contour == "outside" else drawn + kerf


def typical_kerf(laser: str) -> tuple[float, float]:
    """Give the middle of the usual kerf of a laser, and half of its range, in mm."""
    row = table("cutting", "kerf").named(laser)
    low, high = row.number("low"), row.number("high")
    return (low + high) / 2, (high - low) / 2


def _kerf(given: Given) -> tuple[float, float]:
    """Give the full kerf and its uncertainty; 0 where it was measured.

    Raises:
        BadInput: neither a kerf nor a laser was given.
    """
    if given.has("kerf"):
        share = 2 if given.word("kerf_is") == "per side" else 1
        return share * given.number("kerf"), 0.0
    if not given.has("laser"):
        raise BadInput(
            "kerf: not given; accepted: its width as measured, or a laser to take the "
            "usual range"
        )
    middle, half = typical_kerf(given.word("laser"))
    return middle, 2 * half / math.sqrt(3)


def _kerf_source(given: Given) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Give the warning and the source where the kerf is only a usual one."""
    if given.has("kerf"):
        return (), ()
    said = "a usual kerf, not yours: cut a test piece and use kerf-measured"
    return (said,), (table("cutting", "kerf").cited,)


def _path(given: Given) -> Answer:
    kerf, spread = _kerf(given)
    contour = given.word("contour")
    path = drawn_path(given.number("size"), kerf, contour)
    side = "outward" if contour == "outside" else "inward"
    said, sources = _kerf_source(given)
    return Answer(
        (
            Result("path", path, "mm", 2, "size to draw", spread),
            Result(
                "offset_per_side", kerf / 2, "mm", 3, f"of the path, {side}", spread / 2
            ),
            Result("kerf", kerf, "mm", 3, "full width of the cut", spread),
        ),
        warnings=said,
        sources=sources,
    )


def _cut(given: Given) -> Answer:
    drawn = given.number("drawn")
    kerf, spread = _kerf(given)
    part, hole = (cut_size(drawn, kerf, contour) for contour in CONTOURS)
    said, sources = _kerf_source(given)
    return Answer(
        (
            Result("part", part, "mm", 2, "outside kept", spread),
            Result("hole", hole, "mm", 2, "inside a contour", spread),
            Result("part_loss", kerf, "mm", 3, "smaller than drawn", spread),
            Result("hole_growth", kerf, "mm", 3, "larger than drawn", spread),
        ),
        assumptions=("the path was not compensated for the cut",),
        warnings=said,
        sources=sources,
    )


def _measured(given: Given) -> Answer:
    drawn, measured = given.number("drawn"), given.number("measured")
    pieces = given.count("pieces")
    lost = drawn - measured if given.word("contour") == "outside" else measured - drawn
    kerf = lost / pieces
    said = (
        (
            (
                f"the kerf comes out negative, {kerf:.2f} mm: was the path "
                "compensated, or inside and outside mixed up?"
            ),
        )
        if kerf < 0
        else ()
    )
    return Answer(
        (
            Result("kerf", kerf, "mm", 3, "full width of the cut"),
            Result("per_side", kerf / 2, "mm", 3, "half of it, the offset of a path"),
        ),
        assumptions=(
            "the path was not compensated",
            *(("pieces pushed together, each smaller by one kerf",) * (pieces > 1)),
        ),
        warnings=said,
    )


_KERF = (
    Input(
        "kerf",
        "of this material on this machine, as measured",
        "mm",
        accept=at_least(0),
        optional=True,
    ),
    Input(
        "kerf_is",
        "whether that is the full width of the cut or what one side loses",
        kind=Kind.CHOICE,
        choices=MEANINGS,
        words={"full": "full width", "half": "per side", "each side": "per side"},
        default="full width",
    ),
)
_LASER = Input(
    "laser",
    "for a usual kerf where none was measured",
    kind=Kind.CHOICE,
    choices=("diode", "CO2"),
    words={"CO₂": "CO2"},
    optional=True,
)
_CONTOUR = Input(
    "contour",
    "outside where the part is kept, inside where the hole is",
    kind=Kind.CHOICE,
    choices=CONTOURS,
    words={"part": "outside", "outer": "outside", "hole": "inside", "inner": "inside"},
    default="outside",
)

SUMS = (
    Sum(
        name="kerf-path",
        title="What to draw so that a cut part or hole has the wanted size",
        inputs=(
            Input("size", "wanted", "mm", accept=POSITIVE, also=("nominal", "wanted")),
            *_KERF,
            _LASER,
            _CONTOUR,
        ),
        compute=_path,
        formula="path = size + kerf outside, size - kerf inside; offset kerf/2 per "
        "side",
        source="geometry; common practice, no source",
        how="common practice",
        caution="A kerf belongs to one material, machine and setting, and may differ "
        "along the two axes.",
        dangers=("laser beam",),
        example={"size": "36.0 mm", "kerf": "0.2 mm", "contour": "inside"},
        also=("kerf", "kerf-offset"),
    ),
    Sum(
        name="kerf-uncompensated",
        title="What comes out where the drawing forgot the kerf",
        inputs=(
            Input("drawn", "size in the drawing", "mm", accept=POSITIVE),
            *_KERF,
            _LASER,
        ),
        compute=_cut,
        formula="part = drawn - kerf; hole = drawn + kerf",
        source="geometry; common practice, no source",
        how="common practice",
        example={"drawn": "36.0 mm", "kerf": "0.2 mm"},
        also=("kerf-result",),
    ),
    Sum(
        name="kerf-measured",
        title="Kerf from a cut test piece",
        inputs=(
            Input(
                "drawn",
                "size in the drawing, of all pieces together",
                "mm",
                accept=POSITIVE,
                also=("outer",),
            ),
            Input("measured", "size that came out", "mm", accept=POSITIVE),
            Input(
                "pieces",
                "cut apart and pushed together",
                kind=Kind.COUNT,
                accept=at_least(1),
                default="1",
            ),
            _CONTOUR,
        ),
        compute=_measured,
        formula="kerf = (drawn - measured) / pieces outside, (measured - drawn) inside",
        source="geometry; common practice, no source",
        how="common practice",
        caution="Not twice the difference, as one page has it.",
        example={"drawn": "80 mm", "measured": "78.4 mm", "pieces": "8"},
        also=("kerf-measure",),
    ),
)
