"""What changes where the sheet is thicker or thinner than drawn, part by part.

Which thickness is critical is on record or unsaid; what follows it is worked out: the
joints it is a layer of, and the flat pattern of what is folded.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from logbook.errors import BadInput
from logbook.publish.guide.joint_checks import LONG_ENOUGH, JointChecks
from logbook.publish.guide.other_size import with_thickness
from logbook.publish.guide.parts_list import Listed
from logbook.publish.guide.screw_holes import (
    UNSAID,
    Passing,
    flat_file,
    passing_through,
)
from logbook.publish.release.released import Released
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.words import Source
from logbook.records.sizes.definition import Dimension, dimension
from logbook.records.sizes.limits_held import held_words
from logbook.records.states.statements import Form
from logbook.records.together.references import is_of
from logbook.shop.bending.bends import allowance_by_rule
from logbook.shop.bending.neutral import FAA_THICKNESS
from logbook.shop.making.other_system import sheets_beside
from logbook.store.designs.overall import overall
from logbook.store.designs.shapes import Shape

FOLDED = frozenset({"folding", "bending", "hand bending", "hand folding"})
_PER_MM = 2 - 90 * FAA_THICKNESS
"""What a 90° bend takes off more for each mm of thickness (as `_deduction` has it)."""
_STEP_MM = 0.1
_MOST = 200
"""Steps a thickness is looked for upward."""


@dataclass(frozen=True, slots=True)
class SheetView:
    """A part of sheet: as drawn, how far it may differ, and what follows it."""

    part: str
    drawn: str
    may_be: str
    follows: tuple[str, ...]


def other_sheet(
    released: Released, lines: Iterable[Listed], shapes: Mapping[str, Shape]
) -> tuple[tuple[SheetView, ...], tuple[str, ...]]:
    """Give the parts of which something follows it, and those nobody spoke of."""
    views, unsaid = [], []
    checks = JointChecks(released.snapshot)
    joints = {part.id: passing for part, passing in passing_through(released)}
    for line in lines:
        part = line.part
        if part is None or line.dropped or part.source is Source.BOUGHT:
            continue
        size, drawn = _thickness(released, line, part)
        if size is None:
            continue
        through = _joints(checks, part, size, joints.get(part.id, ()))
        follows = (*through, *_flat(released, line, part, size, shapes))
        beside = _beside(size, line.said.material)
        may_be = "; ".join(_may_be(released, line, drawn))
        if follows or may_be:
            had = line.said.material
            told = had if str(size) in had else f"{had}, {size}".removeprefix(", ")
            told = "; ".join(filter(None, (told, beside)))
            views.append(SheetView(part.title, told, may_be or UNSAID, follows))
        else:
            unsaid.append(part.title)
    return tuple(views), tuple(dict.fromkeys(unsaid))


def _thickness(
    released: Released, line: Listed, part: Part
) -> tuple[Quantity | None, Dimension | None]:
    """Give how thick the sheet of a part is, and the size that draws it, if any.

    As released: none where that has been changed since.
    """
    revision = released.revision(part)
    for item in _sizes(released, part):
        drawn = dimension(released.snapshot, revision, item)
        if item.title.casefold() == "thickness" and drawn.nominal:
            return drawn.nominal, drawn
    size = part.thickness
    return (size if size and str(size) in line.said.material else None), None


def _sizes(released: Released, part: Part) -> Iterator[Characteristic]:
    """Give the sizes of a part that are still as they were released."""
    for statement in released.of(Form.DIMENSION):
        item = released.live(statement)
        of_it = isinstance(item, Characteristic) and is_of(item.part, part)
        if of_it and isinstance(item, Characteristic):
            yield item


def _beside(size: Quantity, material: str) -> str:
    """Name the sheets of the other system beside it, one in inches with its mm."""
    found = [
        str(one) if one.unit == "mm" else f"{one} ({float(one.to('mm')):.2f} mm)"
        for one in sheets_beside(size, material)
    ]
    return f"beside it is sold {' and '.join(found)}" if found else ""


def _may_be(released: Released, line: Listed, drawn: Dimension | None) -> Iterator[str]:
    """Say how far it may differ: by its drawing, by the words of the list."""
    if drawn is not None and drawn.has_limits:
        yield held_words(released.snapshot.project, drawn)
    if line.said.critical:
        yield f"matters: {line.said.critical}"


# -- joints --------------------------------------------------------------------------


def _joints(
    checks: JointChecks, part: Part, size: Quantity, passing: Iterable[Passing]
) -> Iterator[str]:
    """Say up to which thickness the screws through a part are long enough.

    A gauge is no length, so of one nothing is worked out.
    """
    for one in passing if size.dimension == "length" else ():
        if _enough(checks, one, part, size, 0):
            most = _most(checks, one, part, size)
            up_to = f"up to {most:.1f} mm" if most else "whatever the sheet"
            named = f"{one.joint.fastener} of “{one.joint.title}”"
            yield f"{named}: long enough {up_to}, the other layers as drawn"


def _most(
    checks: JointChecks, one: Passing, part: Part, size: Quantity
) -> float | None:
    """Give the thickest sheet a screw is long enough for, mm; None without an end."""
    if _enough(checks, one, part, size, _MOST):
        return None
    low, high = 0, _MOST
    while low + 1 < high:
        middle = (low + high) // 2
        if _enough(checks, one, part, size, middle):
            low = middle
        else:
            high = middle
    return float(size.to("mm")) + low * _STEP_MM


def _enough(
    checks: JointChecks, one: Passing, part: Part, size: Quantity, steps: int
) -> bool:
    """Tell whether a screw is long enough with a sheet thicker by so many steps."""
    now = parse_quantity(f"{float(size.to('mm')) + steps * _STEP_MM:.2f} mm")
    layers = tuple(with_thickness(layer, part, size, now) for layer in one.joint.layers)
    return checks.words(replace(one.joint, layers=layers)).startswith(LONG_ENOUGH)


# -- what is folded ------------------------------------------------------------------


def _flat(
    released: Released,
    line: Listed,
    part: Part,
    size: Quantity,
    shapes: Mapping[str, Shape],
) -> Iterator[str]:
    """Say that a flat pattern is drawn for its sheet, and what a bend makes of it."""
    if not FOLDED & {one.casefold() for one in part.process}:
        return
    drawn = flat_file(released, part, shapes)
    unit = released.snapshot.project.unit
    pattern = f" ({overall(drawn, unit)})" if drawn else ""
    radius = next(_radii(released, part), None)
    known = f"{radius[0]} {radius[1]}" if radius else f"an inside radius {UNSAID}"
    yield (
        f"its flat pattern{pattern} is drawn for {size} and {known}: with another "
        "sheet its bend lines and its length are others"
    )
    yield _taken_off(size, line.said.material, radius[1] if radius else None)
    if sizes := ", ".join(one.title for one in _sizes(released, part) if one.critical):
        yield f"what matters stays as drawn: {sizes}"


def _taken_off(size: Quantity, material: str, radius: Quantity | None) -> str:
    """Say what a 90° bend takes off the outside legs, as drawn and for other sheets."""
    if radius is None or size.dimension != "length":
        return (
            "with the same inside radius, each 90° bend takes "
            f"{_PER_MM:.1f} mm less off the outside legs for each mm that it is "
            "thinner (FAA-H-8083-31)"
        )
    sheets = (size, *sheets_beside(size, material))
    each = ", ".join(
        f"{_deduction(radius, one):.1f} mm at {one}" for one in dict.fromkeys(sheets)
    )
    return (
        f"that radius kept and inside, each 90° bend takes off the outside "
        f"legs {each} (FAA-H-8083-31)"
    )


def _deduction(radius: Quantity, thickness: Quantity) -> float:
    """Give what a 90° bend takes off the outside legs, mm: 2 (R + T) less allowance."""
    inside, thick = float(radius.to("mm")), float(thickness.to("mm"))
    return 2 * (inside + thick) - allowance_by_rule("FAA", 90.0, inside, thick, 0.0)


def _radii(released: Released, part: Part) -> Iterator[tuple[str, Quantity]]:
    """Give the radius a bend is set to, or is drawn with, and what it is called."""
    for statement in released.of(Form.STEP):
        step = released.live(statement)
        if isinstance(step, Step) and step.makes and is_of(step.makes, part):
            for name, size in map(_as_radius, step.set_to):
                if size is not None:
                    yield f"the {name} as set,", size
    for item in _sizes(released, part):
        if "radius" in item.title.casefold() and item.nominal:
            yield f"its {item.title},", item.nominal


_SETTING = re.compile(r"(?i)(?P<name>.*\bradius)\s*(?P<size>\d.*)")


def _as_radius(setting: str) -> tuple[str, Quantity | None]:
    """Read “inside radius 2 mm”; None of another setting."""
    found = _SETTING.fullmatch(setting)
    try:
        size = parse_quantity(found["size"]) if found else None
    except BadInput:
        size = None
    is_length = size is not None and size.dimension == "length"
    return (found["name"], size) if found and is_length else ("", None)
