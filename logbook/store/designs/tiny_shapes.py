"""Design files whose shape is so small that another unit must be meant: metres."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import islice
from pathlib import Path

from logbook.counting import first_few
from logbook.store.designs.shape_files import read_shape
from logbook.store.designs.shapes import Shape
from logbook.units import find_unit

_MOST_BYTES = 30_000_000
"""A larger file is not read for a remark."""
_MOST_FILES = 40
_LEAST_MM = 1
"""Millimetres across; what is smaller all over is no part somebody makes at a bench
(common practice, no source)."""


def tiny_shapes(root: Path, paths: Iterable[str], unit: str) -> str:
    """Say which files name no unit and would be too small to make in this one.

    Nothing where none is; only the first files are looked at.
    """
    found = list(_tiny(root, paths, unit))
    if not found:
        return ""
    named = first_few(found, 2)
    less, names = ("is", "names") if len(found) == 1 else ("are", "name")
    return (
        f"{named} {less} less than 1 mm across if drawn in {unit}, and {names} no "
        "unit: drawn in metres?"
    )


def in_metres(shape: Shape, unit: str) -> str:
    """Give the size of a shape if it is drawn in metres, in millimetres.

    Empty where its file names its unit, or where `unit` makes a thing of it that can
    be made.
    """
    if shape.unit or shape.size is None:
        return ""
    across = max(shape.size) * float(find_unit(unit).factor)
    if not 0 < across < _LEAST_MM:
        return ""
    sides = " × ".join(f"{1000 * side:.1f}" for side in shape.size if side)
    return f"{sides} mm"


def as_written(shape: Shape) -> str:
    """Give the size of a small shape with the numbers of its file."""
    return " × ".join(f"{side:.3g}" for side in shape.size or ())


def _tiny(root: Path, paths: Iterable[str], unit: str) -> Iterator[str]:
    for path in islice(paths, _MOST_FILES):
        file = root / path
        try:
            fits = file.stat().st_size <= _MOST_BYTES
        except OSError:
            continue
        shape = read_shape(file) if fits else None
        if isinstance(shape, Shape) and in_metres(shape, unit):
            yield f"{path} ({as_written(shape)})"
