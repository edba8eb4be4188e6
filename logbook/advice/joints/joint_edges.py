"""Whether the holes of a joint are far enough from the edges of its layers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.ground.advice import Advice
from logbook.advice.ground.cost import weighed
from logbook.advice.ground.material import material_of, row_for
from logbook.advice.ground.register import View
from logbook.advice.joints.of_joint import of_joint
from logbook.advice.steps.holds import is_done
from logbook.records.kinds import assembling
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.words import Grade
from logbook.shop.answers import Result
from logbook.shop.fastening.edges import edge_distance
from logbook.shop.fastening.screws import Screw
from logbook.shop.tables import table


def edge_advice(view: View, joint: assembling.Joint, bolt: Screw) -> Iterator[Advice]:
    """Speak up for each hole that is too near an edge, or sunk where that cracks."""
    for record in joint.layers:
        if record.edge_distance is None:
            continue
        part = view.find(record.part, Part)
        material = material_of(view, part) if part else record.part.name
        row = row_for(table("edges", "sheet"), material)
        if row is None:
            continue
        hole = float(record.hole.to("mm")) if record.hole else _nominal(bolt)
        size = record.thickness or (part.thickness if part else None)
        thick = float(size.to("mm")) if size else None
        wanted = edge_distance(row.label, hole, thick)
        have = float(record.edge_distance.to("mm"))
        sunk = wanted.brittle and "countersunk" in joint.head.casefold()
        if have >= wanted.centre and not sunk:
            continue
        step = view.find(joint.step, Step)
        usual = Grade.REMARK if step and is_done(view, step) else Grade.CHECK
        advice = _edge(joint, record, have, wanted.centre, sunk, wanted.source)
        yield replace(advice, grade=weighed(part, usual))


def _nominal(bolt: Screw) -> float:
    return float(bolt.size.removeprefix("M"))


def _edge(
    joint: assembling.Joint,
    record: assembling.Layer,
    have: float,
    least: float,
    sunk: bool,  # noqa: FBT001
    source: str,
) -> Advice:
    name = record.part.name
    said = []
    if have < least:
        said.append(
            f"the hole centre is {have:g} mm from the edge of {name}, at least "
            f"{least:g} mm is wanted"
        )
    if sunk:
        said.append(
            f"a countersunk head wedges brittle {name} open: take a flat-bearing head "
            "with a washer and an oversize hole"
        )
    return replace(
        of_joint(joint, "; ".join(said), Grade.CHECK, f"edge {name}"),
        numbers=(
            Result("edge", have, "mm", 1, "hole centre to edge, as drawn"),
            Result("least", least, "mm", 1, "hole centre to edge, wanted"),
        ),
        inputs=(joint.ref, record.part),
        formula="least distance = factor × hole, in brittle layers 2 × thickness too",
        sources=(source,),
        changes=("a hole further in, another head, a tougher material",),
    )
