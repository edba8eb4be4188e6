"""A byte scanner that tells what a picture file carries besides its pixels.

It works by what is allowed, not by what is known to be private: anything but
the parts a decoder needs, and the colour profile, is named. JPEG markers after
ITU-T T.81 annex B, JFIF after ITU-T T.871, ICC in JPEG after ICC.1 annex B.4,
PNG chunks after the W3C PNG specification.
"""

from __future__ import annotations

import zlib
from collections.abc import Iterator

_PNG = b"\x89PNG\r\n\x1a\n"
_PNG_ALLOWED = frozenset(
    {b"IHDR", b"PLTE", b"tRNS", b"IDAT", b"IEND", b"iCCP", b"sRGB", b"gAMA", b"cHRM"}
)
_SOI, _EOI, _SOS, _COM = 0xD8, 0xD9, 0xDA, 0xFE
_ALONE = frozenset({0x01, *range(0xD0, 0xD8)})
# Tables, frame headers, restart interval: all a decoder needs (T.81, table B.1).
_NEEDED = frozenset({0xC4, 0xDB, 0xDD, *range(0xC0, 0xC4), *range(0xC9, 0xCC)})
_ICC = b"ICC_PROFILE\0"


def private_parts(data: bytes) -> tuple[str, ...]:
    """Name what `data`, a JPEG or PNG file, carries besides picture and profile."""
    try:
        if data.startswith(_PNG):
            return tuple(_png_parts(data))
        if data[:2] == bytes((0xFF, _SOI)):
            return tuple(_jpeg_parts(data))
    except IndexError:
        return ("a file cut short",)
    return ("a format that is neither JPEG nor PNG",)


def _png_parts(data: bytes) -> Iterator[str]:
    at = len(_PNG)
    while at < len(data):
        length = int.from_bytes(data[at : at + 4], "big")
        name, body = data[at + 4 : at + 8], data[at + 8 : at + 8 + length]
        mark = data[at + 8 + length : at + 12 + length]
        if zlib.crc32(name + body).to_bytes(4, "big") != mark:
            yield f"a damaged {name!r} chunk"
            return
        if name not in _PNG_ALLOWED:
            yield f"a {name.decode('latin-1')} chunk"
        at += 12 + length
        if name == b"IEND":
            break
    else:
        yield "no end of the picture"
    if at < len(data):
        yield f"{len(data) - at} bytes after the picture"


def _jpeg_parts(data: bytes) -> Iterator[str]:
    at = 2
    while True:
        if data[at] != 0xFF:
            yield f"bytes between segments at {at}"
            return
        while data[at + 1] == 0xFF:
            at += 1
        marker = data[at + 1]
        at += 2
        if marker == _EOI:
            break
        if marker in _ALONE:
            continue
        length = int.from_bytes(data[at : at + 2], "big")
        body = data[at + 2 : at + length]
        if marker == _SOS:
            at = _after_scan(data, at + length)
            continue
        if (found := _segment(marker, body)) is not None:
            yield found
        at += length
    if at < len(data):
        yield f"{len(data) - at} bytes after the picture"


def _after_scan(data: bytes, at: int) -> int:
    """Find the next marker behind entropy-coded data, where FF 00 is a data byte."""
    while True:
        at = data.find(b"\xff", at)
        if at < 0:
            raise IndexError
        if data[at + 1] != 0 and data[at + 1] not in _ALONE:
            return at
        at += 2


def _segment(marker: int, body: bytes) -> str | None:
    if marker in _NEEDED:
        return None
    # Longer than 14 bytes it holds a thumbnail.
    if marker == 0xE0 and body[:5] == b"JFIF\0" and len(body) == 14:
        return None
    if marker == 0xE2 and body.startswith(_ICC):
        return None
    if marker == 0xEE and body.startswith(b"Adobe") and len(body) == 12:
        return None
    if marker == _COM:
        return "a comment"
    if 0xE0 <= marker <= 0xEF:
        label = body.split(b"\0")[0][:30].decode("latin-1")
        return f"application segment {marker - 0xE0} ({label or 'unnamed'})"
    return f"segment {marker:02X}"
