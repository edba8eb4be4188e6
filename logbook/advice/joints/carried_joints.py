"""Joints that a release carries whose screw does not reach as drawn."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.ground.advice import Advice
from logbook.advice.ground.register import Register, View
from logbook.advice.joints.joints import joint_advice
from logbook.records.kinds.assembling import Joint
from logbook.records.kinds.words import Grade
from logbook.records.together.snapshot import Snapshot


def joints_in_doubt(snapshot: Snapshot) -> Iterator[str]:
    """Say of each joint that is to be checked, as drawn, why: its guide will say it."""
    joints = snapshot.all(Joint)
    if not joints:
        return
    register = Register()
    register.update(snapshot)
    view = View(register)
    for joint in joints:
        for one in joint_advice(view, joint, drawn=True):
            if isinstance(one, Advice) and one.grade is not Grade.REMARK:
                yield f"joint {one.statement}"
