"""How a board moves with the air of its rooms, and which hole stays round.

One hole holds the board; the others let it move across the grain. The moisture of
steady air is an upper bound: a finished board follows late and less. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from logbook.advice.ground.advice import Advice
from logbook.advice.ground.cost import weighed
from logbook.advice.ground.material import material_of
from logbook.advice.ground.refusing import refused
from logbook.advice.ground.register import View
from logbook.advice.rooms.climate import (
    Board,
    board_moves,
    is_across,
    rooms,
    species_row,
)
from logbook.errors import BadInput, Problem
from logbook.quantity import Quantity
from logbook.records.kinds.assembling import Joint, Layer
from logbook.records.kinds.design import Part
from logbook.records.kinds.words import Grade
from logbook.records.sizes.definition import characteristics_of, dimension
from logbook.records.together.revisions import current_revision
from logbook.shop.answers import Result
from logbook.shop.fastening.screws import read_screw
from logbook.shop.materials.wood import BOARD_SPREAD

HUNDRED = 100.0
"""Width for which movement is worked out where none is drawn; it is proportional."""
_STEADY = "steady air all through, an upper bound: a finished board follows late"
_FITTED = (
    "fitted in damp air the screw starts at one end of its slot, in dry at the other"
)
_FORMULA = (
    "movement = distance across the grain × coefficient × change of moisture; play = "
    "hole or slot − screw"
)


@dataclass(frozen=True, slots=True)
class _Hole:
    """A hole of a board: `wide` is hole or slot, `far` from the one that holds it."""

    joint: Joint
    layer: Layer
    screw: float
    wide: float | None
    far: float | None


def wood_advice(view: View, part: Part) -> Iterator[Advice | Problem]:
    """Say how far a board moves, and of each of its holes whether it lets it."""
    material = material_of(view, part)
    if not any(species_row(name, material) for name in ("coefficients", "shrinkage")):
        return
    try:
        width = _across(view, part)
        holes = list(_holes(view, part))
        board = board_moves(material, width or HUNDRED, rooms(view.project))
    except BadInput as refusal:
        yield refused(view, part, "wood", refusal)
        return
    if board is None:
        if width or holes:
            said = "moves with the air: say the driest and the dampest it will stand in"
            yield _remark(part, "board", f"{part.title} {said}")
        return
    if width:
        said, grade = _whole(part, board, width, holes)
        change = Result("change", abs(board.change), "mm", 1, "all of the width")
        advice = _remark(part, "board", said, board)
        yield replace(advice, grade=grade, numbers=(change,))
    for hole in holes:
        yield _told(part, board, width, hole)


def _across(view: View, part: Part) -> float | None:
    """Give the width of a board across the grain, where a dimension is named so."""
    revision = current_revision(view, part)
    for what in characteristics_of(view, part):
        nominal = dimension(view, revision, what).nominal
        if is_across(what.title) and nominal and nominal.dimension == "length":
            return float(nominal.to("mm"))
    return None


def _holes(view: View, part: Part) -> Iterator[_Hole]:
    for joint in view.mentions(part):
        if not isinstance(joint, Joint):
            continue
        for layer in joint.layers:
            if view.find(layer.part, Part) is not part:
                continue
            if not (layer.hole or layer.slot or layer.fixed):
                continue
            try:
                screw = read_screw(joint.fastener).diameter
            except BadInput:
                continue  # said with the joint itself
            wide = layer.slot or layer.hole
            yield _Hole(joint, layer, screw, _mm(wide), _mm(layer.from_fixed))


def _mm(size: Quantity | None) -> float | None:
    return None if size is None else float(size.to("mm"))


def _whole(
    part: Part, board: Board, width: float, holes: Sequence[_Hole]
) -> tuple[str, Grade]:
    said = (
        f"{part.title}: {width:g} mm across the grain moves up to "
        f"{abs(board.change):.1f} mm from the driest to the dampest air"
    )
    if not holes:
        return f"{said}: one hole stays round, slots for the rest", Grade.REMARK
    if any(hole.layer.fixed for hole in holes):
        return said, Grade.REMARK
    more = "; no hole is said to hold it: let the middle one stay round"
    return said + more, weighed(part, Grade.CHECK)


def _told(part: Part, board: Board, width: float | None, hole: _Hole) -> Advice:
    """Say whether a hole lets the board move as far as it does there."""
    title = hole.joint.title
    far = hole.far if hole.far is not None else (width / 2 if width else None)
    if hole.layer.fixed:
        said = f"{title}: the round hole that holds the {part.title}"
        return _remark(part, hole.joint.id, said, board, hole)
    if far is None or hole.wide is None:
        said = f"{title}: how far is it from the hole that holds the {part.title}, and "
        return _remark(part, hole.joint.id, f"{said}how wide?", board, hole)
    moves = abs(board.change) / board.width * far
    play = hole.wide - hole.screw
    kind = "slot" if hole.layer.slot else "round hole"
    said = (
        f"{title}: {far:g} mm from the fixed hole the {part.title} moves up to "
        f"{moves:.1f} mm, the {kind} leaves {max(play, 0.0):.1f} mm"
    )
    tight = moves * (1 + BOARD_SPREAD) > play
    if moves > play:
        longer = hole.screw + moves * (1 + BOARD_SPREAD)
        said += f": make it a slot, {longer:.1f} mm long across the grain"
    elif tight:
        said += ": too close, single boards differ by a fifth"
    advice = _remark(part, hole.joint.id, said, board, hole)
    half = () if hole.far is not None else ("half the width taken as the distance",)
    return replace(
        advice,
        grade=weighed(part, Grade.CHECK) if tight else Grade.REMARK,
        numbers=(
            Result("movement", moves, "mm", 1, "from the driest to the dampest air"),
            Result("play", play, "mm", 1, "the screw may travel in all"),
        ),
        assumed=(*advice.assumed, *half, _FITTED),
    )


def _remark(
    part: Part,
    key: str,
    said: str,
    board: Board | None = None,
    hole: _Hole | None = None,
) -> Advice:
    joint = hole.joint if hole else None
    moist = (
        f"taken as {board.species}, {board.dry:.0f} to {board.damp:.0f} % moisture; "
        f"{_STEADY}"
        if board
        else ""
    )
    return Advice(
        key=f"wood {part.id} {key}",
        topic="wood",
        grade=Grade.REMARK,
        about=joint.ref if joint else part.ref,
        statement=said,
        inputs=(part.ref, *((joint.ref,) if joint else ())),
        formula=_FORMULA,
        sources=(board.source,) if board else (),
        assumed=(moist,) if moist else (),
        changes=("another slot, another distance, drier or damper rooms",),
        step=joint.step if joint else None,
    )
