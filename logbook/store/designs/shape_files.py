"""Reading the shape of a design file: the format is told by the end of its name."""

from __future__ import annotations

import struct
from pathlib import Path

from logbook.store.designs.design_files import ending
from logbook.store.designs.dxf import read_dxf
from logbook.store.designs.shapes import Shape, Unreadable
from logbook.store.designs.stl import read_stl
from logbook.store.designs.svg import read_svg
from logbook.store.disk.flushed import reason


def read_shape(file: Path) -> Shape | Unreadable | None:
    """Read what `file` says of itself; None for a format not read here."""
    reader = {"dxf": read_dxf, "stl": read_stl, "svg": read_svg}.get(ending(file.name))
    if reader is None:
        return None
    try:
        with file.open("rb") as stream:
            return reader(stream)
    except OSError as error:
        return Unreadable(f"could not be read: {reason(error)}")
    except (ValueError, struct.error, OverflowError) as error:
        return Unreadable(f"could not be read: {error}")
