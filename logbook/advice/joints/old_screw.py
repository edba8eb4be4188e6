"""Where a step and the parts list keep the screw that a joint took before.

Who builds it screws by the step and buys by the list; neither follows the joint.
"""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator

from logbook.advice.joints.unlisted_joints import has, spelt
from logbook.records.kinds.assembling import Joint, Line, Step
from logbook.records.kinds.design import Part
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot

_SCREW = re.compile(r"\bm\d+(?:[.,]\d+)?x\d")


def old_screws(draft: Draft) -> Iterator[str]:
    """Say of each drafted joint with another screw what goes on with the one before."""
    snapshot = draft.snapshot
    for joint in draft.amended:
        before = snapshot.by_id(joint.id, Joint)
        if not isinstance(joint, Joint) or before is None:
            continue
        if spelt(before.fastener) != spelt(joint.fastener):
            yield from _keeping(snapshot, before, joint)


def _keeping(snapshot: Snapshot, before: Joint, now: Joint) -> Iterator[str]:
    others = [one for one in snapshot.all(Joint) if one.id != now.id]
    taken = {spelt(one.fastener) for one in others}
    for part in snapshot.all(Part):
        called = spelt(part.title)
        if not _SCREW.search(called) or not has(called, before.fastener):
            continue
        for step in snapshot.mentions(part, Step):
            if now.step is None or now.step.id == step.id:
                yield _of_step(snapshot, step, part, now)
        if spelt(before.fastener) not in taken:
            yield from _of_list(snapshot, part, now)


def _of_step(snapshot: Snapshot, step: Step, part: Part, now: Joint) -> str:
    """Say that a step takes the old screw, and what puts that right."""
    known = (one.title for one in snapshot.all(Part))
    new = next((one for one in known if has(spelt(one), now.fastener)), now.fastener)
    uses = [new if one.id == part.id else one.name for one in step.uses]
    told = " ".join(f"--uses {shlex.quote(one)}" for one in dict.fromkeys(uses))
    return (
        f"“{step.title}” still takes {part.title}; if it takes {now.fastener} now: "
        f"logbook step {shlex.quote(step.title)} {told}"
    )


def _of_list(snapshot: Snapshot, part: Part, now: Joint) -> Iterator[str]:
    """Say that the list has the old screw, which no joint takes any more."""
    for line in snapshot.mentions(part, Line):
        if line.part.id == part.id and line.quantity > 0:
            name = shlex.quote(part.title)
            yield (
                f"the list still has {line.quantity} × {part.title}, which no joint "
                f"takes now: logbook line {name} 0, and logbook line "
                f"{shlex.quote(now.fastener)} {now.quantity} if it lacks them"
            )
