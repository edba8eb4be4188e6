"""What the layers and the nut of a joint really are, and how that is known.

A thickness found on a piece wins over the one that was drawn. Lengths in mm.
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache, partial

from logbook.advice.gaps.candidates import candidates
from logbook.advice.ground.drawn import dimensions_of, drawn_as, newest_revision
from logbook.advice.ground.material import material_of
from logbook.advice.ground.register import View
from logbook.advice.pieces.readings import measured
from logbook.errors import BadInput
from logbook.quantity import Quantity
from logbook.records.kinds import assembling
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Deviation, Run
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Blame
from logbook.records.kinds.workshop import Build
from logbook.records.sizes.limits_held import as_held
from logbook.records.together.whose_shop import another_shop
from logbook.shop.fastening.joint import Layer
from logbook.shop.fastening.layers import read_layer
from logbook.shop.fastening.screws import WASHERS, Nut, Screw, nut


def layer_of(
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
    if size is None and part is not None:
        return _as_drawn(view, part, name)
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
            if not any(view.find(ref, Run) for ref in read.runs):
                continue  # a thickness told, not read: no instrument says how well
            u = 2 * read.standard
            middle = (read.low + read.high) / 2
            layer = Layer(name, middle, read.low - u, read.high + u)
            said = (
                f"{name} {middle:.2f} ±{(read.high - read.low) / 2 + u:.2f} mm as read"
            )
            return layer, [said], [part.ref, piece.ref, *read.runs]
    return None


def _as_drawn(
    view: View, part: Part, name: str
) -> tuple[Layer | None, list[str], list[Ref]]:
    """Give the thickness that is drawn among the sizes of a part, with its limits."""
    newest = newest_revision(view, part)
    for what in dimensions_of(view, part):
        drawn = as_held(view, drawn_as(view, newest, what))
        size = drawn.nominal
        if what.title.casefold() != "thickness" or size is None:
            continue
        if size.dimension != "length":
            continue
        low, high = drawn.lower or size, drawn.upper or size
        thick, low_mm, high_mm = (float(one.to("mm")) for one in (size, low, high))
        limited = drawn.lower is not None and drawn.upper is not None
        told = [] if limited else [_unsure(name, size)]
        return Layer(name, thick, low_mm, high_mm), told, [part.ref, what.ref]
    return None, [], []


def _unsure(name: str, size: Quantity) -> str:
    return f"{name} {size}: no limits known, measure it"


def _as_found(view: View, part: Part) -> Deviation | None:
    """Give the newest deviation that tells how thick the stock of a part really is."""
    work = partial(_found_thick, view, part)
    return view.remembered("found thick", (part,), work)


def _found_thick(view: View, part: Part) -> Deviation | None:
    newest = None
    for entry in view.mentions(part, Deviation):
        if entry.found is None:
            continue
        what = view.find(entry.characteristic, Characteristic)
        thick = what is not None and what.title.casefold() == "thickness"
        if thick and entry.found.dimension == "length" and _tells_here(view, entry):
            newest = entry
    return newest


def _tells_here(view: View, entry: Deviation) -> bool:
    """Tell whether what stock was found to be tells of the build in hand too.

    What the drawing is to blame for does; what one piece came to be, only in its build;
    else it does in the shop it was found in.
    """
    build: Build | None = view.find(entry.build, Build)
    here = view.build
    if build is None or here is None or entry.met_by_others is Blame.DRAWING:
        return True
    if entry.met_by_others is Blame.PIECE:
        return build.id == here.id
    return not another_shop(build, here)


def nut_of(joint: assembling.Joint, bolt: Screw) -> Nut:
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
