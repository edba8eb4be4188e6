"""A joint with its options: the layers a fastener goes through, head to nut."""

from __future__ import annotations

import argparse
from dataclasses import replace
from typing import Any

from logbook.errors import BadInput
from logbook.plain.stated.order import step_meant
from logbook.plain.stated.part_names import new_part
from logbook.plain.stated.restated import given, without, without_option
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.assembling import Joint, Layer
from logbook.records.making.drafts import Draft
from logbook.records.sizes.limits import parse_drawn

_OF_JOINT = {
    "layer": ("layers",), "head": ("head",), "nut": ("nut", "nut_height"),
    "nut-height": ("nut_height",), "thread-depth": ("thread_depth",),
    "behind": ("room_behind",), "torque": ("torque", "torque_with", "torque_result"),
    "torque-with": ("torque_with",), "torque-result": ("torque_result",),
    "preload": ("preload",), "tap-drill": ("tap_drill",), "step": ("step",),
}  # fmt: skip
"""What may be taken away of a joint: the option that tells it, and its facts."""

_OF_LAYER = {
    "edge": "edge_distance", "hole": "hole", "slot": "slot", "fixed": "fixed",
    "from-fixed": "from_fixed",
}  # fmt: skip
"""What may be taken away of the layers of a joint, and the fact of each."""


def joint_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what a joint is told with."""
    parser.add_argument("name", help="what the joint is called")
    parser.add_argument(
        "fastener",
        nargs="?",
        default="",
        help="as fitted or drawn, M4x16; of a known joint only where it changes",
    )
    parser.add_argument(
        "--layer",
        action="append",
        default=[],
        help="from the head on: collar, or washer=0.8 mm, or collar=6.35 ±0.05",
    )
    parser.add_argument("--head", default="", help="pan, countersunk, cap")
    parser.add_argument("--nut", default="", help="plain, thin self-locking…")
    parser.add_argument("--nut-height", help="of the nut, 5.0 mm")
    parser.add_argument("--thread-depth", help="of a blind thread")
    parser.add_argument("--behind", help="room behind the nut")
    parser.add_argument("--edge", help="hole centre to the nearest edge, 4 mm")
    parser.add_argument("--edge-of", default="", help="the layer that edge belongs to")
    parser.add_argument("--hole", help="width of its hole in a layer, 4.5 mm")
    parser.add_argument("--slot", help="length of the slot, where it is one, 8 mm")
    parser.add_argument("--hole-in", default="", help="the layer that hole is in")
    parser.add_argument(
        "--fixed", action="store_true", help="the round hole that holds a board"
    )
    parser.add_argument(
        "--from-fixed", help="across the grain from the hole that holds it, 100 mm"
    )
    parser.add_argument("--torque", help="as tightened, 1.2 N·m")
    parser.add_argument("--torque-with", default="", help="the tool, torque driver")
    parser.add_argument(
        "--torque-result", default="", help="what came of it, “holds, marks no washer”"
    )
    parser.add_argument("--preload", help="pull in the screw, where known, 800 N")
    parser.add_argument("--tap-drill", help="the drill before the tap, 3.3 mm")
    parser.add_argument("--number", type=int, help="how many of them")
    parser.add_argument("--step", default="", help="the step it is closed in")
    without_option(parser, {**_OF_JOINT, **dict.fromkeys(_OF_LAYER, ())})


def stated_joint(draft: Draft, args: argparse.Namespace) -> Joint:
    """Give the joint, in the draft; one of this name keeps what is not told of it.

    Raises:
        BadInput: a layer or a figure cannot be, or a new joint has no fastener.
        NotFound: the step it is closed in is none.
    """
    snapshot = draft.snapshot
    known = snapshot.named(args.name, Joint)
    if not known and not args.fastener:
        raise BadInput(
            f"the joint “{args.name}” is not on record, and no fastener is told; "
            "accepted: one, M4x16"
        )
    step = step_meant(snapshot, args.step).ref if args.step else None
    told = given(
        fastener=args.fastener,
        head=args.head,
        nut=args.nut,
        nut_height=_optional(draft, args.nut_height),
        thread_depth=_optional(draft, args.thread_depth),
        room_behind=_optional(draft, args.behind),
        torque=_optional(draft, args.torque, "torque", "1.2 N·m"),
        torque_with=args.torque_with,
        torque_result=args.torque_result,
        preload=_optional(draft, args.preload, "force", "800 N"),
        tap_drill=_optional(draft, args.tap_drill, "length", "3.3 mm"),
        step=step,
        quantity=args.number,
        layers=_layers(draft, args, known[0].layers if known else ()),
    )
    names = {**_OF_JOINT, **dict.fromkeys(_OF_LAYER, ())}
    if "layer" in args.without and not args.layer:
        told.pop("layers", None)
    told |= without(snapshot, Joint, args.name, args, names, told)
    return draft.state(Joint, args.name, told)


def _optional(
    draft: Draft, text: str | None, dimension: str = "", accepted: str = ""
) -> Quantity | None:
    found = parse_quantity(text, draft.snapshot.project.unit) if text else None
    if found is not None and dimension and found.dimension != dimension:
        raise BadInput(f"found “{text}”; accepted: a {dimension} as {accepted}")
    return found


def _layers(
    draft: Draft, args: argparse.Namespace, known: tuple[Layer, ...]
) -> tuple[Layer, ...]:
    """Give the layers, told anew or as they are, with what is told of their holes."""
    if not args.layer:
        return tuple(_with_edge(draft, one, args) for one in known)
    return tuple(_layer(draft, text, args, known) for text in args.layer)


def _layer(
    draft: Draft, text: str, args: argparse.Namespace, known: tuple[Layer, ...]
) -> Layer:
    """Give one layer; one of the same part keeps what is not told of it."""
    name, sign, size = text.partition("=")
    if not name.strip():
        raise BadInput(f"--layer: found “{text}”; accepted: collar, or washer=0.8 mm")
    part = new_part(draft, name.strip(), insist=getattr(args, "new", False))
    kept = next((one for one in known if one.part.id == part.id), None)
    layer = kept or Layer(part=part.ref)
    if sign:
        drawn = parse_drawn(size, draft.snapshot.project.unit)
        layer = replace(
            layer,
            thickness=drawn.nominal,
            lower_limit=drawn.lower,
            upper_limit=drawn.upper,
        )
    return _with_edge(draft, layer, args)


def _with_edge(draft: Draft, layer: Layer, args: argparse.Namespace) -> Layer:
    """Give the layer with its edge and its hole, where it is the one meant."""
    told: dict[str, Any] = {}
    if _is_meant(layer, args.edge_of):
        told |= given(edge_distance=_optional(draft, args.edge))
    if _is_meant(layer, args.hole_in):
        told |= given(
            hole=_optional(draft, args.hole),
            slot=_optional(draft, args.slot),
            fixed=args.fixed,
            from_fixed=_optional(draft, args.from_fixed),
        )
    for word, name in _OF_LAYER.items():
        of = args.edge_of if word == "edge" else args.hole_in
        if word in args.without and _is_meant(layer, of):
            told[name] = False if word == "fixed" else None
    return replace(layer, **told)


def _is_meant(layer: Layer, name: str) -> bool:
    """Tell whether a layer is the one named; where none is named each is meant."""
    return not name or name.casefold() == layer.part.name.casefold()
