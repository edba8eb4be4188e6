"""What every piece of advice of a joint begins with."""

from __future__ import annotations

from logbook.advice.ground.advice import Advice
from logbook.records.kinds.assembling import Joint
from logbook.records.kinds.words import Grade

SCREW_LENGTH = "ISO 4759-1 (screw length)"
"""The source of how much shorter or longer than its name a screw may be."""


def of_joint(joint: Joint, said: str, grade: Grade, which: str = "") -> Advice:
    """Begin advice of a joint, led by its name, at the step that makes it.

    `which` sets it apart from what else is said of the joint.
    """
    return Advice(
        key=f"joint {joint.id} {which}".rstrip(),
        topic="joints",
        grade=grade,
        about=joint.ref,
        statement=f"{joint.title}: {said}",
        step=joint.step,
    )
