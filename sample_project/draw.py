"""Draws the design files and photos of the copy stand; every size is invented.

The sizes stand in the functions below and nowhere else: the files really have
them. DXF (R12, millimetres) keeps cut lines, scribe lines and text on layers of
their own; STL is binary, in millimetres; photos are JPEG with the metadata a
phone would add, so that taking them in has something to remove.
"""

from __future__ import annotations

import io
import math
import struct
from collections.abc import Iterable

CUT, SCRIBE, NOTES = "CUT", "SCRIBE", "NOTES"

SHEET_MM = 2.0
RADIUS_MM = 2.0
NEUTRAL = 0.42
OPENING_MM = 180.0
UPRIGHT_MM = 100.0
FLANGE_MM = 12.0
DEPTH_MM = 60.0


# -- DXF -------------------------------------------------------------------------


def _pairs(*pairs: tuple[int, object]) -> str:
    return "".join(f"{code:>3}\n{value}\n" for code, value in pairs)


def _mm(value: float) -> str:
    return f"{value:.4f}"


def line(layer: str, x1: float, y1: float, x2: float, y2: float) -> str:
    """Give a LINE entity."""
    start = ((10, _mm(x1)), (20, _mm(y1)), (30, _mm(0)))
    end = ((11, _mm(x2)), (21, _mm(y2)), (31, _mm(0)))
    return _pairs((0, "LINE"), (8, layer), *start, *end)


def circle(x: float, y: float, diameter: float, layer: str = CUT) -> str:
    """Give a CIRCLE entity."""
    centre = ((10, _mm(x)), (20, _mm(y)), (30, _mm(0)))
    return _pairs((0, "CIRCLE"), (8, layer), *centre, (40, _mm(diameter / 2)))


def text(x: float, y: float, words: str) -> str:
    """Give a TEXT entity, 4 mm high."""
    place = ((10, _mm(x)), (20, _mm(y)), (30, _mm(0)))
    return _pairs((0, "TEXT"), (8, NOTES), *place, (40, _mm(4)), (1, words))


def rectangle(x: float, y: float, width: float, height: float) -> str:
    """Give the four cut lines of a rectangle with its corner at x, y."""
    corners = [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]
    ring = zip(corners, [*corners[1:], corners[0]], strict=True)
    return "".join(line(CUT, *a, *b) for a, b in ring)


def slot(x: float, y: float, width: float, length: float) -> str:
    """Give a slot along x as two lines and two circles' worth of ends."""
    half, straight = width / 2, (length - width) / 2
    ends = [(x - straight, 90.0, 270.0), (x + straight, 270.0, 90.0)]
    arcs = "".join(
        _pairs(
            (0, "ARC"), (8, CUT), (10, _mm(cx)), (20, _mm(y)), (30, _mm(0)),
            (40, _mm(half)), (50, _mm(start)), (51, _mm(end)),
        )
        for cx, start, end in ends
    )  # fmt: skip
    top = line(CUT, x - straight, y + half, x + straight, y + half)
    bottom = line(CUT, x - straight, y - half, x + straight, y - half)
    return arcs + top + bottom


def drawing(*entities: str) -> bytes:
    """Put entities into a DXF file in millimetres, CR LF line ends as CAD writes."""
    head = _pairs(
        (0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, "AC1009"),
        (9, "$INSUNITS"), (70, 4), (0, "ENDSEC"), (0, "SECTION"), (2, "ENTITIES"),
    )  # fmt: skip
    body = head + "".join(entities) + _pairs((0, "ENDSEC"), (0, "EOF"))
    return body.replace("\n", "\r\n").encode("ascii")


# -- the parts -------------------------------------------------------------------


def bend_allowance() -> float:
    """Give the length of neutral line in one 90° bend, mm: rad(90)·(R + K·T)."""
    return math.pi / 2 * (RADIUS_MM + NEUTRAL * SHEET_MM)


def bend_deduction() -> float:
    """Give what one 90° bend takes off the outside legs, mm: 2·(R + T) − allowance."""
    return 2 * (RADIUS_MM + SHEET_MM) - bend_allowance()


def base_legs() -> tuple[float, ...]:
    """Give the outside legs of the folded base, mm, from flange to flange."""
    across = OPENING_MM + 2 * SHEET_MM
    return (FLANGE_MM, UPRIGHT_MM, across, UPRIGHT_MM, FLANGE_MM)


def base_flat() -> float:
    """Give the flat length of the base, mm."""
    return sum(base_legs()) - 4 * bend_deduction()


def base() -> bytes:
    """Draw the flat of the base with a scribe line at each bend centre."""
    lines, at = [], 0.0
    for number, leg in enumerate(base_legs()[:-1]):
        at += leg - bend_deduction() / (2 if number == 0 else 1)
        lines.append(line(SCRIBE, at, 0, at, DEPTH_MM))
    holes = [circle(base_flat() / 2 + dx, DEPTH_MM / 2, 4.3) for dx in (-60, 0, 60)]
    note = text(0, -10, "5052-H32 2.0 mm, general tolerances ISO 2768-c")
    return drawing(rectangle(0, 0, base_flat(), DEPTH_MM), *lines, *holes, note)


def crossbar(length: float = 179.7, says: str = "length 179.7 +-0.1") -> bytes:
    """Draw the crossbar, 20 × 10 mm bar."""
    return drawing(rectangle(0, 0, length, 20), text(0, -10, says))


def diffuser(inset: float = 4.0, hole: float = 3.2) -> bytes:
    """Draw the diffuser, 150 × 150 mm, a hole `inset` in from each corner."""
    near, far = inset, 150 - inset
    holes = [circle(x, y, hole) for x in (near, far) for y in (near, far)]
    return drawing(rectangle(0, 0, 150, 150), *holes)


def bed(*, slotted: bool = False) -> bytes:
    """Draw the bed, 240 mm across the grain, five holes; slots but for the middle."""
    places = [(-100.0, 0.0), (-50.0, 0.0), (0.0, 0.0), (50.0, 0.0), (100.0, 0.0)]
    holes = [
        slot(120 + dx, 150 + dy, 4.5, 9) if slotted and dx else
        circle(120 + dx, 150 + dy, 4.5)
        for dx, dy in places
    ]  # fmt: skip
    return drawing(rectangle(0, 0, 240, 300), *holes)


def mask(width: float = 36.0, height: float = 24.0) -> bytes:
    """Draw the mask: card 60 × 50 mm with the aperture in its middle."""
    aperture = rectangle(30 - width / 2, 25 - height / 2, width, height)
    return drawing(rectangle(0, 0, 60, 50), aperture)


def collar() -> bytes:
    """Draw the collar: 60 mm plate, 32 mm bore, four 4.3 mm holes on 48 mm."""
    holes = [
        circle(30 + 24 * math.cos(a), 30 + 24 * math.sin(a), 4.3)
        for a in (math.radians(45 + 90 * n) for n in range(4))
    ]
    return drawing(circle(30, 30, 60), circle(30, 30, 32), *holes)


def lid(hole: float = 3.3) -> bytes:
    """Draw the lid of the cable channel: 140 × 22 mm, four holes."""
    holes = [circle(x, y, hole) for x in (8.0, 132.0) for y in (5.0, 17.0)]
    return drawing(rectangle(0, 0, 140, 22), *holes)


def gate(wall: float = 2.4) -> bytes:
    """Model the gate: a frame 60 × 50 × 12 mm around a 40 × 28 mm window."""
    gap = 0.0 if wall < 3 else 2.0
    boxes = [
        ((0, 0, 0), (60, 11, 12 + gap)), ((0, 39, 0), (60, 50, 12 + gap)),
        ((0, 11, 0), (10, 39, 12 + gap)), ((50, 11, 0), (60, 39, 12 + gap)),
    ]  # fmt: skip
    return solid(boxes)


Corner = tuple[float, float, float]


def solid(boxes: Iterable[tuple[Corner, Corner]]) -> bytes:
    """Write boxes as a binary STL."""
    triangles = [t for low, high in boxes for t in _box(low, high)]
    head = b"copy stand, invented, millimetres".ljust(80, b" ")
    body = b"".join(
        struct.pack("<12fH", *normal, *(c for corner in corners for c in corner), 0)
        for normal, corners in triangles
    )
    return head + struct.pack("<I", len(triangles)) + body


def _box(low: Corner, high: Corner) -> list[tuple[Corner, tuple[Corner, ...]]]:
    made = []
    for axis in range(3):
        u, v = (axis + 1) % 3, (axis + 2) % 3
        for side, at in ((-1.0, low[axis]), (1.0, high[axis])):
            normal = [0.0, 0.0, 0.0]
            normal[axis] = side
            square = []
            for du, dv in ((0, 0), (1, 0), (1, 1), (0, 1)):
                corner = [0.0, 0.0, 0.0]
                corner[axis] = at
                corner[u] = high[u] if du else low[u]
                corner[v] = high[v] if dv else low[v]
                square.append((corner[0], corner[1], corner[2]))
            if side < 0:
                square.reverse()
            facing = (normal[0], normal[1], normal[2])
            made += [
                (facing, (square[0], square[1], square[2])),
                (facing, (square[0], square[2], square[3])),
            ]
    return made


FILES = {
    "drawings/base.dxf": base,
    "drawings/crossbar.dxf": crossbar,
    "drawings/diffuser.dxf": diffuser,
    "drawings/bed.dxf": bed,
    "drawings/mask.dxf": mask,
    "drawings/collar.dxf": collar,
    "drawings/lid.dxf": lid,
    "models/gate.stl": gate,
}
"""The files of release 1.0, by path."""

REVISED = {
    "drawings/crossbar.dxf": lambda: crossbar(182.0, "blank, cut to suit"),
    "drawings/diffuser.dxf": lambda: diffuser(9.0, 4.0),
    "drawings/bed.dxf": lambda: bed(slotted=True),
    "drawings/lid.dxf": lambda: lid(5.0),
    "models/gate.stl": lambda: gate(3.2),
}
"""The files that release 1.1 changes."""


# -- photos ----------------------------------------------------------------------


def photo(subject: str) -> bytes:
    """Draw a photo, turned as a phone stores it, with metadata to take away."""
    from PIL import Image, ImageDraw

    picture = Image.new("RGB", (1200, 900), (196, 192, 184))
    pen = ImageDraw.Draw(picture)
    _SUBJECTS[subject](pen)
    pen.text((30, 850), f"{subject} (drawn, invented)", fill=(60, 60, 60))
    turned = picture.rotate(90, expand=True)
    exif = Image.Exif()
    exif[0x0112] = 6
    exif[0x010F] = "A phone"
    exif.get_ifd(0x8769).update({0x9003: "2026:03:14 10:15:20", 0xA431: "SN-12345"})
    exif.get_ifd(0x8825).update(
        {1: "N", 2: (48.0, 12.0, 30.0), 3: "E", 4: (11.0, 3.0, 5.0)}
    )
    out = io.BytesIO()
    turned.save(out, "JPEG", quality=88, exif=exif)
    return out.getvalue()


def _cracked(pen) -> None:  # type: ignore[no-untyped-def] # noqa: ANN001
    pen.rectangle(
        (150, 120, 1050, 1100), fill=(236, 236, 232), outline=(120, 120, 120), width=4
    )
    pen.ellipse(
        (180, 150, 240, 210), fill=(150, 150, 150), outline=(80, 80, 80), width=5
    )
    crack = [(185, 160), (172, 148), (166, 139), (152, 122)]
    pen.line(crack, fill=(30, 30, 30), width=5)
    pen.line(
        [(236, 200), (262, 232), (270, 260), (301, 290)], fill=(70, 70, 70), width=3
    )


def _sagged(pen) -> None:  # type: ignore[no-untyped-def] # noqa: ANN001
    pen.rectangle((200, 250, 1000, 330), fill=(70, 70, 75))
    curve = [(200 + 8 * n, 600 + 60 * math.sin(math.pi * n / 100)) for n in range(101)]
    upper = [(x, y - 30) for x, y in curve]
    lower = [(x, y + 30) for x, y in reversed(curve)]
    pen.polygon([*upper, *lower], fill=(40, 40, 45))
    pen.line([(200, 570), (1000, 570)], fill=(180, 60, 40), width=3)


_SUBJECTS = {"diffuser crack": _cracked, "gate sag": _sagged}
