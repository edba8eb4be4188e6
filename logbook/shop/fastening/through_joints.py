"""A screw through a stack and a nut, as a sum: what stands through at the worst."""

from __future__ import annotations

from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.fastening.joint import Joint, Layer, Stand, choose_length, work_joint
from logbook.shop.fastening.joint_inputs import (
    GRADE,
    LAYERS,
    SCREW,
    SCREW_SERIES,
    WASHER,
    WASHER_COUNT,
    layers_of,
)
from logbook.shop.fastening.screws import (
    COUNTERSUNK,
    MOST_PITCHES,
    Nut,
    next_lengths,
    nut,
    read_screw,
    screw,
)
from logbook.shop.given import POSITIVE, Given, Input, Kind
from logbook.shop.sums import Sum

_SAID = {
    Stand.SHORT: "Even at its longest {screw} stands less than one pitch through: "
    "{take}.",
    Stand.MAY_BE_SHORT: "In the worst case less than one pitch of {screw} stands "
    "through: {take}.",
    Stand.MAY_BE_EITHER: "In the worst case less than one pitch of {screw} stands "
    "through, or more than three: measure the layers, or {take}.",
}


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
    layers = layers_of(given, bolt.size)
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


SUMS: tuple[Sum, ...] = (
    Sum(
        name="joint",
        also=("stand-through", "protrusion", "screw-joint", "stack", "bolt"),
        title="Screw through a stack and a nut: stand-through in the worst case",
        inputs=(
            SCREW,
            LAYERS,
            Input("nut", "iso4032, din934, iso4035, iso7040, iso10511 or din985; "
                  "plain, thin, self-locking or locknut, thin self-locking",
                  kind=Kind.TEXT),
            Input("nut_height", "height of the nut as measured", "mm", accept=POSITIVE,
                  optional=True),
            WASHER_COUNT,
            WASHER,
            SCREW_SERIES,
            GRADE,
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
)  # fmt: skip
