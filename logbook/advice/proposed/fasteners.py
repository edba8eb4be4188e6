"""Joints as they were really fitted: one that says otherwise, or one not on record."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.joints.joint_words import (
    BUYS,
    SPLIT,
    TAPPED,
    THREAD,
    cuts,
    nut_in,
    plain_screw,
    thickness,
)
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.errors import BadInput
from logbook.quantity import parse_quantity
from logbook.records.kinds.assembling import Joint, Layer
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import StepDone
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from logbook.shop.fastening.screws import is_screw


def as_fitted(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose what the newest fitting of each part with a named fastener shows.

    What was fitted by an older release says nothing of how the joint is drawn by now.
    """
    newest: dict[str, tuple[StepDone, Part, str]] = {}
    for done in snapshot.all(StepDone):
        part = snapshot.find(done.part, Part)
        threads = {plain_screw(one) for one in THREAD.findall(done.title)}
        told = part is not None and len(threads) == 1 and not done.undone
        if told and part is not None and not _by_an_older(snapshot, done):
            newest[part.id] = (done, part, threads.pop())
    for done, part, fastener in newest.values():
        if not is_screw(fastener):
            continue
        held = [
            joint
            for joint in snapshot.all(Joint)
            if any(snapshot.find(layer.part) is part for layer in joint.layers)
        ]
        if not held:
            yield _beginning(done, part, fastener)
        elif len(held) == 1 and plain_screw(held[0].fastener) != fastener:
            yield _following(done, held[0], fastener)


def _by_an_older(snapshot: Snapshot, done: StepDone) -> bool:
    """Tell whether it was done in a build by a release that has a newer one."""
    build = snapshot.find(done.build, Build)
    release = snapshot.find(build.release, Release) if build else None
    return release is not None and any(
        one.when > release.when for one in snapshot.all(Release)
    )


def _following(done: StepDone, joint: Joint, fastener: str) -> Proposal:
    accepts = "“yes”"

    def take(draft: Draft, answer: str) -> None:
        if not is_yes(answer):
            raise not_accepted(joint.title, answer, accepts)
        draft.amend(replace(joint, fastener=fastener))

    return Proposal(
        key=f"fitted {done.id} {joint.id}",
        topic="joint",
        about=joint.ref,
        question=(
            f"{fastener} was fitted: should the joint “{joint.title}” say so instead "
            f"of {joint.fastener}?"
        ),
        buys="guide and length check follow what was really fitted",
        accepts=accepts,
        inputs=(done.ref, joint.ref),
        take=take,
    )


def _beginning(done: StepDone, part: Part, fastener: str) -> Proposal:
    accepts = (
        "the layers from the head on and the nut, as "
        f"“{part.title} 6.0, base 2.0, thin self-locking”"
    )

    def take(draft: Draft, answer: str) -> None:
        joint = _begun(draft, part, fastener, answer, accepts)
        draft.add(replace(joint, step=done.step))

    return Proposal(
        key=f"begin {done.id}",
        topic="joint",
        about=done.ref,
        question=(
            f"what does {fastener} go through beside the {part.title}, and which nut "
            "holds it?"
        ),
        buys=BUYS,
        accepts=accepts,
        inputs=(done.ref, part.ref),
        take=take,
    )


def _begun(draft: Draft, part: Part, fastener: str, answer: str, accepts: str) -> Joint:
    """Make a joint of layers and a nut, as answered; the part itself is one of them."""
    layers: list[Layer] = []
    joint = Joint(id=new_id(), title="", when=draft.when, fastener=fastener)
    for piece in filter(None, (one.strip() for one in SPLIT.split(answer))):
        if match := TAPPED.match(piece):
            deep = parse_quantity(match["deep"], draft.snapshot.project.unit)
            joint = replace(joint, thread_depth=deep)
        elif held := nut_in(piece):
            joint = replace(joint, nut=held)
        else:
            layers.append(_named_layer(draft, piece, accepts))
    if not layers:
        raise not_accepted("the joint", answer, accepts)
    if all(layer.part.id != part.id for layer in layers):
        layers.insert(0, Layer(part=part.ref))
    filled = tuple(
        replace(
            one,
            thickness=one.thickness or thickness(draft.snapshot, one.part, fastener),
        )
        for one in layers
    )
    title = f"{filled[0].part.name} to {filled[-1].part.name}"
    return replace(joint, title=f"{title}, {fastener}", layers=filled)


def _named_layer(draft: Draft, piece: str, accepts: str) -> Layer:
    for name, size in (*cuts(piece), (piece, "")):
        known = draft.snapshot.named(name, Part) if name else ()
        if len(known) != 1:
            continue
        if not size:
            return Layer(part=known[0].ref)
        try:
            thick = parse_quantity(size, draft.snapshot.project.unit)
        except BadInput:
            continue
        return Layer(part=known[0].ref, thickness=thick)
    raise not_accepted("the joint", piece, accepts)
