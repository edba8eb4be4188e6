"""Whether a screw into an insert or a tapped hole bites, and does not bottom.

Worst case over the screw and what it clamps. Nobody says how deep the hole goes on
below its thread, so the end of the thread is taken for the bottom. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from logbook.advice.ground.advice import Advice
from logbook.advice.joints.of_joint import SCREW_LENGTH, of_joint
from logbook.records.kinds import assembling
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Grade
from logbook.shop.answers import Result
from logbook.shop.fastening.joint import Blind, Layer, blind_joint
from logbook.shop.fastening.screws import Screw, lengths, screw

LEAST_DIAMETERS = 1.0
"""Thread that has to bite, in diameters of the screw."""
_LEAST_FROM = (
    "at least one diameter of thread: common practice, no source; soft metal, wood "
    "and plastic want more"
)
_FORMULA = (
    "reach = screw length − layers, worst case; bites = the least reach, "
    "at most the thread"
)


def clamped_in(
    bolt: Screw, layers: Sequence[Layer], depth: float
) -> tuple[Sequence[Layer], str]:
    """Give the layers the screw clamps, and the layer its thread is in, or nothing.

    A last layer that the screw cannot pass, and that the thread fits into, is what
    is tapped; where it can pass it, all layers are taken for clamped.
    """
    *clamped, last = layers
    passes = bolt.low - sum(layer.high for layer in layers) > 0
    if not clamped or passes or last.high < depth:
        return layers, ""
    return clamped, last.name


def blind_advice(
    joint: assembling.Joint,
    bolt: Screw,
    layers: Sequence[Layer],
    told: tuple[str, ...],
    refs: tuple[Ref, ...],
    series: str,
) -> Advice:
    """Say what a screw comes to in a thread of the depth that is on record.

    `told` is how the layers are known, `refs` from what; `series` the standard
    whose lengths another screw is named from.
    """
    depth = float(joint.thread_depth.to("mm")) if joint.thread_depth else 0.0
    clamped, tapped = clamped_in(bolt, layers, depth)
    found = blind_joint(bolt, clamped, depth, depth)
    said, grade, take = _verdict(joint, bolt, clamped, found, depth, series)
    where = f" in {tapped}" if tapped else ""
    return replace(
        of_joint(joint, said, grade),
        numbers=(
            Result("reach", found.reach_high, "mm", 2, "below the face, at most"),
            Result("bites", found.engaged_low, "mm", 2, "thread that surely bites"),
            Result("thread", depth, "mm", 2, f"how deep it is{where}"),
            *take,
        ),
        inputs=refs,
        formula=_FORMULA,
        sources=(SCREW_LENGTH, _LEAST_FROM),
        assumed=(*told, f"the hole ends with its thread, {joint.thread_depth} deep"),
        changes=("another screw, a washer, a deeper thread, a measured layer",),
    )


def _verdict(
    joint: assembling.Joint,
    bolt: Screw,
    clamped: Sequence[Layer],
    found: Blind,
    depth: float,
    series: str,
) -> tuple[str, Grade, tuple[Result, ...]]:
    """Say whether the screw bottoms or hardly bites, and which one to take."""
    least = LEAST_DIAMETERS * bolt.diameter
    thread = f"its thread is {joint.thread_depth} deep"
    if found.bottoms:
        sure = "bottoms" if found.reach_low > depth else "may bottom"
        said = (
            f"{joint.fastener} {sure} and would clamp nothing: up to "
            f"{found.reach_high:.1f} mm of it reach in, {thread}"
        )
    elif found.reach_low <= 0:
        said = f"{joint.fastener} does not surely reach its thread"
    elif found.engaged_low < least:
        said = (
            f"only {found.engaged_low:.1f} mm of {joint.fastener} surely bite, "
            f"{least:g} mm are wanted at least"
        )
    else:
        said = (
            f"{joint.fastener} bites {found.engaged_low:.1f} mm at least and does "
            f"not bottom, {thread}"
        )
        return said, Grade.REMARK, ()
    better = _better(bolt, clamped, depth, least, series)
    if better is None:
        return f"{said}; no listed length does both", Grade.CHECK, ()
    take = (Result("take", better, "", 0, "bites, and does not bottom"),)
    return f"{said}: take {better}", Grade.CHECK, take


def _better(
    bolt: Screw, clamped: Sequence[Layer], depth: float, least: float, series: str
) -> str | None:
    """Name the longest listed screw that surely bites and surely does not bottom."""
    for length in reversed(lengths(series)):
        found = blind_joint(screw(bolt.size, length), clamped, depth, depth)
        if not found.bottoms and found.engaged_low >= least:
            return f"{bolt.size}x{length:g}"
    return None
