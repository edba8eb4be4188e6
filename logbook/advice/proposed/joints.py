"""Joints worth completing: their layers and nut filled in, the rest asked.

The layers' thicknesses come from the parts and their stock; nuts of one thread
differ by more than a pitch, so the one taken for it is said by its standard and
asked about, never put in silently.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from logbook.advice.joints.joint_words import (
    BUYS,
    SPLIT,
    TAPPED,
    cuts,
    nut_in,
    said_unknown,
    thickness,
)
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.errors import BadInput
from logbook.quantity import Absent, parse_quantity
from logbook.records.kinds.assembling import Joint, Layer
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Reading, Run
from logbook.records.kinds.ids import new_id
from logbook.records.making.drafts import Draft
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot
from logbook.shop.fastening.screws import is_screw, nut, read_screw

_UNKNOWN = frozenset({"not measured", "not known", "unknown", "?"})
_ACCEPTS = (
    "“yes”, or what is so: the nut (plain, thin, self-locking, thin self-locking, "
    "DIN 985), “thread 8 mm” without one, a thickness as “base 2.0”, “not measured”"
)


@dataclass(frozen=True, slots=True)
class _Plan:
    """A joint as it could be filled in: its layers, its nut, what is not known."""

    joint: Joint
    unknown: tuple[str, ...] = ()


def joints(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose to complete each joint of which something is open."""
    for joint in snapshot.all(Joint):
        if is_screw(joint.fastener) and not _complete(snapshot, joint):
            yield _completing(snapshot, _plan(snapshot, joint))


def _complete(snapshot: Snapshot, joint: Joint) -> bool:
    """Tell whether nothing of a joint is open, or said not to be measured."""
    held = bool(joint.nut or joint.thread_depth)
    return held and all(
        layer.thickness is not None or said_unknown(snapshot, layer.part)
        for layer in joint.layers
    )


def _plan(snapshot: Snapshot, joint: Joint) -> _Plan:
    layers, unknown = [], []
    for layer in joint.layers:
        thick = layer.thickness or thickness(snapshot, layer.part, joint.fastener)
        if thick is None and not said_unknown(snapshot, layer.part):
            unknown.append(layer.part.name)
        layers.append(replace(layer, thickness=thick))
    held = joint.nut or nut_in(joint.title)
    return _Plan(replace(joint, layers=tuple(layers), nut=held), tuple(unknown))


# -- asking and answering ------------------------------------------------------------


def _completing(snapshot: Snapshot, plan: _Plan) -> Proposal:
    joint = plan.joint

    def take(draft: Draft, answer: str) -> None:
        draft.amend(_answered(draft, plan, answer))

    return Proposal(
        key=f"joint {joint.id}",
        topic="joint",
        about=joint.ref,
        question=_question(snapshot, plan),
        buys=BUYS,
        accepts=_ACCEPTS,
        inputs=(joint.ref, *(layer.part for layer in joint.layers)),
        take=take,
    )


def _question(snapshot: Snapshot, plan: _Plan) -> str:
    joint = plan.joint
    through = ", ".join(_shown(snapshot, layer) for layer in joint.layers)
    head = f"{joint.fastener} through {through or 'what'}"
    if _has_twin(snapshot, joint):
        head = f"{joint.title}: {head}"
    asks = []
    if joint.nut:
        head += f", {_nut_shown(joint)}"
    elif joint.thread_depth is None:
        asks.append("which nut holds it, or a thread how deep")
    if plan.unknown:
        asks.append(f"how thick is {' and '.join(plan.unknown)}")
    return f"{head} — {' and '.join(asks) if asks else 'is that the joint'}?"


def _has_twin(snapshot: Snapshot, joint: Joint) -> bool:
    """Tell whether another joint has the same screw through the same parts."""
    through = [layer.part.id for layer in joint.layers]
    return any(
        one.id != joint.id
        and one.fastener == joint.fastener
        and [layer.part.id for layer in one.layers] == through
        for one in snapshot.all(Joint)
    )


def _shown(snapshot: Snapshot, layer: Layer) -> str:
    part = snapshot.find(layer.part, Part)
    name = part.title if part else layer.part.name
    return f"{name} {layer.thickness or '(thickness not known)'}"


def _nut_shown(joint: Joint) -> str:
    """Say the nut by the standard it is taken for, with its greatest height."""
    try:
        held = nut(read_screw(joint.fastener).size, joint.nut)
    except BadInput:
        return f"nut {joint.nut}"
    return f"{held.title}, up to {held.high:g} mm high"


def _answered(draft: Draft, plan: _Plan, answer: str) -> Joint:
    """Give the joint with what the answer says; what it leaves open stays open."""
    joint = plan.joint
    for piece in filter(None, (one.strip() for one in SPLIT.split(answer))):
        if is_yes(piece):
            continue
        if folded(piece) in _UNKNOWN:
            _not_measured(draft, plan)
        elif match := TAPPED.match(piece):
            deep = parse_quantity(match["deep"], draft.snapshot.project.unit)
            joint = replace(joint, thread_depth=deep, nut="")
        elif held := nut_in(piece):
            nut(read_screw(joint.fastener).size, held)
            joint = replace(joint, nut=held)
        else:
            joint = replace(joint, layers=_thicker(draft, joint, piece, plan.unknown))
    return joint


def _thicker(
    draft: Draft, joint: Joint, piece: str, unknown: Sequence[str]
) -> tuple[Layer, ...]:
    """Put a thickness into its layer: “base 2.0”, or “2.0” where one is open."""
    name, _, size = piece.rpartition(" ")
    for words, text in ((name, size), *cuts(piece)):
        try:
            thick = parse_quantity(text, draft.snapshot.project.unit)
        except BadInput:
            continue
        meant = folded(words) or (folded(unknown[0]) if len(unknown) == 1 else "")
        layers = tuple(
            replace(one, thickness=thick) if folded(one.part.name) == meant else one
            for one in joint.layers
        )
        if layers != joint.layers and thick.dimension == "length":
            return layers
    raise not_accepted("the joint", piece, _ACCEPTS)


def _not_measured(draft: Draft, plan: _Plan) -> None:
    """Say of each thickness that is open that nobody has measured it."""
    for name in plan.unknown:
        part = draft.part(name)
        what = draft.characteristic(part, "thickness")
        draft.add(
            Run(
                id=new_id(),
                title=f"{part.title} thickness: not measured",
                when=draft.when,
                build=draft.build().ref,
                part=part.ref,
                readings=(
                    Reading(
                        id=new_id(),
                        at=draft.when,
                        what=what.ref,
                        value=Absent.NOT_MEASURED,
                    ),
                ),
            )
        )
