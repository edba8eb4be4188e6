"""What to buy where only the size of the other system is sold, and what that asks for.

Worked out from the gaps and joints of the release as drawn; nothing is said of a size
that none of them has.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from logbook.advice.ground.drawn import drawn_as
from logbook.advice.ground.naming import formula_of, meant
from logbook.errors import BadInput
from logbook.publish.guide.joint_checks import JointChecks, as_released
from logbook.publish.release.readback import read_joint
from logbook.publish.release.released import Released
from logbook.publish.release.statements import limits_text
from logbook.quantity import Quantity, quantity
from logbook.records.kinds.assembling import Fit, Joint, Layer
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.words import Source
from logbook.records.sizes.definition import Dimension
from logbook.records.states.statements import Form
from logbook.shop.chains.evaluation import Sensitivities, sensitivities
from logbook.shop.chains.formula import Formula
from logbook.shop.making.other_system import other_system


@dataclass(frozen=True, slots=True)
class OtherSize:
    """A size as drawn, its neighbour in the other system, and what comes of that."""

    part: Part
    of: str
    instead: Quantity
    comes_to: tuple[str, ...]


def other_sizes(released: Released) -> Iterator[OtherSize]:
    """Give the bought sizes that have a neighbour a gap or a joint can tell of."""
    for part in released.needed:
        for name, size, item in _sold_by(released, part):
            instead = other_system(size)
            if instead is None:
                continue
            told = [*_gaps(released, item, instead)] if item else []
            if _THICK in name:
                told += _joints(released, part, size, instead)
            if told:
                of = f"{part.title}, {name} {size}"
                yield OtherSize(part, of, instead, tuple(told))


_THICK = "thick"


def _sold_by(
    released: Released, part: Part
) -> Iterator[tuple[str, Quantity, Characteristic | None]]:
    """Give the sizes a part, or the plate it is made of, is sold by."""
    thick = False
    for statement in released.of(Form.DIMENSION):
        item = released.snapshot.find(statement.of, Characteristic)
        if item is None or released.snapshot.find(item.part) is not part:
            continue
        size = drawn_as(released.snapshot, released.revision(part), item).nominal
        plate = _THICK in item.title
        thick = thick or plate
        if size is not None and (plate or part.source is Source.BOUGHT):
            yield item.title, size, item
    if part.thickness is not None and not thick:
        yield "thickness", part.thickness, None


# -- gaps ----------------------------------------------------------------------------


def _gaps(released: Released, item: Characteristic, instead: Quantity) -> Iterator[str]:
    for statement in released.of(Form.GAP):
        gap = released.live(statement)
        if isinstance(gap, Fit) and gap.lower_limit and gap.upper_limit:
            try:
                said = _gap(released, gap, item, instead)
            except BadInput:  # it is no length, or a size in it is not drawn
                continue
            if said:
                yield said


def _gap(released: Released, gap: Fit, item: Characteristic, instead: Quantity) -> str:
    """Say what a gap comes to, or to which size what is made last has to be made."""
    formula = formula_of(gap.formula)
    sizes = _sizes(released, formula)
    last = released.snapshot.find(gap.made_last, Characteristic)
    if item.id not in {one.characteristic.id for one in sizes.values()} or last is item:
        return ""
    values = {
        name: instead if one.characteristic is item else _nominal(one, last)
        for name, one in sizes.items()
    }
    found = sensitivities(formula, values, "mm")
    at = [name for name, one in sizes.items() if one.characteristic is last]
    if not found.linear or len(at) > 1:
        return ""
    if at and found.slopes[at[0]]:
        mm = values[at[0]].to("mm") + _missing(gap, found, at[0])
        return _made_last(released, gap, sizes[at[0]], mm)
    return _came_to(gap, found, sizes, item)


def _sizes(released: Released, formula: Formula) -> dict[str, Dimension]:
    """Give each size in a formula as the release draws it."""
    found = {}
    for name in formula.names:
        of = meant(released.snapshot, name)
        revision = released.revision(of.part)
        found[str(name)] = drawn_as(released.snapshot, revision, of.what)
    return found


def _nominal(drawn: Dimension, last: Characteristic | None) -> Quantity:
    """Give a size as drawn; of what is made last any will do, it is worked out."""
    if drawn.nominal is not None:
        return drawn.nominal
    if drawn.characteristic is last:
        return quantity(Fraction(0), "mm", Fraction(1))
    raise BadInput(f"{drawn.characteristic.title} has no size; accepted: a drawn one")


def _missing(gap: Fit, found: Sensitivities, last: str) -> Fraction:
    """Give what what is made last has to change by to the middle of the gap, in mm."""
    low, high = _limits(gap)
    return ((low + high) / 2 - found.value) / found.slopes[last]


def _limits(gap: Fit) -> tuple[Fraction, Fraction]:
    assert gap.lower_limit is not None
    assert gap.upper_limit is not None
    return gap.lower_limit.to("mm"), gap.upper_limit.to("mm")


def _made_last(released: Released, gap: Fit, last: Dimension, mm: Fraction) -> str:
    part = released.snapshot.find(last.characteristic.part, Part)
    what = last.characteristic.title + (f" of the {part.title}" if part else "")
    return f"make the {what} {_shown(mm)} (gap “{gap.title}”)"


def _came_to(
    gap: Fit, found: Sensitivities, sizes: dict[str, Dimension], item: Characteristic
) -> str:
    """Say whether a gap nothing is made to suit keeps its limits, at worst too."""
    low, high = _limits(gap)
    wide = [Fraction(0), Fraction(0)]
    for name, drawn in sizes.items():
        nominal, slope = drawn.nominal, found.slopes[name]
        if drawn.characteristic is item or nominal is None or not drawn.has_limits:
            continue
        ends = [
            slope * (end.to("mm") - nominal.to("mm"))
            for end in (drawn.lower, drawn.upper)
            if end is not None
        ]
        wide = [wide[0] + min(ends), wide[1] + max(ends)]
    least, most = found.value + wide[0], found.value + wide[1]
    wanted = f"gap “{gap.title}”, wanted {limits_text(gap)}"
    if low <= least and most <= high:
        return f"fits, with {_shown(found.value)} of room ({wanted})"
    if low <= found.value <= high:
        return f"fits only if it comes out well, {_shown(found.value)} ({wanted})"
    return f"does not fit, {_shown(found.value)} ({wanted})"


def _shown(mm: Fraction) -> str:
    return str(quantity(round(mm, 2), "mm", Fraction(1, 100))).replace("-", "−")


# -- joints --------------------------------------------------------------------------


def _joints(
    released: Released, part: Part, size: Quantity, instead: Quantity
) -> Iterator[str]:
    """Say what a joint through it comes to, where its length can be checked at all."""
    checks = JointChecks(released.snapshot)
    for statement in released.of(Form.JOINT):
        known = released.snapshot.find(statement.of, Joint)
        if known is None:
            continue
        live = released.live(statement)
        joint = live if isinstance(live, Joint) else None
        joint = joint or as_released(known.id, read_joint(statement.says))
        layers = tuple(with_thickness(one, part, size, instead) for one in joint.layers)
        if layers == joint.layers:
            continue
        said = checks.words(replace(joint, layers=layers))
        if not said.startswith(("not checked", "length not checked")):
            yield f"joint “{joint.title}” with {joint.fastener}: {said}"


def with_thickness(
    layer: Layer, part: Part, size: Quantity, instead: Quantity
) -> Layer:
    """Give a layer of a part that is `size` thick as thick as what is had `instead`."""
    named = layer.part.id == part.id or layer.part.name == part.title
    now = layer.thickness or part.thickness
    if not named or now is None or now.dimension != "length":
        return layer
    if now.to("mm") != size.to("mm"):
        return layer
    return replace(layer, thickness=instead, lower_limit=None, upper_limit=None)
