"""What is set for an operation: a torque for its joint, a tap drill for its step.

Told of one build it stays in its diary; on the joint or the step everybody has it
at hand before the screw is turned.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from logbook.advice.ground.in_words import part_told, step_for
from logbook.advice.joints.tapped import drilled_for
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.assembling import Joint, Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Entry, Failure, Note, StepDone
from logbook.records.making.drafts import Draft
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot

_UNIT = r"(?:N\s*[·.*]?\s*c?m|lbf?[\s·.-]*(?:in|ft)|in[\s·.-]*lbf?|ft[\s·.-]*lbf?)\b"
_TORQUE = re.compile(rf"(?i)(?<![\d.,])(?P<value>\d+(?:[.,]\d+)?)\s*(?P<unit>{_UNIT})")
_BAD = (
    r"(?:strip|spin|spun|spins|crack|break|broke|shear|pull|"
    r"snap|bend|yield|tear|tore|crush|mark)\w*|(?:is|was) too (?:much|tight)"
)
_TOO_MUCH = re.compile(
    rf"(?i)(?<![\d.,])(?P<value>\d+(?:[.,]\d+)?)\s*(?P<unit>{_UNIT})?\s+"
    rf"(?P<then>(?:already\s+)?(?:{_BAD})[^,;.]*)"
)
_BROKE_AT = re.compile(
    rf"(?i)\b(?P<then>(?:{_BAD})[^,;.\d]*?)\s+(?:at|with|by)\s+"
    rf"(?P<value>\d+(?:[.,]\d+)?)\s*(?P<unit>{_UNIT})"
)
_BAD_AT = re.compile(
    rf"(?i)\b(?:at|from|above|over|beyond|with)\s+(?P<value>\d+(?:[.,]\d+)?)\s*"
    rf"(?P<unit>{_UNIT})\s+(?:on\s+)?(?P<then>(?:(?:the|it)\s+)?(?:\w+\s+){{0,2}}"
    rf"(?:{_BAD})[^,;.]*)"
)
_BY_FEEL = re.compile(
    r"(?i)^(?:always\s+|only\s+)?tighten(?:ed)?\b.*\b(?:by hand|hand[- ]tight|"
    r"finger[- ]tight|turns?|crosswise|in turn|evenly|loosely|until)\b"
)
_TIGHT = re.compile(r"(?i)\b(?:tight\w*|torqu\w*|holds?|screwed|done up)\b")
_THREAD = re.compile(r"\bM\d+(?:\.\d+)?(?:\s*[x×]\s*\d+(?:\.\d+)?)?\b")
_ACCEPTS_TORQUE = "“yes”, or the torque, as “0.4 N·m”"
_ACCEPTS_DRILL = "“yes”, or the drill, as “2.5 mm”"


@dataclass(frozen=True, slots=True)
class _Torque:
    """A torque that held, and what came of more, in words."""

    value: Quantity
    too_much: str


def set_values(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose torques to their joint, or its step, and tap drills likewise."""
    told: tuple[Entry, ...] = (
        *snapshot.all(StepDone), *snapshot.all(Note), *snapshot.all(Failure),
    )  # fmt: skip
    for entry in told:
        if isinstance(entry, StepDone) and entry.undone:
            continue
        if (torque := _torque(entry.title)) is not None:
            yield from _for_torque(snapshot, entry, torque)
        elif not isinstance(entry, Failure) and _BY_FEEL.match(entry.title):
            yield from _for_feel(snapshot, entry)
        elif not isinstance(entry, Failure) and (found := drilled_for(entry.title)):
            yield from _for_drill(snapshot, entry, *found)


# -- torques -------------------------------------------------------------------------


def _torque(title: str) -> _Torque | None:
    """Give the torque that words say holds; none where they only tell what broke."""
    over = _TOO_MUCH.search(title) or _BAD_AT.search(title) or _BROKE_AT.search(title)
    spans = [over.span("value")] if over else []
    good = [one for one in _TORQUE.finditer(title) if one.span("value") not in spans]
    if len(good) != 1 or not (_TIGHT.search(title) or over):
        return None
    try:
        value = parse_quantity(f"{good[0]['value']} {_unit(good[0]['unit'])}")
        more = (
            parse_quantity(f"{over['value']} {_unit(over['unit'] or good[0]['unit'])}")
            if over
            else None
        )
    except BadInput:
        return None
    if over is None or more is None:
        return _Torque(value, "")
    said = over["then"].strip()
    return _Torque(value, f"{more}: {said}" if more.to("N·m") > value.to("N·m") else "")


def _unit(typed: str) -> str:
    low = re.sub(r"[\s·.*-]|(?<=lb)f", "", typed.casefold())
    return {
        "nm": "N·m", "ncm": "N·cm", "lbin": "lbf·in", "inlb": "lbf·in",
        "lbft": "lbf·ft", "ftlb": "lbf·ft",
    }.get(low, typed)  # fmt: skip


def _for_torque(
    snapshot: Snapshot, entry: Entry, torque: _Torque
) -> Iterator[Proposal]:
    part = part_told(snapshot, entry)
    joint = _joint(snapshot, entry.title, part)
    if joint is not None:
        if joint.torque is None:
            yield _asked_torque(entry, joint, torque)
        return
    step = step_for(snapshot, part, entry.title)
    said = f"tighten to {torque.value}"
    said += f" ({torque.too_much})" if torque.too_much else ""
    if step is not None and not any("tighten" in one for one in step.set_to):
        yield _asked_step(entry, step, said, _ACCEPTS_TORQUE, "tighten to")


def _for_feel(snapshot: Snapshot, entry: Entry) -> Iterator[Proposal]:
    """Offer its step what is told without a torque: hand tight, a quarter turn."""
    step = step_for(snapshot, part_told(snapshot, entry), entry.title)
    if step is not None and not any("tighten" in one for one in step.set_to):
        said = re.sub(
            r"(?i)^(?:always\s+|only\s+)?tighten(?:ed)?", "tighten", entry.title
        )
        yield _asked_step(entry, step, said, _ACCEPTS_TORQUE, "tighten")


def _joint(snapshot: Snapshot, title: str, part: Part | None) -> Joint | None:
    """Give the one joint that words name by its name, its screw, or its part."""
    every = snapshot.all(Joint)
    words = title.casefold()
    screw = _THREAD.search(title)
    for few in (
        [one for one in every if one.title.casefold() in words],
        [one for one in every if screw and folded(screw[0]) == folded(one.fastener)],
        [
            one
            for one in every
            if part and any(snapshot.find(layer.part) is part for layer in one.layers)
        ],
    ):
        if len(few) == 1:
            return few[0]
        if few:
            named = [one for one in few if _first_layer(snapshot, one) is part]
            return named[0] if len(named) == 1 else None
    return None


def _first_layer(snapshot: Snapshot, joint: Joint) -> Part | None:
    """Give the part that a joint fastens: the first layer that is no washer."""
    for layer in joint.layers:
        if layer.role == "stock" and "washer" not in layer.part.name:
            return snapshot.find(layer.part, Part)
    return None


def _asked_torque(entry: Entry, joint: Joint, torque: _Torque) -> Proposal:
    def take(draft: Draft, answer: str) -> None:
        value = torque.value if is_yes(answer) else _parsed(answer, _ACCEPTS_TORQUE)
        if value.dimension != "torque":
            raise not_accepted("a torque", answer, _ACCEPTS_TORQUE)
        came = joint.torque_result or torque.too_much
        draft.amend(replace(joint, torque=value, torque_result=came))

    but = f" ({torque.too_much})" if torque.too_much else ""
    return Proposal(
        key=f"torque {entry.id}",
        topic="joint",
        about=entry.ref,
        question=f"is {joint.title} tightened to {torque.value}{but}?",
        buys="the guide says how tight, at the joint and at its step",
        accepts=_ACCEPTS_TORQUE,
        inputs=(entry.ref, joint.ref),
        take=take,
    )


# -- tap drills ----------------------------------------------------------------------


def _for_drill(
    snapshot: Snapshot, entry: Entry, thread: str, drill: Quantity
) -> Iterator[Proposal]:
    part = part_told(snapshot, entry)
    if part is None:
        return
    tapped = [
        one
        for one in snapshot.all(Joint)
        if one.thread_depth is not None
        and re.split(r"[x×]", one.fastener)[0].strip() == thread
        and any(snapshot.find(layer.part) is part for layer in one.layers)
    ]
    if len(tapped) == 1:
        if tapped[0].tap_drill is None:
            yield _asked_drill(entry, tapped[0], thread, drill)
        return
    step = step_for(snapshot, part, entry.title)
    said = f"tap drill {drill} for {thread}"
    if step is not None and not any("tap drill" in one for one in step.set_to):
        yield _asked_step(entry, step, said, _ACCEPTS_DRILL, "tap drill")


def _asked_drill(entry: Entry, joint: Joint, thread: str, drill: Quantity) -> Proposal:
    def take(draft: Draft, answer: str) -> None:
        value = drill if is_yes(answer) else _parsed(answer, _ACCEPTS_DRILL)
        draft.amend(replace(joint, tap_drill=value))

    return Proposal(
        key=f"tap drill {entry.id}",
        topic="joint",
        about=entry.ref,
        question=f"is {drill} the tap drill for {thread} in {joint.title}?",
        buys="the guide names the drill at the joint, checked against the table",
        accepts=_ACCEPTS_DRILL,
        inputs=(entry.ref, joint.ref),
        take=take,
    )


def _asked_step(
    entry: Entry, step: Step, said: str, accepts: str, word: str
) -> Proposal:
    def take(draft: Draft, answer: str) -> None:
        more = said if is_yes(answer) else answer.strip()
        if not more:
            raise not_accepted("what is set", answer, accepts)
        more = more if word in more else f"{word} {more}"
        draft.amend(replace(step, set_to=(*step.set_to, more)))

    return Proposal(
        key=f"set {entry.id}",
        topic="step",
        about=entry.ref,
        question=f"is that so in “{step.title}” for everybody: {said}?",
        buys="the guide says it at the step",
        accepts=accepts,
        inputs=(entry.ref, step.ref),
        take=take,
    )


def _parsed(answer: str, accepts: str) -> Quantity:
    try:
        return parse_quantity(answer)
    except BadInput as wrong:
        raise not_accepted("a value", answer, accepts) from wrong
