"""Design files of which nobody can tell how long a unit is.

A model so small that another unit must be meant, metres, and a drawing in units of its
own. Meshes never name their unit, so one of a likely size is not doubted.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import islice
from pathlib import Path

from logbook.counting import first_few
from logbook.store.designs.shape_files import read_shape
from logbook.store.designs.shapes import Numbers, Shape
from logbook.units import find_unit

_MOST_BYTES = 30_000_000
"""A larger file is not read for a remark."""
_MOST_FILES = 40
_LEAST_MM = 1
"""Millimetres across; what is smaller all over is no part somebody makes at a bench
(common practice, no source)."""


def unsaid_units(root: Path, paths: Iterable[str], unit: str) -> tuple[str, ...]:
    """Say which files would be too small to make in this unit, or are in their own.

    Nothing where none is; only the first files are looked at.
    """
    shapes = list(_shapes(root, paths))
    tiny = [
        f"{path} ({as_written(shape)})"
        for path, shape in shapes
        if in_metres(shape, unit)
    ]
    own = [path for path, shape in shapes if in_own_units(shape)]
    found = []
    if tiny:
        less, names = ("is", "names") if len(tiny) == 1 else ("are", "name")
        found.append(
            f"{first_few(tiny, 2)} {less} less than 1 mm across if drawn in {unit}, "
            f"and {names} no unit: drawn in metres?"
        )
    if own:
        are, say = ("is", "says") if len(own) == 1 else ("are", "say")
        found.append(
            f"{first_few(own, 2)} {are} drawn in units without a length, and {say} "
            "nowhere how large the page is: what is one of them?"
        )
    return tuple(found)


def in_metres(shape: Shape, unit: str) -> str:
    """Give the size of a shape if it is drawn in metres, in millimetres.

    Empty where its unit is known, or where `unit` makes a thing of it that can be made.
    """
    if shape.unit or shape.size is None or shape.numbers is not Numbers.LENGTHS:
        return ""
    across = max(shape.size) * float(find_unit(unit).factor)
    if not 0 < across < _LEAST_MM:
        return ""
    sides = " × ".join(f"{1000 * side:.1f}" for side in shape.size if side)
    return f"{sides} mm"


def in_own_units(shape: Shape) -> bool:
    """Tell whether a drawing is in units of its own, and nobody has said of which."""
    return shape.numbers is Numbers.USER_UNITS and not shape.unit


def as_written(shape: Shape) -> str:
    """Give the size of a shape with the numbers of its file."""
    return " × ".join(f"{side:.3g}" for side in shape.size or () if side)


def _shapes(root: Path, paths: Iterable[str]) -> Iterator[tuple[str, Shape]]:
    for path in islice(paths, _MOST_FILES):
        file = root / path
        try:
            fits = file.stat().st_size <= _MOST_BYTES
        except OSError:
            continue
        shape = read_shape(file) if fits else None
        if isinstance(shape, Shape):
            yield path, shape
