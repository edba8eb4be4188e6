"""Unit, overall size and holes of DXF and STL; anything wrong is a value.

Expected sizes are plane geometry worked by hand (no other source needed).
"""

from __future__ import annotations

import math
import struct
from collections.abc import Sequence
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.store.designs.shape_files import read_shape
from logbook.store.designs.shapes import Circle, Shape, Unreadable


def dxf(entities: str, header: str = "9 $INSUNITS 70 4") -> bytes:
    """Write a DXF of pairs given as words, `code value` after `code value`."""
    words = (
        f"0 SECTION 2 HEADER {header} 0 ENDSEC "
        f"0 SECTION 2 BLOCKS 0 LINE 10 -999 20 0 11 9 21 9 0 ENDSEC "
        f"0 SECTION 2 ENTITIES {entities} 0 ENDSEC 0 EOF"
    ).split()
    return "\r\n".join(words).encode() + b"\r\n"


def read(folder: Path, name: str, data: bytes) -> Shape:
    (folder / name).write_bytes(data)
    shape = read_shape(folder / name)
    assert isinstance(shape, Shape), shape
    return shape


def why(folder: Path, name: str, data: bytes) -> str:
    (folder / name).write_bytes(data)
    shape = read_shape(folder / name)
    assert isinstance(shape, Unreadable), shape
    return shape.why


PLATE = (
    "0 LWPOLYLINE 8 cut 90 4 70 1 10 0 20 0 10 180 20 0 10 180 20 100 10 0 20 100 "
    "0 CIRCLE 8 cut 10 9 20 9 40 1.6 0 CIRCLE 8 cut 10 171 20 9 40 1.6 "
    "0 LINE 8 scribe 10 0 20 12 11 180 21 12 "
    "0 TEXT 8 notes 10 500 20 500 1 base"
)


def test_a_flat_pattern_gives_unit_size_holes_and_layers(tmp_path: Path) -> None:
    assert read(tmp_path, "base.dxf", dxf(PLATE)) == Shape(
        unit="mm",
        size=(180.0, 100.0, 0.0),
        circles=(Circle(9, 9, 3.2), Circle(171, 9, 3.2)),
        layers=("cut", "scribe", "notes"),
        passed_over=("1 TEXT",),
    )


@pytest.mark.parametrize(
    ("header", "unit"),
    [
        ("9 $INSUNITS 70 1", "in"),
        ("9 $DIMTXT 40 2.5 9 $INSUNITS 70 6 9 $X 40 4", "m"),
        ("9 $INSUNITS 70 0", ""),
        ("9 $DIMTXT 40 2.5", ""),
        ("9 $INSUNITS", ""),
    ],
)
def test_the_unit_is_what_the_header_says_or_nothing(
    tmp_path: Path, header: str, unit: str
) -> None:
    assert read(tmp_path, "a.dxf", dxf(PLATE, header)).unit == unit


@pytest.mark.parametrize(
    ("entity", "size"),
    [
        ("0 ARC 10 0 20 0 40 10 50 0 51 180", (20, 10)),
        ("0 ARC 10 0 20 0 40 10 50 270 51 90", (10, 20)),
        ("0 ARC 10 0 20 0 40 10 50 0 51 90", (10, 10)),
        ("0 ARC 10 5 20 5 40 10 50 45 51 135", (math.sqrt(200), 10 - math.sqrt(50))),
        # a slot: two straight sides of 20, ends of radius 5
        (
            "0 LWPOLYLINE 70 1 10 0 20 0 10 20 20 0 42 1 10 20 20 10 10 0 20 10 42 1",
            (30, 10),
        ),
        # the same half circle bulging inward stays inside the corners
        (
            "0 LWPOLYLINE 90 4 70 1 10 0 20 0 10 20 20 0 42 -1 10 20 20 10 10 0 20 10",
            (20, 10),
        ),
        # extrusion downward mirrors an arc in x (DXF reference, arbitrary axis)
        ("0 ARC 10 10 20 0 40 5 50 270 51 90 230 -1 0 POINT 10 10 20 0", (25, 10)),
        ("0 ELLIPSE 10 0 20 0 11 10 21 0 40 0.5 41 0 42 6.28", (20, 10)),
        ("0 SPLINE 70 8 10 0 20 0 10 5 20 9 10 10 20 0", (10, 9)),
        (
            "0 POLYLINE 66 1 10 0 20 0 0 VERTEX 10 1 20 2 0 VERTEX 10 4 20 7 0 SEQEND",
            (3, 5),
        ),
    ],
)
def test_the_size_follows_every_curve(
    tmp_path: Path, entity: str, size: tuple[float, float]
) -> None:
    found = read(tmp_path, "a.dxf", dxf(entity)).size
    assert found is not None
    assert found == pytest.approx((*size, 0))


def test_what_is_not_measured_is_named_and_gives_no_size(tmp_path: Path) -> None:
    shape = read(tmp_path, "a.dxf", dxf("0 INSERT 2 hinge 10 0 20 0 0 INSERT 2 x"))
    assert (shape.size, shape.passed_over) == (None, ("2 INSERT",))


CORNERS = [(0, 0, 0), (40, 0, 0), (0, 30, 0), (0, 0, 0), (40, 0, 0), (0, 0, 12)]


def binary_stl(corners: Sequence[tuple[float, ...]], head: bytes = b"gate") -> bytes:
    body = b"".join(
        struct.pack("<12fH", 0, 0, 1, *sum(corners[n : n + 3], ()), 0)
        for n in range(0, len(corners), 3)
    )
    return head.ljust(80, b"\0") + struct.pack("<I", len(corners) // 3) + body


def words_stl(corners: Sequence[tuple[float, ...]]) -> bytes:
    lines = ["solid gate"]
    for n in range(0, len(corners), 3):
        lines += ["facet normal 0 0 1", "outer loop"]
        lines += [f"vertex {x:e} {y} {z}" for x, y, z in corners[n : n + 3]]
        lines += ["endloop", "endfacet"]
    return "\n".join([*lines, "endsolid gate"]).encode()


@pytest.mark.parametrize(
    "data",
    [
        binary_stl(CORNERS),
        binary_stl(CORNERS, b"solid gate made of words, it says"),
        words_stl(CORNERS),
        words_stl(CORNERS).replace(b"\n", b"\r\n"),
    ],
)
def test_an_stl_has_size_and_triangles_and_no_unit(tmp_path: Path, data: bytes) -> None:
    assert read(tmp_path, "gate.STL", data) == Shape("", (40, 30, 12), triangles=2)


def test_a_mesh_longer_than_one_piece_is_measured_whole(tmp_path: Path) -> None:
    many = [(float(n % 7), 0.0, 1.0) for n in range(3 * 9000)] + [(0.0, 5.0, 77.0)] * 3
    assert read(tmp_path, "a.stl", binary_stl(many)) == Shape(
        "", (6, 5, 76), triangles=9001
    )


@pytest.mark.parametrize(
    ("name", "data", "sentence"),
    [
        ("a.stl", b"", "0 bytes are too few for an STL"),
        (
            "a.stl",
            binary_stl(CORNERS)[:-1],
            "announces 2 triangles, 184 bytes, and has",
        ),
        ("a.stl", b"solid\n  vertex 1 2 3\n", "1 corners make no triangles"),
        ("a.stl", b"solid\n  vertex 1 2 x\n", "could not convert string to float"),
        ("a.stl", binary_stl([(0, 0, math.nan), *CORNERS[1:]]), "is not a number"),
        ("a.stl", binary_stl([*CORNERS[:-1], (0, 0, math.nan)]), "is not a number"),
        ("a.stl", binary_stl([*CORNERS[:-1], (0, 0, math.inf)]), "is not a number"),
        ("a.dxf", b"", "no ENTITIES section"),
        ("a.dxf", b"<html>\n<body>\n", "line 1: found “<html>” instead of a group"),
        ("a.dxf", b"Binary DXF\r\n\x1a\0", "a binary DXF"),
        ("a.dxf", dxf("0 CIRCLE 10 0 20 0"), "a CIRCLE without group 40"),
        ("a.dxf", dxf("0 LINE 10 0 20 0 11 nan 21 1"), "is not a number"),
        ("a.dxf", dxf("0 LINE 10 0 20 0 11 wide 21 1"), "'wide'"),
    ],
)
def test_a_broken_file_says_what_is_wrong(
    tmp_path: Path, name: str, data: bytes, sentence: str
) -> None:
    told = why(tmp_path, name, data)
    assert told.startswith("could not be read: ")
    assert sentence in told


def test_other_formats_and_missing_files_are_values_too(tmp_path: Path) -> None:
    assert read_shape(tmp_path / "bed.step") is None
    assert isinstance(read_shape(tmp_path / "gone.stl"), Unreadable)


@given(
    data=st.binary(max_size=400)
    | st.text("0123456789.- \nLINEARCKD", max_size=300).map(
        lambda text: dxf(" ".join(text.split()))
    ),
    name=st.sampled_from(["a.dxf", "a.stl"]),
)
def test_no_bytes_raise(
    tmp_path_factory: pytest.TempPathFactory, data: bytes, name: str
) -> None:
    file = tmp_path_factory.mktemp("any") / name
    file.write_bytes(data)
    assert isinstance(read_shape(file), Shape | Unreadable)


@given(st.floats(-500, 500), st.floats(1, 50), st.floats(0, 359), st.floats(1, 359))
def test_an_arc_lies_in_its_box_and_touches_it(
    tmp_path_factory: pytest.TempPathFactory,
    x: float,
    radius: float,
    start: float,
    turn: float,
) -> None:
    arc = f"0 ARC 10 {x} 20 0 40 {radius} 50 {start} 51 {(start + turn) % 360}"
    shape = read(tmp_path_factory.mktemp("arc"), "a.dxf", dxf(arc))
    angles = [math.radians(start + turn * n / 2000) for n in range(2001)]
    across = [radius * math.cos(angle) for angle in angles]
    up = [radius * math.sin(angle) for angle in angles]
    assert shape.size == pytest.approx(
        (max(across) - min(across), max(up) - min(up), 0), abs=radius * 1e-5
    )
