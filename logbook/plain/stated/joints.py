"""A joint with its options: the layers a fastener goes through, head to nut."""

from __future__ import annotations

import argparse
from dataclasses import replace

from logbook.errors import BadInput
from logbook.plain.stated.order import step_meant
from logbook.plain.stated.part_names import new_part
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.assembling import Joint, Layer
from logbook.records.kinds.ids import new_id
from logbook.records.making.drafts import Draft
from logbook.records.sizes.limits import parse_drawn


def joint_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what a joint is told with."""
    parser.add_argument("name", help="what the joint is called")
    parser.add_argument("fastener", help="as fitted or drawn, M4x16")
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
    parser.add_argument("--number", type=int, default=1, help="how many of them")
    parser.add_argument("--step", default="", help="the step it is closed in")


def stated_joint(draft: Draft, args: argparse.Namespace) -> Joint:
    """Give the joint, in the draft, or the one of this name as it is stated now.

    Raises:
        BadInput: a layer or a figure cannot be.
        NotFound: the step it is closed in is none.
    """
    layers = tuple(_layer(draft, text, args) for text in args.layer)
    step = step_meant(draft.snapshot, args.step).ref if args.step else None
    joint = Joint(
        id=new_id(),
        title=args.name,
        when=draft.when,
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
        layers=layers,
    )
    return draft.state(joint)


def _optional(
    draft: Draft, text: str | None, dimension: str = "", accepted: str = ""
) -> Quantity | None:
    found = parse_quantity(text, draft.snapshot.project.unit) if text else None
    if found is not None and dimension and found.dimension != dimension:
        raise BadInput(f"found “{text}”; accepted: a {dimension} as {accepted}")
    return found


def _layer(draft: Draft, text: str, args: argparse.Namespace) -> Layer:
    name, sign, size = text.partition("=")
    if not name.strip():
        raise BadInput(f"--layer: found “{text}”; accepted: collar, or washer=0.8 mm")
    part = new_part(draft, name.strip(), insist=getattr(args, "new", False))
    layer = Layer(part=part.ref)
    if sign:
        drawn = parse_drawn(size, draft.snapshot.project.unit)
        layer = replace(
            layer,
            thickness=drawn.nominal,
            lower_limit=drawn.lower,
            upper_limit=drawn.upper,
        )
    if args.edge and (args.edge_of or name).casefold() == name.casefold():
        layer = replace(layer, edge_distance=_optional(draft, args.edge))
    return _holed(draft, layer, args)


def _holed(draft: Draft, layer: Layer, args: argparse.Namespace) -> Layer:
    """Give the layer with its hole, slot and distance, where it is the one meant."""
    if (args.hole_in or layer.part.name).casefold() != layer.part.name.casefold():
        return layer
    return replace(
        layer,
        hole=_optional(draft, args.hole),
        slot=_optional(draft, args.slot),
        fixed=args.fixed,
        from_fixed=_optional(draft, args.from_fixed),
    )
