"""Joints worth completing or beginning, from a fastener that an entry names.

The layers' thicknesses come from the parts and their stock; nuts of one thread
differ by more than a pitch, so the one taken for it is said by its standard and
asked about, never put in silently.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from logbook.advice.proposal import Proposal, is_yes, not_accepted
from logbook.errors import BadInput
from logbook.quantity import Absent, Quantity, parse_quantity
from logbook.records.ids import Ref, new_id
from logbook.records.making import Draft
from logbook.records.model import (
    Characteristic,
    Joint,
    Layer,
    Part,
    Reading,
    Run,
    StepDone,
    Stock,
)
from logbook.records.snapshot import Snapshot, folded
from logbook.records.state import characteristics_of, current_revision, dimension
from logbook.shop.screws import nut, read_screw, washer

_THREAD = re.compile(r"\bM\d+(?:[.,]\d+)?\s*[x×]\s*\d+(?:[.,]\d+)?\b", re.IGNORECASE)
_SPLIT = re.compile(r"\s*[,;]\s*|\s+and\s+")
_OTHER_NUT = re.compile(r"(?i)\b(?:rivet|wing|square|cage|t|insert|weld)[\s-]*nuts?\b")
_NUTS: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern, re.IGNORECASE), name)
    for pattern, name in (
        (r"\b(thin|low)\b.*\b(self[\s-]?locking|lock[\s-]?nut)", "thin self-locking"),
        (r"\b(self[\s-]?locking|lock[\s-]?nut)", "self-locking"),
        (r"\b(thin|jam)\s+nut|^(thin|jam)$", "thin"),
        (r"\bnuts?\b|^plain$", "plain"),
    )
)
_NAMED = re.compile(r"(?i)\b(iso|din)[\s-]*(\d{3,5})\b")
_TAPPED = re.compile(r"(?i)^(?:thread(?:ed)?|tapped)\b\D*(?P<deep>\d.*)$")
_UNKNOWN = frozenset({"not measured", "not known", "unknown", "?"})
_ACCEPTS = (
    "“yes”, or what is so: the nut (plain, thin, self-locking, thin self-locking, "
    "DIN 985), “thread 8 mm” without one, a thickness as “base 2.0”, “not measured”"
)
_BUYS = "its length is checked in the worst case, and the guide lists the joint"


@dataclass(frozen=True, slots=True)
class _Plan:
    """A joint as it could be filled in: its layers, its nut, what is not known."""

    joint: Joint
    unknown: tuple[str, ...] = ()


def joints(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose to complete joints, to follow what was fitted, and to begin one."""
    for joint in snapshot.all(Joint):
        if _readable(joint.fastener) and not _complete(snapshot, joint):
            yield _completing(snapshot, _plan(snapshot, joint))
    yield from _as_fitted(snapshot)


def _readable(fastener: str) -> bool:
    try:
        read_screw(fastener)
    except BadInput:
        return False
    return True


def _complete(snapshot: Snapshot, joint: Joint) -> bool:
    """Tell whether nothing of a joint is open, or said not to be measured."""
    held = bool(joint.nut or joint.thread_depth)
    return held and all(
        layer.thickness is not None or _said_unknown(snapshot, layer.part)
        for layer in joint.layers
    )


# -- what is known -------------------------------------------------------------------


def _plan(snapshot: Snapshot, joint: Joint) -> _Plan:
    layers, unknown = [], []
    for layer in joint.layers:
        thick = layer.thickness or _thickness(snapshot, layer.part, joint.fastener)
        if thick is None and not _said_unknown(snapshot, layer.part):
            unknown.append(layer.part.name)
        layers.append(replace(layer, thickness=thick))
    held = joint.nut or _nut_in(joint.title)
    return _Plan(replace(joint, layers=tuple(layers), nut=held), tuple(unknown))


def _thickness(snapshot: Snapshot, ref: Ref, fastener: str) -> Quantity | None:
    """Give how thick a part is: as drawn, as measured, else by its stock."""
    part = snapshot.find(ref, Part)
    if part is None:
        return None
    if part.thickness is not None:
        return part.thickness
    what = _thickness_of(snapshot, part)
    if what is not None:
        drawn = dimension(snapshot, current_revision(snapshot, part), what)
        if drawn.nominal is not None:
            return drawn.nominal
        if read := _read(snapshot, what):
            return read
    stock = snapshot.find(part.stock, Stock)
    bought = (stock.measured or stock.bought_as) if stock else None
    if bought is not None and bought.dimension == "length":
        return bought
    if folded(part.title) == "washer":
        thick = washer(read_screw(fastener).size, "iso7089").thick
        return parse_quantity(f"{thick:g} mm")
    return None


def _thickness_of(snapshot: Snapshot, part: Part) -> Characteristic | None:
    every = characteristics_of(snapshot, part)
    return next((one for one in every if folded(one.title) == "thickness"), None)


def _read(snapshot: Snapshot, what: Characteristic) -> Quantity | None:
    """Give the newest thickness read."""
    for run in reversed(snapshot.all(Run)):
        for reading in reversed(run.readings):
            if reading.what.id == what.id and isinstance(reading.value, Quantity):
                return reading.value
    return None


def _said_unknown(snapshot: Snapshot, ref: Ref) -> bool:
    """Tell whether somebody said that the thickness of a part is not measured."""
    part = snapshot.find(ref, Part)
    what = _thickness_of(snapshot, part) if part else None
    return what is not None and any(
        reading.what.id == what.id and isinstance(reading.value, Absent)
        for run in snapshot.all(Run)
        for reading in run.readings
    )


def _nut_in(text: str) -> str:
    """Give the nut some words mean, empty where none is sure."""
    if _OTHER_NUT.search(text):
        return ""
    if named := _NAMED.search(text):
        return f"{named[1].upper()} {named[2]}"
    return next((name for words, name in _NUTS if words.search(text)), "")


# -- completing a joint --------------------------------------------------------------


def _completing(snapshot: Snapshot, plan: _Plan) -> Proposal:
    joint = plan.joint

    def take(draft: Draft, answer: str) -> None:
        draft.amend(_answered(draft, plan, answer))

    return Proposal(
        key=f"joint {joint.id}",
        topic="joint",
        about=joint.ref,
        question=_question(snapshot, plan),
        buys=_BUYS,
        accepts=_ACCEPTS,
        inputs=(joint.ref, *(layer.part for layer in joint.layers)),
        take=take,
    )


def _question(snapshot: Snapshot, plan: _Plan) -> str:
    joint = plan.joint
    through = ", ".join(_shown(snapshot, layer) for layer in joint.layers)
    head = f"{joint.fastener} through {through or 'what'}"
    asks = []
    if joint.nut:
        head += f", {_nut_shown(joint)}"
    elif joint.thread_depth is None:
        asks.append("which nut holds it, or a thread how deep")
    if plan.unknown:
        asks.append(f"how thick is {' and '.join(plan.unknown)}")
    return f"{head} — {' and '.join(asks) if asks else 'is that the joint'}?"


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
    for piece in filter(None, (one.strip() for one in _SPLIT.split(answer))):
        if is_yes(piece):
            continue
        if folded(piece) in _UNKNOWN:
            _not_measured(draft, plan)
        elif match := _TAPPED.match(piece):
            deep = parse_quantity(match["deep"], draft.snapshot.project.unit)
            joint = replace(joint, thread_depth=deep, nut="")
        elif held := _nut_in(piece):
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
    for words, text in ((name, size), *_cut(piece)):
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


def _cut(piece: str) -> Iterator[tuple[str, str]]:
    """Give each way to cut “collar 1/4 in” into a name and a size."""
    words = piece.split()
    for at in range(len(words)):
        yield " ".join(words[:at]), " ".join(words[at:])


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


# -- following what was fitted -------------------------------------------------------


def _as_fitted(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose what the newest fitting of each part with a named fastener shows."""
    newest: dict[str, tuple[StepDone, Part, str]] = {}
    for done in snapshot.all(StepDone):
        part = snapshot.find(done.part, Part)
        threads = {_plain(one) for one in _THREAD.findall(done.title)}
        if part is not None and len(threads) == 1 and not done.undone:
            newest[part.id] = (done, part, threads.pop())
    for done, part, fastener in newest.values():
        if not _readable(fastener):
            continue
        held = [
            joint
            for joint in snapshot.all(Joint)
            if any(snapshot.find(layer.part) is part for layer in joint.layers)
        ]
        if not held:
            yield _beginning(done, part, fastener)
        elif len(held) == 1 and _plain(held[0].fastener) != fastener:
            yield _following(done, held[0], fastener)


def _plain(fastener: str) -> str:
    """Give a screw as joints have it: M4x20."""
    return re.sub(r"\s*[x×X]\s*", "x", fastener.strip()).replace("m", "M")


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
        buys=_BUYS,
        accepts=accepts,
        inputs=(done.ref, part.ref),
        take=take,
    )


def _begun(draft: Draft, part: Part, fastener: str, answer: str, accepts: str) -> Joint:
    """Make a joint of layers and a nut, as answered; the part itself is one of them."""
    layers: list[Layer] = []
    joint = Joint(id=new_id(), title="", when=draft.when, fastener=fastener)
    for piece in filter(None, (one.strip() for one in _SPLIT.split(answer))):
        if match := _TAPPED.match(piece):
            deep = parse_quantity(match["deep"], draft.snapshot.project.unit)
            joint = replace(joint, thread_depth=deep)
        elif held := _nut_in(piece):
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
            thickness=one.thickness or _thickness(draft.snapshot, one.part, fastener),
        )
        for one in layers
    )
    title = f"{filled[0].part.name} to {filled[-1].part.name}"
    return replace(joint, title=f"{title}, {fastener}", layers=filled)


def _named_layer(draft: Draft, piece: str, accepts: str) -> Layer:
    for name, size in (*_cut(piece), (piece, "")):
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
