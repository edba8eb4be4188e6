"""Design files whose shape is so small that another unit must be meant: metres."""

from __future__ import annotations

from collections.abc import Iterable
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
    found = []
    for path in islice(paths, _MOST_FILES):
        file = root / path
        try:
            fits = file.stat().st_size <= _MOST_BYTES
        except OSError:
            continue
        shape = read_shape(file) if fits else None
        if isinstance(shape, Shape) and not shape.unit and shape.size is not None:
            across = max(shape.size) * float(find_unit(unit).factor)
            if 0 < across < _LEAST_MM:
                size = " × ".join(f"{one:.3g}" for one in shape.size)
                found.append(f"{path} ({size})")
    if not found:
        return ""
    named = first_few(found, 2)
    less = "is" if len(found) == 1 else "are"
    return (
        f"{named} {less} less than 1 mm across if drawn in {unit}, and names no "
        "unit: drawn in metres? Sizes are never taken from a file; type them as meant"
    )
