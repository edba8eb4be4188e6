"""The shape of an STL, binary or in words; the format says no unit.

After its common layout: 80 bytes, a count, 50 bytes a triangle. Read piece by piece.
"""

from __future__ import annotations

import math
import struct
from typing import BinaryIO

from logbook.store.designs.shapes import LONGEST_LINE, Box, Shape, Unreadable


def read_stl(stream: BinaryIO) -> Shape | Unreadable:
    """Read the size and the triangles of an STL, binary or in words.

    Raises:
        ValueError: a coordinate is not a finite number.
    """
    head = stream.read(84)
    size = stream.seek(0, 2)
    count = int.from_bytes(head[80:84], "little") if len(head) == 84 else -1
    # Many binary files begin with "solid" too: the length decides.
    if size == 84 + 50 * count:
        stream.seek(84)
        return _triangles(stream, count)
    if head.lstrip()[:5].lower() == b"solid":
        stream.seek(0)
        return _facets(stream)
    if count < 0:
        return Unreadable(f"could not be read: {size} bytes are too few for an STL")
    return Unreadable(
        f"could not be read: it announces {count} triangles, {84 + 50 * count} bytes, "
        f"and has {size} bytes"
    )


def _triangles(stream: BinaryIO, count: int) -> Shape:
    box = Box()
    while piece := stream.read(50 * 4096):
        columns = list(zip(*struct.iter_unpack("<12fH", piece), strict=True))
        corners = columns[3:12]
        box.take(*(min(map(min, corners[axis::3])) for axis in range(3)))
        box.take(*(max(map(max, corners[axis::3])) for axis in range(3)))
        # min and max step over a NaN that is not the first; a sum does not.
        box_sum = sum(map(sum, corners))
        if not math.isfinite(box_sum):
            raise ValueError("a coordinate that is not a number")
    return Shape("", box.size, triangles=count)


def _facets(stream: BinaryIO) -> Shape | Unreadable:
    box, corners = Box(), 0
    while line := stream.readline(LONGEST_LINE):
        words = line.split()
        if len(words) == 4 and words[0].lower() == b"vertex":
            box.take(*map(float, words[1:]))
            corners += 1
    if not corners or corners % 3:
        return Unreadable(f"could not be read: {corners} corners make no triangles")
    return Shape("", box.size, triangles=corners // 3)
