"""Screw joints as sums: from what is typed to what stands through, or bottoms."""

from __future__ import annotations

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.fastening.joint import (
    Joint,
    Layer,
    Stand,
    blind_joint,
    choose_length,
    work_joint,
)
from logbook.shop.fastening.layers import read_layer, washer_layer
from logbook.shop.fastening.screws import (
    COUNTERSUNK,
    MOST_PITCHES,
    SERIES,
    WASHERS,
    Nut,
    length_limits,
    next_lengths,
    nut,
    read_screw,
    screw,
)
from logbook.shop.fastening.screws import at_least as at_least_long
from logbook.shop.given import POSITIVE, Given, Input, Kind, at_least
from logbook.shop.sums import Sum

_SAID = {
    Stand.SHORT: "Even at its longest {screw} stands less than one pitch through: "
    "{take}.",
    Stand.MAY_BE_SHORT: "In the worst case less than one pitch of {screw} stands "
    "through: {take}.",
    Stand.MAY_BE_EITHER: "In the worst case less than one pitch of {screw} stands "
    "through, or more than three: measure the layers, or {take}.",
}


def _layers(given: Given, size: str) -> list[Layer]:
    layers = [read_layer(text, size) for text in given.words("layers")]
    standard = given.word("washer_standard")
    return layers + [washer_layer(size, standard)] * given.count("washers")


def _nut(given: Given, size: str) -> Nut:
    found = nut(size, given.word("nut"))
    high = given.maybe("nut_height")
    if high is None:
        return found
    metal = min(found.metal, high)
    return Nut(
        f"{found.title}, as measured", high, high, metal, found.ringed, "measured"
    )


def _compute_joint(given: Given) -> Answer:
    bolt = read_screw(given.word("screw"), given.word("grade"))
    layers = _layers(given, bolt.size)
    found = work_joint(bolt, layers, _nut(given, bolt.size))
    series = given.word("series")
    chosen = choose_length(bolt.size, layers, found.nut, series, given.word("grade"))
    down, up = next_lengths(bolt.length, series)
    take = chosen.screw.length if chosen else None
    return Answer(
        (*_through(found), *_lengths(chosen, down, up, bolt.size)),
        tables=(_length_table(found, layers, (down, up, take), given),),
        assumptions=_assumed(found, layers, given),
        warnings=_warned(found, layers, chosen),
        sources=(found.nut.source,),
    )


def _through(found: Joint) -> tuple[Result, ...]:
    pitch, half = found.screw.pitch, found.rss
    return (
        Result("grip", found.grip, "mm", 2, "everything between head and nut, nominal"),
        Result("stand_through", found.through, "mm", 2, "nominal, nut at its highest"),
        Result("pitches", found.through / pitch, "pitches", 1, "the same in pitches"),
        Result("stand_through_min", found.low, "mm", 2, "worst case, shortest"),
        Result("stand_through_max", found.high, "mm", 2, "worst case, longest"),
        Result("pitches_min", found.low / pitch, "pitches", 1, "worst case, shortest"),
        Result("pitches_max", found.high / pitch, "pitches", 1, "worst case, longest"),
        Result("verdict", found.verdict.value, "", 0, "against one to three pitches"),
        Result("middle", found.middle, "mm", 2, "middle of the worst cases"),
        Result("rss", half, "mm", 2, "half width by root sum of squares"),
        Result("rss_low", found.middle - half, "mm", 2, "middle less RSS"),
        Result("rss_high", found.middle + half, "mm", 2, "middle and RSS"),
        Result("end_above_face", found.above_face, "mm", 2,
               "screw end above the nut's bearing face, nominal"),
        Result("ring_from", found.nut.metal, "mm", 2, "least metal height of the nut"),
        Result("nut_top", found.nut.high, "mm", 2, "greatest height of the nut"),
        Result("ring", found.ring.value, "", 0, "where the screw ends, nominal"),
        Result("ring_worst", found.ring_worst.value, "", 0, "and in the worst case"),
        Result("engagement", found.engagement_low, "mm", 2,
               "thread in the nut in the worst case"),
    )  # fmt: skip


def _lengths(
    chosen: Joint | None, down: float | None, up: float | None, size: str
) -> list[Result]:
    named = (("next_down", down), ("next_up", up))
    results = [
        Result(name, f"{size}×{length:g}" if length else "none listed", "", 0,
               "standard length")
        for name, length in named
    ]  # fmt: skip
    name = str(chosen.screw) if chosen else "none listed"
    results.append(
        Result("choose", name, "", 0, "shortest that always stands one pitch through")
    )
    if chosen:
        results.append(
            Result("choose_length", chosen.screw.length, "mm", 0, "its length")
        )
    return results


def _length_table(
    found: Joint, layers: list[Layer], near: tuple[float | None, ...], given: Given
) -> Rows:
    bolt, grade = found.screw, given.word("grade")
    wanted = sorted({bolt.length, *(one for one in near if one)})
    joints = [
        work_joint(screw(bolt.size, length, grade), layers, found.nut)
        for length in wanted
    ]
    columns = (
        Column("screw"), Column("stands through, least", "mm", 2),
        Column("most", "mm", 2), Column("verdict"), Column("ring, worst case"),
    )  # fmt: skip
    rows = tuple(
        (str(one.screw), one.low, one.high, one.verdict.value, one.ring_worst.value)
        for one in joints
    )
    return Rows("this length, its neighbours and the one to choose", columns, rows)


def _assumed(found: Joint, layers: list[Layer], given: Given) -> tuple[str, ...]:
    said = [
        (
            f"screw {found.screw.low:g} to {found.screw.high:g} mm long "
            f"(grade {given.word('grade')}, ISO 4759-1)"
        ),
        f"nut {found.nut.low:g} to {found.nut.high:g} mm high: {found.nut.title}",
        "layers: " + "; ".join(_layer_said(layer) for layer in layers),
        f"lengths as {given.word('series')} screws are listed in; --series for others",
    ]
    if given.word("series") in COUNTERSUNK:
        said.append("countersunk: the length has the head in it, set flush")
    return tuple(said)


def _layer_said(layer: Layer) -> str:
    return f"{layer.name} {layer.low:.3g} to {layer.high:.3g} mm"


def _warned(found: Joint, layers: list[Layer], chosen: Joint | None) -> tuple[str, ...]:
    said = []
    if found.verdict in _SAID:
        longer = f"take {chosen.screw}" if chosen else "no listed length reaches"
        said.append(_SAID[found.verdict].format(screw=found.screw, take=longer))
    if found.nut.ringed and found.ring_worst.value != "through":
        said.append("The locking ring is not surely reached: the nut may not lock.")
    unknown = [layer.name for layer in layers if not layer.known]
    if unknown:
        said.append(
            f"No limits for {', '.join(unknown)}: the worst case is better than it "
            "looks here; measure it, or give ± or the material."
        )
    if chosen and found.high < chosen.high:
        said.append(
            f"{chosen.screw} can stand {chosen.high:.1f} mm through: check what is "
            "behind it."
        )
    most = MOST_PITCHES * found.screw.pitch
    if found.high > most:
        said.append(f"More than three pitches ({most:g} mm) can stand through.")
    return tuple(said)


def _compute_blind(given: Given) -> Answer:
    bolt = read_screw(given.word("screw"), given.word("grade"))
    threaded, depth = given.number("threaded"), given.number("depth")
    found = blind_joint(bolt, _layers(given, bolt.size), threaded, depth)
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
    stock = at_least_long(least, given.word("series"))
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


_SCREW = Input("screw", "size x length, as M4x16", kind=Kind.TEXT, also=("bolt",))
_GRADE = Input(
    "grade", "product grade of the screw", kind=Kind.CHOICE, choices=("A", "B"),
    default="A",
)  # fmt: skip
_LAYERS = Input(
    "layers",
    "everything clamped, in order: thickness with ± or material, or washer",
    kind=Kind.TEXT, many=True, also=("stack", "layer"),
)  # fmt: skip
_WASHERS = Input(
    "washers", "washers besides those among the layers", kind=Kind.COUNT,
    accept=at_least(0, 20), default="0",
)  # fmt: skip
_WASHER = Input(
    "washer_standard", "which washer", kind=Kind.CHOICE, choices=WASHERS,
    words={"normal": "iso7089", "large": "iso7093", "wide": "iso7093"},
    default="iso7089", also=("washer",),
)  # fmt: skip
_SERIES = Input(
    "series", "screw series, for its standard lengths", kind=Kind.CHOICE,
    choices=SERIES, default="iso4762",
)  # fmt: skip

SUMS: tuple[Sum, ...] = (
    Sum(
        name="joint",
        also=("stand-through", "protrusion", "screw-joint", "stack", "bolt"),
        title="Screw through a stack and a nut: stand-through in the worst case",
        inputs=(
            _SCREW,
            _LAYERS,
            Input("nut", "iso4032, din934, iso4035, iso7040, iso10511 or din985; "
                  "plain, thin, self-locking or locknut, thin self-locking",
                  kind=Kind.TEXT),
            Input("nut_height", "height of the nut as measured", "mm", accept=POSITIVE,
                  optional=True),
            _WASHERS,
            _WASHER,
            _SERIES,
            _GRADE,
        ),
        compute=_compute_joint,
        formula="stand-through = length − layers − nut; least: shortest screw, "
        "thickest layers, highest nut; most: the other way round",
        source="ISO 4759-1, ISO 7089, ISO 7093-1 and the nut's standard; one pitch at "
        "least: FAA AC 43.13-1B 7-37; three at most: common practice",
        how="read",
        caution="Not for parts that rotate. Nuts with a nylon or fibre ring only up to "
        "121 °C, and once more only while they still turn stiffly.",
        example={
            "screw": "M4x16",
            "layers": ("washer 0.8", "collar 6.35 ±0.05", "base 2.0 aluminium II",
                       "fibre washer 0.7 ±0.05", "washer 0.8"),
            "nut": "thin self-locking",
        },
    ),
    Sum(
        name="screw-in-hole",
        also=("blind-hole", "bottoming", "insert-screw", "screw-in-insert"),
        title="Screw into a tapped hole or an insert: engagement and bottoming",
        inputs=(
            _SCREW,
            _LAYERS,
            Input("threaded", "length of thread in the hole or insert", "mm",
                  accept=POSITIVE, also=("insert-length", "thread-length")),
            Input("depth", "depth of the hole below the face", "mm", accept=POSITIVE,
                  also=("hole-depth",)),
            _WASHERS,
            _WASHER,
            _GRADE,
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
            _WASHERS,
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
            _SERIES,
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
            _GRADE,
        ),
        compute=_compute_length_limits,
        formula="nominal ± js15 (grade A up to 150 mm), js17 beyond and for grade B",
        source="ISO 4759-1 with ISO 286-1",
        how="read",
        example={"length": "16 mm"},
        relied_on=False,
    ),
)  # fmt: skip
