"""What several sums of screw joints ask: screw, layers, washers, series, grade."""

from __future__ import annotations

from logbook.shop.fastening.joint import Layer
from logbook.shop.fastening.layers import read_layer, washer_layer
from logbook.shop.fastening.screws import SERIES, WASHERS
from logbook.shop.given import Given, Input, Kind, at_least


def layers_of(given: Given, size: str) -> list[Layer]:
    """Give everything clamped: the layers typed, then the washers counted.

    Raises:
        BadInput: a layer cannot be read.
    """
    layers = [read_layer(text, size) for text in given.words("layers")]
    standard = given.word("washer_standard")
    return layers + [washer_layer(size, standard)] * given.count("washers")


SCREW = Input("screw", "size x length, as M4x16", kind=Kind.TEXT, also=("bolt",))


GRADE = Input(
    "grade", "product grade of the screw", kind=Kind.CHOICE, choices=("A", "B"),
    default="A",
)  # fmt: skip


LAYERS = Input(
    "layers",
    "everything clamped, in order: thickness with ± or material, or washer",
    kind=Kind.TEXT, many=True, also=("stack", "layer"),
)  # fmt: skip


WASHER_COUNT = Input(
    "washers", "washers besides those among the layers", kind=Kind.COUNT,
    accept=at_least(0, 20), default="0",
)  # fmt: skip


WASHER = Input(
    "washer_standard", "which washer", kind=Kind.CHOICE, choices=WASHERS,
    words={"normal": "iso7089", "large": "iso7093", "wide": "iso7093"},
    default="iso7089", also=("washer",),
)  # fmt: skip


SCREW_SERIES = Input(
    "series", "screw series, for its standard lengths", kind=Kind.CHOICE,
    choices=SERIES, default="iso4762",
)  # fmt: skip
