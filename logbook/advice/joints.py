"""What a joint comes to, in the worst case over screw, nut, washers and stock.

Nominal alone is no answer: a joint is told by the shortest screw through the
thickest layers. A thickness found on a piece wins over the one that was drawn.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

from logbook.advice.advice import Advice
from logbook.advice.contributor import candidates
from logbook.advice.cost import weighed
from logbook.advice.drawn import dimensions_of
from logbook.advice.holds import is_done
from logbook.advice.material import material_of, row_for
from logbook.advice.readings import measured
from logbook.advice.register import View
from logbook.advice.tapped import tap_advice
from logbook.errors import BadInput, Problem
from logbook.quantity import Quantity
from logbook.records import assembling, happenings
from logbook.records.assembling import Step
from logbook.records.design import Characteristic, Part
from logbook.records.happenings import Deviation
from logbook.records.ids import Ref
from logbook.records.words import Grade
from logbook.shop.answers import Result
from logbook.shop.fastening.edges import edge_distance
from logbook.shop.fastening.joint import (
    Joint,
    Layer,
    Ring,
    Stand,
    choose_length,
    work_joint,
)
from logbook.shop.fastening.layers import read_layer
from logbook.shop.fastening.screws import WASHERS, Nut, Screw, nut, read_screw
from logbook.shop.tables import table

SERIES = "iso4762"
"""Lengths a longer or shorter screw is named from where the head says nothing."""

_TOO_SHORT = {Stand.SHORT, Stand.MAY_BE_SHORT, Stand.MAY_BE_EITHER}
_FORMULA = "stand-through = screw length − layers − washers − nut height, worst case"


def joint_advice(
    view: View, joint: assembling.Joint, *, drawn: bool = False
) -> Iterator[Advice | Problem]:
    """Say how far the screw stands through, and whether each hole is far enough in.

    `drawn` takes the thicknesses of the design, not those found in this shop.
    """
    try:
        bolt = read_screw(joint.fastener)
    except BadInput as refusal:
        found, _, accepted = str(refusal).partition("; accepted: ")
        yield Problem(view.path(joint), 0, "fastener", found, accepted)
        return
    yield from _edges(view, joint, bolt)
    yield from tap_advice(joint)
    if not joint.nut:
        return
    layers, told, refs = [], [], [joint.ref]
    for record in joint.layers:
        layer, said, used = _layer(view, record, bolt, drawn=drawn)
        if layer is None:
            name = record.part.name
            accepted = "a thickness in the joint, of the part, or as found"
            yield Problem(
                view.path(joint), 0, "layer", f"{name} of no known thickness", accepted
            )
            return
        layers.append(layer)
        told += said
        refs += used
    held = _nut(joint, bolt)
    worked = work_joint(bolt, layers, held)
    yield _through(joint, worked, layers, tuple(told), tuple(refs))


# -- what the layers really are --------------------------------------------------


def _layer(
    view: View, record: assembling.Layer, bolt: Screw, *, drawn: bool
) -> tuple[Layer | None, list[str], list[Ref]]:
    """Give a layer with its limits, how its thickness is known, and from what."""
    part = view.find(record.part, Part)
    name = part.title if part else record.part.name
    found_here = part if not drawn else None
    read = _as_read(view, found_here, name) if found_here else None
    if read is not None:
        return read
    entry = _as_found(view, found_here) if found_here else None
    if part is not None and entry is not None and entry.found is not None:
        thick = float(entry.found.to("mm"))
        said = f"{name} {entry.found} as found"
        return Layer(name, thick, thick, thick), [said], [part.ref, entry.ref]
    refs = [part.ref] if part else []
    size = record.thickness or (part.thickness if part else None)
    standard = _standard(record, name, size)
    if standard:
        return replace(read_layer(standard, bolt.size), name=name), [], refs
    if size is None or size.dimension != "length":
        return None, [], []
    thick = float(size.to("mm"))
    if record.lower_limit and record.upper_limit:
        low, high = record.lower_limit.to("mm"), record.upper_limit.to("mm")
        return Layer(name, thick, float(low), float(high)), [], refs
    material = material_of(view, part) if part else ""
    washer = "washer" in name.casefold()
    layer = replace(_bought(thick, material, bolt.size, washer=washer), name=name)
    return layer, [] if layer.known else [_unsure(name, size)], refs


def _standard(record: assembling.Layer, name: str, size: Quantity | None) -> str:
    """Give the standard of a washer that is named by it, or by nothing else."""
    if size is None and not record.standard and "washer" in name.casefold():
        return "iso7089"
    plain = record.standard.casefold().replace(" ", "")
    return plain if plain in WASHERS else ""


@lru_cache(maxsize=4096)
def _bought(thick: float, material: str, size: str, *, washer: bool) -> Layer:
    """Give a layer with the limits its material or its standard has, if any.

    The name is left out of what is read: “bracket 2” is no thickness.
    """
    called = "washer " if washer else ""
    try:
        return read_layer(f"{called}{thick:g} mm {material}".strip(), size)
    except BadInput:
        return read_layer(f"{called}{thick:g} mm", size)


def _as_read(
    view: View, part: Part, name: str
) -> tuple[Layer, list[str], list[Ref]] | None:
    """Give the thickness read on the newest piece, with what it can be wrong by."""
    for what in dimensions_of(view, part):
        if what.title.casefold() != "thickness":
            continue
        for piece in reversed(candidates(view, part, "")):
            read, _problems = measured(view, piece, what)
            if read is None:
                continue
            if not any(view.find(ref, happenings.Run) for ref in read.runs):
                continue  # a thickness told, not read: no instrument says how well
            u = 2 * read.standard
            middle = (read.low + read.high) / 2
            layer = Layer(name, middle, read.low - u, read.high + u)
            said = (
                f"{name} {middle:.2f} ±{(read.high - read.low) / 2 + u:.2f} mm as read"
            )
            return layer, [said], [part.ref, piece.ref, *read.runs]
    return None


def _unsure(name: str, size: Quantity) -> str:
    return f"{name} {size}: no limits known, measure it"


def _as_found(view: View, part: Part) -> Deviation | None:
    """Give the newest deviation that tells how thick the stock of a part really is."""
    newest = None
    for entry in view.mentions(part, Deviation):
        if entry.found is None:
            continue
        what = view.find(entry.characteristic, Characteristic)
        thick = what is not None and what.title.casefold() == "thickness"
        if thick and entry.found.dimension == "length":
            newest = entry
    return newest


def _nut(joint: assembling.Joint, bolt: Screw) -> Nut:
    """Give the nut by what it is called; a height written down wins."""
    height = float(joint.nut_height.to("mm")) if joint.nut_height else None
    try:
        held = nut(bolt.size, joint.nut)
    except BadInput:
        tall = height or 0.0
        return Nut(joint.nut, tall, tall, tall, ringed=False, source="as written down")
    if height is None or abs(held.high - height) < 1e-6:
        return held
    return replace(held, high=height, low=height, source="as written down")


# -- what is said of it ----------------------------------------------------------


def _through(
    joint: assembling.Joint,
    found: Joint,
    layers: Sequence[Layer],
    told: tuple[str, ...],
    refs: tuple[Ref, ...],
) -> Advice:
    pitch = found.screw.pitch
    said, grade = f"{joint.fastener} stands through as it should", Grade.REMARK
    take: tuple[Result, ...] = ()
    if found.verdict in _TOO_SHORT:
        grade = Grade.CHECK
        sure = "is too short" if found.verdict is Stand.SHORT else "may be too short"
        said = f"{joint.fastener} {sure}"
        if found.nut.ringed and found.ring_worst is not Ring.THROUGH:
            said += ", the locking ring is not surely reached"
        chosen = choose_length(found.screw.size, layers, found.nut, SERIES)
        if chosen is not None:
            longer = f"{chosen.screw.size}x{chosen.screw.length:g}"
            take = (Result("take", longer, "", 0, "the next length that reaches"),)
            said += (
                f": take {longer} and check what is behind it, it can stand "
                f"{chosen.high:.1f} mm through"
            )
    elif found.verdict in (Stand.LONG, Stand.MAY_BE_LONG):
        said = f"{joint.fastener} stands through, by more than three pitches at worst"
    if joint.room_behind and found.high > float(joint.room_behind.to("mm")):
        grade = Grade.CHECK
        said += f"; only {joint.room_behind} are free behind it"
    return Advice(
        key=f"joint {joint.id}",
        topic="joints",
        grade=grade,
        about=joint.ref,
        statement=f"{joint.title}: {said}",
        numbers=(
            Result("grip", found.grip, "mm", 2, "all layers, nominal"),
            Result("through", found.through, "mm", 2, "beyond the nut, nominal"),
            Result("lowest", found.low, "mm", 2, "beyond the nut, worst case"),
            Result("highest", found.high, "mm", 2, "beyond the nut, worst case"),
            Result("pitch", pitch, "mm", 2, "one is wanted at least"),
            *take,
        ),
        inputs=refs,
        formula=_FORMULA,
        sources=("ISO 4759-1 (screw length)", found.nut.source),
        assumed=told,
        changes=("a measured layer, another screw, nut or washer",),
        step=joint.step,
    )


def _edges(view: View, joint: assembling.Joint, bolt: Screw) -> Iterator[Advice]:
    for record in joint.layers:
        if record.edge_distance is None:
            continue
        part = view.find(record.part, Part)
        material = material_of(view, part) if part else record.part.name
        row = row_for(table("edges", "sheet"), material)
        if row is None:
            continue
        hole = float(record.hole.to("mm")) if record.hole else _nominal(bolt)
        size = record.thickness or (part.thickness if part else None)
        thick = float(size.to("mm")) if size else None
        wanted = edge_distance(row.label, hole, thick)
        have = float(record.edge_distance.to("mm"))
        sunk = wanted.brittle and "countersunk" in joint.head.casefold()
        if have >= wanted.centre and not sunk:
            continue
        step = view.find(joint.step, Step)
        usual = Grade.REMARK if step and is_done(view, step) else Grade.CHECK
        advice = _edge(joint, record, have, wanted.centre, sunk, wanted.source)
        yield replace(advice, grade=weighed(part, usual))


def _nominal(bolt: Screw) -> float:
    return float(bolt.size.removeprefix("M"))


def _edge(
    joint: assembling.Joint,
    record: assembling.Layer,
    have: float,
    least: float,
    sunk: bool,  # noqa: FBT001
    source: str,
) -> Advice:
    name = record.part.name
    said = []
    if have < least:
        said.append(
            f"the hole centre is {have:g} mm from the edge of {name}, at least "
            f"{least:g} mm is wanted"
        )
    if sunk:
        said.append(
            f"a countersunk head wedges brittle {name} open: take a flat-bearing head "
            "with a washer and an oversize hole"
        )
    return Advice(
        key=f"joint {joint.id} edge {name}",
        topic="joints",
        grade=Grade.CHECK,
        about=joint.ref,
        statement=f"{joint.title}: {'; '.join(said)}",
        numbers=(
            Result("edge", have, "mm", 1, "hole centre to edge, as drawn"),
            Result("least", least, "mm", 1, "hole centre to edge, wanted"),
        ),
        inputs=(joint.ref, record.part),
        formula="least distance = factor × hole, in brittle layers 2 × thickness too",
        sources=(source,),
        changes=("a hole further in, another head, a tougher material",),
        step=joint.step,
    )
