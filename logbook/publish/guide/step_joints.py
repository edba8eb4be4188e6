"""What is joined in a step: the fasteners, and what lies under their heads and nuts.

All as it was released; in which step a joint is made is the record's as it is now.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from logbook.publish.guide.parts_list import Listed, is_layer
from logbook.publish.release.readback import SaidJoint, read_joint
from logbook.publish.release.released import Released
from logbook.records.kinds.assembling import Joint, Step
from logbook.records.kinds.made_public import Statement
from logbook.records.kinds.words import Source
from logbook.records.states.statements import Form


@dataclass(frozen=True, slots=True)
class StepJoint:
    """A joint as its text says it, and the id of the step it is made in."""

    said: SaidJoint
    step: str


def step_joints(released: Released) -> tuple[StepJoint, ...]:
    """Give the joints of a release that are made in one of its steps, in order."""
    steps = {one.of.id for one in released.of(Form.STEP)}
    found = []
    for statement in released.of(Form.JOINT):
        step = _step(released, statement)
        if step is not None and step.id in steps:
            found.append(StepJoint(read_joint(statement.says), step.id))
    return tuple(found)


def _step(released: Released, statement: Statement) -> Step | None:
    joint = released.snapshot.find(statement.of, Joint)
    return released.snapshot.find(joint.step, Step) if joint else None


def fastened(said: SaidJoint) -> str:
    """Say the fasteners of a joint with what a hand at work needs of it."""
    number = f"{said.number} × " if said.number else ""
    drill = f", tap drill {said.tap_drill}" if said.tap_drill else ""
    tight = said.torque or "nobody has said"
    return f"{number}{said.fastener} ({said.title}){drill}, how tight: {tight}"


def laid_in(
    joints: tuple[StepJoint, ...], lines: dict[str, Listed]
) -> Iterator[tuple[str, int]]:
    """Give what is bought and lies in joints, as washers do, with how many of it."""
    for name, line in lines.items():
        if line.part is None or line.said.source is not Source.BOUGHT or line.dropped:
            continue
        count = sum(
            int(one.said.number or 1) * is_layer(layer, line.part.title)
            for one in joints
            for layer in one.said.layers.split(", ")
        )
        if count:
            yield name, count


def joined(joints: tuple[StepJoint, ...], lines: dict[str, Listed]) -> Iterator[str]:
    """Name the parts of the list that joints go through."""
    layers = [layer for one in joints for layer in one.said.layers.split(", ")]
    for name, line in lines.items():
        title = line.part.title if line.part else name
        if any(is_layer(layer, title) for layer in layers):
            yield name
