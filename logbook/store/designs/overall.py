"""The overall size of a design file in words, with no more digits than help.

A tenth of a millimetre or finer: who checks the file in his program tells by it whether
it is the right one in the right unit.
"""

from __future__ import annotations

from collections.abc import Sequence

from logbook.store.designs.shapes import Shape
from logbook.units import INCH_MM, find_unit

_DIGITS = {"mm": 1, "cm": 2, "in": 3, "ft": 4, "m": 4}
_NAMES = {"m": "metres", "mm": "millimetres", "cm": "centimetres", "in": "inches"}
_PIXEL_MM = float(INCH_MM) / 96
"""CSS Values and Units Level 4, section 6.2."""


def overall(shape: Shape, meant: str) -> str:
    """Give the overall size; a unit that was told turned into the one that is meant."""
    return in_words(*_sides(shape, meant))


def longest_mm(shape: Shape, meant: str) -> float:
    """Give the longest side of a shape in millimetres."""
    sides, unit = _sides(shape, meant)
    return max(sides, default=0.0) * float(find_unit(unit).factor)


def page(shape: Shape, meant: str) -> str:
    """Give the size of the page of a drawing; empty without one of a known length."""
    if shape.page is None or not shape.unit:
        return ""
    if not shape.unit_told:
        return in_words(shape.page, shape.unit)
    return in_words([one * _factor(shape.unit, meant) for one in shape.page], meant)


def fills_page(shape: Shape) -> bool:
    """Tell whether a drawing is as large as its page, to a thousandth of it."""
    if shape.page is None or shape.size is None:
        return False
    pairs = zip(shape.page, shape.size, strict=False)
    return all(abs(whole - side) <= whole / 1000 for whole, side in pairs)


def of_own_units(shape: Shape) -> tuple[str, str]:
    """Give a drawing's size in its own units, and in mm if 96 go to the inch."""
    sides = [side for side in shape.size or shape.page or () if side]
    as_pixels = in_words([side * _PIXEL_MM for side in sides], "mm")
    return " × ".join(f"{side:.1f}" for side in sides), as_pixels


def unit_name(unit: str) -> str:
    """Give a unit of a file as it is spoken of."""
    return _NAMES.get(unit, unit)


def width(across: float, unit: str) -> str:
    """Give a width as a drill is told, one digit finer than a side: `4.3 mm`."""
    digits = _DIGITS.get(unit, 1) + 1
    return f"{float(f'{across:.{digits}f}'):g} {unit}"


def in_words(sides: Sequence[float], unit: str) -> str:
    """Give sides in a unit, `180.0 × 100.0 mm`."""
    digits = _DIGITS.get(unit, 1)
    return f"{' × '.join(f'{side:.{digits}f}' for side in sides)} {unit}"


def scale(shape: Shape, meant: str) -> tuple[float, str]:
    """Give what the numbers of a shape are told times, and in which unit."""
    if shape.unit_told:
        return _factor(shape.unit, meant), meant
    return 1.0, shape.unit or meant


def _sides(shape: Shape, meant: str) -> tuple[list[float], str]:
    times, unit = scale(shape, meant)
    return [side * times for side in shape.size or () if side], unit


def _factor(unit: str, meant: str) -> float:
    return float(find_unit(unit).factor / find_unit(meant).factor)
