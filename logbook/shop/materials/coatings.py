"""Coatings: what a layer does to a hole, a size and a thread, face by face.

A layer sits on every coated face: a hole loses two, a thickness gains as many
as faces are coated, a thread's pitch diameter gains four. Layers in µm, sizes
in mm. Anodising grows only partly outward.
"""

from __future__ import annotations

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.given import POSITIVE, Given, Input, Kind, above, at_least
from logbook.shop.sums import Sum
from logbook.shop.tables import table


def hole_after(hole: float, layer: float, outward: float = 1.0) -> float:
    """Give a coated hole's diameter in mm; `layer` in mm on its wall.

    Raises:
        BadInput: the layer closes the hole.
    """
    left = hole - 2 * layer * outward
    if left <= 0:
        raise BadInput(
            f"hole: found {hole:g} mm, which the layer closes; accepted: more"
        )
    return left


def _layers(given: Given) -> tuple[float, float, float, tuple[str, ...]]:
    """Give low and high layer in mm, the outward share, and the source."""
    outward, sources = 1.0, list[str]()
    if given.has("layer_low") or given.has("layer_high"):
        ends = [
            given.number(name)
            for name in ("layer_low", "layer_high")
            if given.has(name)
        ]
        low, high = min(ends), max(ends)
    elif given.has("coating"):
        row = table("coatings", "typical").named(given.word("coating"))
        low, high = row.number("low") / 1000, row.number("high") / 1000
        outward = row.number("outward")
        sources.append(f"{row.label}: {row.source}")
    else:
        raise BadInput(
            "coating or layer low: neither was given; accepted: a coating such as "
            "powder, or a layer such as 60 µm"
        )
    if given.has("outward"):
        outward = given.number("outward")
    return low, high, outward, tuple(sources)


def _hole(given: Given) -> Answer:
    low, high, outward, sources = _layers(given)
    hole = given.number("hole")
    return Answer(
        (
            Result("hole_max", hole_after(hole, low, outward), "mm", 2, "thin layer"),
            Result("hole_min", hole_after(hole, high, outward), "mm", 2, "thick layer"),
            Result(
                "drill_for_nominal",
                hole + 2 * high * outward,
                "mm",
                2,
                "to have this hole after coating, at least",
            ),
            Result("shrink_low", 2 * low * outward, "mm", 3, "of the diameter"),
            Result("shrink_high", 2 * high * outward, "mm", 3),
        ),
        sources=sources,
    )


def _size(given: Given) -> Answer:
    low, high, outward, sources = _layers(given)
    faces, size = given.count("faces"), given.number("size")
    return Answer(
        (
            Result("size_low", size + faces * low * outward, "mm", 2),
            Result("size_high", size + faces * high * outward, "mm", 2),
            Result("growth_low", faces * low * outward, "mm", 3),
            Result("growth_high", faces * high * outward, "mm", 3),
        ),
        assumptions=(f"{faces} of the two faces of this size is coated",)
        if faces == 1
        else (),
        sources=sources,
    )


def _thread(given: Given) -> Answer:
    layer = given.number("layer") * 1000
    row = table("coatings", "thread_room").named(given.word("size"))
    room = given.number("allowance") * 1000 if given.has("allowance") else None
    allowance = row.number("allowance") if room is None else room
    growth = 4 * layer
    return Answer(
        (
            Result("growth", growth, "µm", 0, "of the pitch diameter"),
            Result("fits", growth <= allowance + 1e-9, "", 0, "6g screw in a 6H nut"),
            Result("allowance", allowance, "µm", 0, "position g"),
            Result("most_plate", row.number("most_plate"), "µm", 0, "per face"),
        ),
        assumptions=("a 6g thread before coating and an uncoated 6H nut",),
        sources=(row.table.cited,),
    )


_LAYER = above(0, 1)
"""A millimetre of coating is more than any here: a bare 60 was meant in µm."""
_COATING = (
    Input(
        "coating",
        "by name, for its usual range",
        kind=Kind.TEXT,
        optional=True,
        rows_of="coatings.typical",
    ),
    Input(
        "layer_low",
        "thinnest layer per face, instead, as 60 µm",
        "mm",
        accept=_LAYER,
        optional=True,
        also=("low", "layer"),
    ),
    Input(
        "layer_high",
        "thickest layer per face, as 80 µm",
        "mm",
        accept=_LAYER,
        optional=True,
        also=("high",),
    ),
    Input(
        "outward",
        "share of the layer that grows outward; 1 but for anodising",
        kind=Kind.NUMBER,
        accept=at_least(0, 1),
        optional=True,
    ),
)

SUMS = (
    Sum(
        name="coated-hole",
        title="What a coating leaves of a hole, and the drill for a hole after it",
        inputs=(
            Input("hole", "before coating, or wanted after", "mm", accept=POSITIVE),
            *_COATING,
        ),
        compute=_hole,
        formula="hole after = hole - 2 layer x outward share; drill = wanted + 2 layer "
        "x outward share",
        source="geometry; typical layers by coating",
        how="computed",
        caution="Mask or plug close holes and threads; ask the coater for his layer.",
        example={"hole": "4.5 mm", "layer_low": "60 µm", "layer_high": "80 µm"},
        also=("coating-hole",),
    ),
    Sum(
        name="coated-size",
        title="What a coating adds to a size, by the faces it covers",
        inputs=(
            Input("size", "before coating", "mm", accept=POSITIVE),
            Input(
                "faces",
                "coated faces that this size lies between, 1 or 2",
                kind=Kind.COUNT,
                accept=at_least(1, 2),
                default="2",
            ),
            *_COATING,
        ),
        compute=_size,
        formula="size after = size + faces x layer x outward share",
        source="geometry; typical layers by coating",
        how="computed",
        example={"size": "20 mm", "faces": "2", "coating": "powder"},
    ),
    Sum(
        name="coated-thread",
        title="Whether a plated screw still goes into its nut",
        inputs=(
            Input("size", "thread, such as M4", kind=Kind.TEXT, also=("thread",)),
            Input("layer", "plating per face, as 5 µm", "mm", accept=_LAYER),
            Input(
                "allowance",
                "of the thread, instead of position g of ISO 965",
                "mm",
                accept=at_least(0),
                optional=True,
            ),
        ),
        compute=_thread,
        formula="pitch diameter grows 4 x layer; fits while growth <= allowance",
        source="ISO 4042; ISO 965",
        how="read",
        example={"size": "M4", "layer": "5 µm"},
        also=("plated-thread",),
    ),
)
