"""What each joint comes to in the worst case, with what was found on the bench."""

from __future__ import annotations

from dataclasses import dataclass

from logbook.advice.ground.advice import Advice
from logbook.advice.ground.register import Register, View
from logbook.advice.joints.joints import joint_advice
from logbook.records.kinds.assembling import Joint
from logbook.records.together.snapshot import Snapshot
from logbook.shop.answers import Result


@dataclass(frozen=True, slots=True)
class JointTold:
    """One finding on a joint: what it says, its figures, what it rests on."""

    says: str
    figures: tuple[str, ...]
    rests_on: tuple[str, ...]


def joints_told(snapshot: Snapshot) -> tuple[JointTold, ...]:
    """Give the findings on every joint that can be worked out."""
    register = Register()
    register.update(snapshot)
    view = View(register)
    return tuple(
        JointTold(
            found.statement,
            tuple(_figure(one) for one in found.numbers),
            (*found.assumed, *found.sources),
        )
        for joint in snapshot.all(Joint)
        for found in joint_advice(view, joint)
        if isinstance(found, Advice)
    )


def _figure(one: Result) -> str:
    value = f"{one.value:.{one.places}f}" if isinstance(one.value, float) else one.value
    size = f"{value} {one.unit}".rstrip()
    return f"{one.name} {size} ({one.meaning})" if one.meaning else f"{one.name} {size}"
