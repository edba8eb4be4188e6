"""Pictures drawn for tests, with secrets planted where cameras write them."""

from __future__ import annotations

import io
import struct
import zlib

from PIL import Image

ASCII, SHORT, LONG, RATIONAL, UNDEFINED = 2, 3, 4, 5, 7
SECRET = b"SECRET"


def stripes(width: int = 64, height: int = 48) -> Image.Image:
    """Draw a picture no two of whose four corners are alike."""
    picture = Image.new("RGB", (width, height), "white")
    half = width // 2, height // 2
    picture.paste((200, 30, 30), (0, 0, *half))
    picture.paste((30, 200, 30), (half[0], 0, width, half[1]))
    picture.paste((30, 30, 200), (0, half[1], half[0], height))
    return picture


def encoded(picture: Image.Image, kind: str = "JPEG", **how: object) -> bytes:
    out = io.BytesIO()
    picture.save(out, kind, **how)
    return out.getvalue()


Entry = tuple[int, int, int, bytes]


def ascii_entry(tag: int, text: str) -> Entry:
    data = text.encode() + b"\0"
    return tag, ASCII, len(data), data


def ifd(entries: list[Entry], at: int, following: int = 0) -> bytes:
    """Write one image file directory that begins `at` bytes into the TIFF."""
    head, body = struct.pack("<H", len(entries)), b""
    behind = at + 2 + 12 * len(entries) + 4
    for tag, kind, count, data in sorted(entries):
        if len(data) <= 4:
            value = data.ljust(4, b"\0")
        else:
            value = struct.pack("<I", behind + len(body))
            body += data + b"\0" * (len(data) % 2)
        head += struct.pack("<HHI", tag, kind, count) + value
    return head + struct.pack("<I", following) + body


def offset(value: int) -> bytes:
    return struct.pack("<I", value)


def exif_block(orientation: int, stamp: str, zone: str = "") -> bytes:
    """Write EXIF with GPS, serial numbers, MakerNote and a thumbnail (IFD 1)."""
    camera = [
        ascii_entry(0x9003, stamp),
        (0x927C, UNDEFINED, 20, b"SECRET maker's note!"),
        ascii_entry(0xA431, "SECRET body serial"),
        *([ascii_entry(0x9011, zone)] if zone else []),
    ]
    place = [
        (0x0001, ASCII, 2, b"N\0"),
        (0x0002, RATIONAL, 3, struct.pack("<6I", 52, 1, 31, 1, 12, 1)),
        ascii_entry(0x001B, "SECRET place"),
    ]
    picture = b"\xff\xd8SECRET thumbnail\xff\xd9"
    at_camera = 400
    at_place = at_camera + len(ifd(camera, 0))
    at_thumbnail = at_place + len(ifd(place, 0))
    thumbnail = [
        (0x0201, LONG, 1, offset(at_thumbnail + 30)),
        (0x0202, LONG, 1, offset(len(picture))),
    ]
    main = [
        ascii_entry(0x010F, "SECRET make"),
        (0x0112, SHORT, 1, struct.pack("<H", orientation)),
        ascii_entry(0x013B, "SECRET artist"),
        (0x8769, LONG, 1, offset(at_camera)),
        (0x8825, LONG, 1, offset(at_place)),
    ]
    head = b"II*\0\x08\0\0\0" + ifd(main, 8, at_thumbnail)
    return (
        head.ljust(at_camera, b"\0")
        + ifd(camera, at_camera)
        + ifd(place, at_place)
        + ifd(thumbnail, at_thumbnail).ljust(30, b"\0")
        + picture
    )


def segment(marker: int, body: bytes) -> bytes:
    return b"\xff" + bytes([marker]) + struct.pack(">H", len(body) + 2) + body


def with_secrets(jpeg: bytes, orientation: int = 6) -> bytes:
    """Plant a secret in every place a camera or a program writes one."""
    exif = exif_block(orientation, "2026:03:14 10:15:22", "+01:00")
    segments = [
        segment(0xE1, b"Exif\0\0" + exif),
        segment(0xE1, b"http://ns.adobe.com/xap/1.0/\0<x:xmpmeta>SECRET xmp"),
        segment(0xED, b"Photoshop 3.0\x008BIM\x04\x04\0\0\0\0\0\x0bSECRET iptc"),
        segment(0xE2, b"MPF\0II*\0\x08\0\0\0\0\0SECRET mpf"),
        segment(0xE0, b"JFXX\0\x10SECRET jfxx"),
        segment(0xE5, b"SECRET maker segment"),
        segment(0xFE, b"SECRET comment"),
    ]
    return jpeg[:2] + b"".join(segments) + jpeg[2:] + b"SECRET after the end"


def chunk(name: bytes, body: bytes) -> bytes:
    mark = zlib.crc32(name + body)
    return struct.pack(">I", len(body)) + name + body + struct.pack(">I", mark)
