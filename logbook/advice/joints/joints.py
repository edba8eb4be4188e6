"""What a joint comes to, in the worst case over screw, nut, washers and stock.

Nominal alone is no answer: a joint is told by the shortest screw through the
thickest layers. A thickness found on a piece wins over the one that was drawn.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from logbook.advice.ground.advice import Advice
from logbook.advice.ground.register import View
from logbook.advice.joints.blind import blind_advice
from logbook.advice.joints.joint_edges import edge_advice
from logbook.advice.joints.joint_layers import layer_of, nut_of
from logbook.advice.joints.of_joint import SCREW_LENGTH, of_joint
from logbook.advice.joints.released_joint import said_by_release
from logbook.advice.joints.tapped import tap_advice
from logbook.errors import BadInput, Problem
from logbook.records.kinds import assembling
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Grade
from logbook.shop.answers import Result
from logbook.shop.fastening.joint import (
    Joint,
    Layer,
    Ring,
    Stand,
    choose_length,
    work_joint,
)
from logbook.shop.fastening.screws import read_screw

SERIES = "iso4762"
"""Lengths a longer or shorter screw is named from where the head says nothing."""


_TOO_SHORT = {Stand.SHORT, Stand.MAY_BE_SHORT, Stand.MAY_BE_EITHER}


_FORMULA = "stand-through = screw length − layers − washers − nut height, worst case"


def joint_advice(
    view: View, joint: assembling.Joint, *, drawn: bool = False
) -> Iterator[Advice | Problem]:
    """Say how far the screw stands through or in, and whether each hole is far in.

    `drawn` takes the thicknesses of the design, not those found in this shop.
    """
    try:
        bolt = read_screw(joint.fastener)
    except BadInput as refusal:
        found, _, accepted = str(refusal).partition("; accepted: ")
        yield Problem(view.path(joint), 0, "fastener", found, accepted)
        return
    yield from edge_advice(view, joint, bolt)
    yield from tap_advice(joint)
    if not joint.nut and not (joint.thread_depth and joint.layers):
        return
    said_then = "" if drawn else said_by_release(view, joint)
    layers, told, refs = [], [said_then] if said_then else [], [joint.ref]
    unknown = []
    for record in joint.layers:
        layer, said, used = layer_of(view, record, bolt, drawn=drawn)
        if layer is None:
            unknown.append(record.part.name)
            continue
        layers.append(layer)
        told += said
        refs += used
    if unknown:
        yield _unknown_layers(view.path(joint), unknown)
        return
    if not joint.nut:
        known = tuple(told), tuple(refs)
        yield blind_advice(joint, bolt, layers, *known, SERIES)
        return
    held = nut_of(joint, bolt)
    worked = work_joint(bolt, layers, held)
    yield _through(joint, worked, layers, tuple(told), tuple(refs))


OF_NO_THICKNESS = " of no known thickness"


def _unknown_layers(path: str, names: Sequence[str]) -> Problem:
    """Say of which layers nobody knows how thick they are, all at once."""
    example = f"layer {names[0]}=6 mm"
    accepted = f"a thickness in the joint ({example}), of the part, or as found"
    return Problem(
        path, 0, "layer", f"{' and '.join(names)}{OF_NO_THICKNESS}", accepted
    )


def _through(
    joint: assembling.Joint,
    found: Joint,
    layers: Sequence[Layer],
    told: tuple[str, ...],
    refs: tuple[Ref, ...],
) -> Advice:
    said, grade, take = _verdict(joint, found, layers)
    return replace(
        of_joint(joint, said, grade),
        numbers=(
            Result("grip", found.grip, "mm", 2, "all layers, nominal"),
            Result("through", found.through, "mm", 2, "beyond the nut, nominal"),
            Result("lowest", found.low, "mm", 2, "beyond the nut, worst case"),
            Result("highest", found.high, "mm", 2, "beyond the nut, worst case"),
            Result("pitch", found.screw.pitch, "mm", 2, "one is wanted at least"),
            *take,
        ),
        inputs=refs,
        formula=_FORMULA,
        sources=(SCREW_LENGTH, found.nut.source),
        assumed=told,
        changes=("a measured layer, another screw, nut or washer",),
    )


def _verdict(
    joint: assembling.Joint, found: Joint, layers: Sequence[Layer]
) -> tuple[str, Grade, tuple[Result, ...]]:
    """Say how the screw stands through, how much that weighs, and which to take."""
    said, grade = f"{joint.fastener} stands through as it should", Grade.REMARK
    take: tuple[Result, ...] = ()
    if found.verdict in _TOO_SHORT:
        grade = Grade.CHECK
        sure = "is too short" if found.verdict is Stand.SHORT else "may be too short"
        said = f"{joint.fastener} {sure}"
        if found.nut.ringed and found.ring_worst is not Ring.THROUGH:
            said += ", the locking ring is not surely reached"
        chosen = choose_length(found.screw.size, layers, found.nut, SERIES)
        if chosen is not None:
            longer = f"{chosen.screw.size}x{chosen.screw.length:g}"
            take = (Result("take", longer, "", 0, "the next length that reaches"),)
            said += (
                f": take {longer} and check what is behind it, it can stand "
                f"{chosen.high:.1f} mm through"
            )
    elif found.verdict is Stand.LONG:
        said = f"{joint.fastener} stands through, by more than three pitches"
    elif found.verdict is Stand.MAY_BE_LONG:
        said = (
            f"{joint.fastener} stands through, "
            "at its longest by more than three pitches"
        )
    if joint.room_behind and found.high > float(joint.room_behind.to("mm")):
        grade = Grade.CHECK
        said += f"; only {joint.room_behind} are free behind it"
    return said, grade, take
