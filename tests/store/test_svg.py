"""Page and outline of an SVG.

Lengths: CSS Values and Units Level 4, section 6.2 (1 in = 2.54 cm = 96 px = 72 pt =
6 pc, 1 cm = 40 Q), from memory. Expected outlines are plane geometry worked by hand,
and points of the same curve, close to each other, as the path library gives them.
"""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from svg.path import parse_path

from logbook.store.designs.shape_files import read_shape
from logbook.store.designs.shapes import Numbers, Shape, Unreadable

MM = 'width="200mm" height="100mm" viewBox="0 0 200 100"'
TALL = 'width="200mm" height="200mm" viewBox="0 0 100 200"'


def svg(inside: str, root: str = MM) -> bytes:
    return f'<svg xmlns="http://www.w3.org/2000/svg" {root}>{inside}</svg>'.encode()


def found(folder: Path, data: bytes) -> Shape | Unreadable | None:
    (folder / "mask.svg").write_bytes(data)
    return read_shape(folder / "mask.svg")


def read(folder: Path, data: bytes) -> Shape:
    shape = found(folder, data)
    assert isinstance(shape, Shape), shape
    return shape


def size(folder: Path, inside: str, root: str = MM) -> tuple[float, float]:
    shape = read(folder, svg(inside, root))
    assert shape.size is not None
    return shape.size[:2]


def test_a_cut_drawing_gives_unit_outline_holes_and_page(tmp_path: Path) -> None:
    drawn = svg(
        '<g id="cut"><rect x="10" y="20" width="70" height="40" rx="3"/>'
        '<circle cx="20" cy="30" r="1.6"/><circle cx="70" cy="30" r="1.6"/></g>'
        "<text x='150' y='90'>mask</text>"
    )
    found = read(tmp_path, drawn)
    plain = Shape("mm", (70, 40, 0), circles=found.circles, page=(200, 100))
    assert found == plain
    assert [(one.x, one.y) for one in found.circles] == [(20, 30), (70, 30)]
    assert [one.across for one in found.circles] == [pytest.approx(3.2)] * 2


def test_a_circle_pressed_to_an_ellipse_is_no_round_hole(tmp_path: Path) -> None:
    moved = '<g transform="scale(1 2)"><circle cx="20" cy="30" r="1.6"/></g>'
    assert read(tmp_path, svg(moved)).circles == ()


@pytest.mark.parametrize(
    ("root", "unit", "across"),
    [
        ('width="20cm" height="10cm" viewBox="0 0 200 100"', "mm", 50),
        ('width="8in" height="4in" viewBox="0 0 200 100"', "in", 2),
        ('width="8in" height="4in"', "in", 50 / 96),
        ('width="576pt" height="288pt" viewBox="0 0 200 100"', "mm", 50.8),
        ('width="48pc" height="24pc" viewBox="0 0 200 100"', "mm", 50.8),
        ('width="800Q" height="400Q" viewBox="0 0 200 100"', "mm", 50),
        ('width="192px" height="96px"', "mm", 50 * 25.4 / 96),
        # as much of the page as both directions leave room for; or each its own
        (TALL, "mm", 50),
        (
            f'{TALL} preserveAspectRatio="none"',
            "mm",
            100,
        ),
        (
            f'{TALL} preserveAspectRatio="xMidYMid slice"',
            "mm",
            100,
        ),
    ],
)
def test_a_length_is_what_the_page_makes_of_it(
    tmp_path: Path, root: str, unit: str, across: float
) -> None:
    shape = read(tmp_path, svg('<path d="M0 0h50v5z"/>', root))
    assert shape.unit == unit
    assert shape.size is not None
    assert shape.size[0] == pytest.approx(across)


def test_pixels_are_said_to_be_pixels(tmp_path: Path) -> None:
    shape = read(tmp_path, svg('<path d="M0 0h96v5z"/>', 'width="9px" height="9px"'))
    assert shape.numbers is Numbers.PIXELS


@pytest.mark.parametrize(
    ("root", "page"),
    [
        ('width="200" height="100"', (200, 100)),
        ('width="200" height="100" viewBox="0 0 40 20"', (40, 20)),
        ('viewBox="0 0 40 20"', (40, 20)),
        ('width="100%" height="100%" viewBox="0 0 40 20"', (40, 20)),
        ('width="20em" height="9em"', None),
        ("", None),
    ],
)
def test_user_units_alone_are_no_millimetres(
    tmp_path: Path, root: str, page: tuple[float, float] | None
) -> None:
    shape = read(tmp_path, svg('<path d="M0 0h30v5z"/>', root))
    assert shape == Shape("", (30, 5, 0), page=page, numbers=Numbers.USER_UNITS)


@pytest.mark.parametrize(
    ("inside", "wanted"),
    [
        ('<line x1="1" y1="2" x2="11" y2="5"/>', (10, 3)),
        ('<polygon points="0,0 30,0 30,12"/>', (30, 12)),
        ('<polyline points="0 0 30 0 30 12"/>', (30, 12)),
        ('<ellipse cx="50" cy="50" rx="20" ry="5"/>', (40, 10)),
        ('<rect x="1cm" width="96" height="9"/>', (96, 9)),
        # a half circle above its chord; the long way round and the short one
        ('<path d="M0 50 A10 10 0 0 1 20 50"/>', (20, 10)),
        ('<path d="M0 50 A10 10 0 1 1 10 60"/>', (20, 20)),
        ('<path d="M0 50 A10 10 0 0 0 10 60"/>', (10, 10)),
        # radii too small for the chord grow to it (SVG 2, 9.5.1)
        ('<path d="M0 50 a1 1 0 0 1 20 0"/>', (20, 10)),
        # half of a parabola's control, three quarters of a cubic's
        ('<path d="M0 0 Q 10 20 20 0"/>', (20, 10)),
        ('<path d="M0 0 C 0 20 20 20 20 0"/>', (20, 15)),
        # a square on its corner; a round one stays as it is
        (
            '<rect width="10" height="10" transform="rotate(45)"/>',
            (math.sqrt(200), math.sqrt(200)),
        ),
        ('<circle r="5" transform="translate(9,9) rotate(30 1 1)"/>', (10, 10)),
        # a square of 10 with corners of 5 is that circle
        ('<rect width="10" height="10" rx="5" transform="rotate(45)"/>', (10, 10)),
        ('<g transform="scale(2)"><line x2="7" y2="3"/></g>', (14, 6)),
        (
            '<g transform="scale(2 3)"><circle r="5" transform="skewX(0)"/></g>',
            (20, 30),
        ),
        ('<line x2="10" y2="10" transform="skewX(45)"/>', (20, 10)),
        ('<line x2="10" y2="10" transform="matrix(0 2 -1 0 5 5)"/>', (10, 20)),
        # a move alone draws nothing
        ('<path d="M0 0 h10 v5 M900 900"/>', (10, 5)),
    ],
)
def test_the_outline_follows_every_shape(
    tmp_path: Path, inside: str, wanted: tuple[float, float]
) -> None:
    assert size(tmp_path, inside) == pytest.approx(wanted)


@pytest.mark.parametrize(
    "unseen",
    [
        '<defs><rect width="900" height="900"/></defs>',
        '<rect width="900" height="900" display="none"/>',
        '<g style="display : none;"><rect width="900" height="900"/></g>',
        '<g visibility="hidden"><rect width="900" height="900"/></g>',
        '<g fill="none"><rect width="900" height="900"/></g>',
        '<rect width="900" height="900" style="fill:none;stroke:none"/>',
        '<rect width="900" height="-1"/>',
        '<x:g xmlns:x="urn:x"><rect width="900" height="900"/></x:g>',
        "<metadata><rect width='900' height='900'/></metadata>",
    ],
)
def test_what_does_not_show_is_no_outline(tmp_path: Path, unseen: str) -> None:
    assert size(tmp_path, unseen + '<path d="M0 0h30v5z"/>') == (30, 5)


def test_an_outline_without_filling_shows_by_its_line(tmp_path: Path) -> None:
    drawn = '<g fill="none"><path stroke="red" d="M0 0h30v5z"/></g>'
    assert size(tmp_path, drawn) == (30, 5)
    drawn = '<g class="cut" fill="none"><path d="M0 0h30v5z"/></g>'
    assert size(tmp_path, drawn) == (30, 5)


@pytest.mark.parametrize(
    ("inside", "named"),
    [
        ('<use href="#a"/>', "1 use"),
        ('<image width="9" height="9"/><image/>', "2 image"),
        ('<svg><rect width="9" height="9"/></svg>', "1 svg"),
        ('<rect width="50%" height="9"/>', "1 rect"),
        ('<path d="M0 0h9v9" clip-path="url(#c)"/>', "1 clipped or moved by its style"),
        (
            '<g style="transform: scale(3)"><path d="M0 0h9"/></g>',
            "1 clipped or moved by its style",
        ),
        ("<style>.no { display: none }</style>", "1 style sheet"),
    ],
)
def test_what_is_not_measured_leaves_the_page_alone(
    tmp_path: Path, inside: str, named: str
) -> None:
    drawn = svg('<path d="M0 0h30v5z"/><circle r="2"/>' + inside)
    shape = read(tmp_path, drawn)
    bare = Shape("mm", None, passed_over=(named,), page=(200, 100))
    assert shape == bare


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"", "no element found"),
        (b"<html/>", "its root is no svg element"),
        (b"<svg><path d='M0 0'", "unclosed token"),
        (svg('<path d="M0 0 A 1 1 0"/>'), "a path that cannot be read"),
        (svg('<path d="L"/>'), "a path that cannot be read"),
        (svg('<path d="0 0"/>'), "does not start with a command"),
        (svg('<rect transform="turn(3)" width="1" height="1"/>'), "“turn” of 1 number"),
        (svg("", 'viewBox="0 0 9"'), "no four numbers"),
        (svg('<path d="M0 0 L 1e999 0"/>'), "is not a number"),
        (
            b'<!DOCTYPE svg [<!ENTITY a "aa"><!ENTITY b "&a;&a;">]><svg>&b;</svg>',
            "that leads elsewhere",
        ),
        (
            b'<!DOCTYPE svg [<!ENTITY a SYSTEM "/etc/passwd">]><svg>&a;</svg>',
            "that leads elsewhere",
        ),
    ],
)
def test_a_broken_drawing_says_what_is_wrong(
    tmp_path: Path, data: bytes, sentence: str
) -> None:
    told = found(tmp_path, data)
    assert isinstance(told, Unreadable)
    assert told.why.startswith("could not be read: ")
    assert sentence in told.why


def test_an_entity_that_only_shortens_is_taken(tmp_path: Path) -> None:
    told = b'<!DOCTYPE svg [<!ENTITY one "http://www.w3.org/2000/svg">]>'
    drawn = told + svg('<path d="M0 0h30v5z"/>').replace(
        b"http://www.w3.org/2000/svg", b"&one;"
    )
    assert read(tmp_path, drawn).size == (30, 5, 0)


coordinates = st.integers(-60, 60)


@given(
    st.sampled_from(["C", "Q", "A", "S", "T"]),
    st.lists(coordinates, min_size=6, max_size=6),
    st.integers(0, 359),
    st.tuples(st.booleans(), st.booleans()),
)
def test_a_curve_lies_in_its_box_and_touches_it(
    tmp_path_factory: pytest.TempPathFactory,
    command: str,
    numbers: list[int],
    turn: int,
    flags: tuple[bool, bool],
) -> None:
    many = {"C": 6, "Q": 4, "S": 4, "T": 2}.get(command)
    told = " ".join(map(str, numbers[:many]))
    if command == "A":
        across, down = abs(numbers[0]) + 1, abs(numbers[1]) + 1
        told = (
            f"{across} {down} {turn} {flags[0]:d} {flags[1]:d} "
            f"{numbers[2]} {numbers[3]}"
        )
    data = f"M 3 4 Q 9 9 20 5 {command} {told}"
    drawn = svg(f'<path d="{data}" transform="rotate({turn})"/>')
    shape = read(tmp_path_factory.mktemp("curve"), drawn)
    curve, by = parse_path(data), complex(*(f(math.radians(turn)) for f in _TURN))
    points = [seg.point(n / 500) * by for seg in list(curve)[1:] for n in range(501)]
    wide = max(p.real for p in points) - min(p.real for p in points)
    high = max(p.imag for p in points) - min(p.imag for p in points)
    assert shape.size is not None
    assert shape.size[:2] == pytest.approx((wide, high), abs=0.02)
    assert shape.size[0] >= wide * (1 - 1e-7) - 1e-9
    assert shape.size[1] >= high * (1 - 1e-7) - 1e-9


_TURN = (math.cos, math.sin)


@given(
    st.binary(max_size=200)
    | st.text('<>/="svgpathdrctwx 0123456789MLAZ.-', max_size=200).map(svg)
    | st.text("MmLlCcQqAaZz 0123456789.,-e", max_size=80).map(
        lambda data: svg(f'<path d="{data}"/>')
    )
)
def test_no_bytes_raise(tmp_path_factory: pytest.TempPathFactory, data: bytes) -> None:
    told = found(tmp_path_factory.mktemp("any"), data)
    assert isinstance(told, Shape | Unreadable)
