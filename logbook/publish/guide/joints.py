"""The joints of a release: as they were released, and what they come to as drawn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from logbook.publish.guide.joint_checks import NOT_KNOWN, JointChecks, as_released
from logbook.publish.release.readback import read_joint
from logbook.publish.release.released import Mark, Released
from logbook.records.kinds import assembling
from logbook.records.states.statements import Form


@dataclass(frozen=True, slots=True)
class JointView:
    """A joint as released, and what it comes to as drawn."""

    name: str
    fastener: str
    layers: str
    tap_drill: str
    torque: str
    check: str
    marks: tuple[Mark, ...]


def joints(released: Released) -> Iterator[JointView]:
    """Give the joints in the order of the release."""
    checks = JointChecks(released.snapshot)
    for statement in released.of(Form.JOINT):
        said = read_joint(statement.says)
        now = released.live(statement)
        known = released.snapshot.find(statement.of, assembling.Joint)
        joint = now if isinstance(now, assembling.Joint) else None
        if known and joint is None:
            joint = as_released(known.id, said)
        yield JointView(
            name=said.title,
            fastener=f"{said.number} × {said.fastener}".removeprefix(" × "),
            layers=said.layers,
            tap_drill=said.tap_drill,
            torque=said.torque,
            check=checks.words(joint) if joint else NOT_KNOWN,
            marks=released.marked(statement.id),
        )
