"""Taking in a photo: upright, small, and with nothing private left in it.

git never forgets, so a photo is cleaned before it is first written. Only the
pixels and the colour profile go on; the picture is always encoded anew, and its
bytes are scanned before they are handed out.
"""

from __future__ import annotations

import io
import re
import struct
import warnings
import zlib
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from logbook.errors import BadInput, Refused
from logbook.store.photos.metadata import private_parts

if TYPE_CHECKING:
    from PIL.Image import Exif, Image

LONGEST_PX = 1600
THUMBNAIL_PX = 320
MOST_BYTES = 80_000_000
MOST_PIXELS = 220_000_000
MOST_PIXELS_WHOLE = 60_000_000
"""The limit for a PNG and a progressive JPEG, which are in memory as a whole."""

_QUALITY = 85
_PNG_WORTH = 800_000
_ACCEPTED = "a JPEG or PNG of at most 80 MB"
_PROFILE_BYTES = 1_000_000
# EXIF 2.32 tags: the capture time and its offset, as original, then as digitized.
_EXIF_IFD, _ORIENTATION = 0x8769, 0x0112
_CAPTURE_TAGS = ((0x9003, 0x9011), (0x9004, 0x9012))
_BICUBIC = 3
_BROKEN = (
    *(OSError, ValueError, SyntaxError, EOFError, TypeError, KeyError, IndexError),
    *(struct.error, zlib.error, OverflowError, ZeroDivisionError, NotImplementedError),
)
_STAMP = re.compile(r"(\d{4}):(\d\d):(\d\d) (\d\d):(\d\d):(\d\d)")
_OFFSET = re.compile(r"([+-])(\d\d):(\d\d)")


@dataclass(frozen=True, slots=True)
class Photo:
    """A cleaned photo, ready to be saved under its names; sizes in pixels.

    `taken` is the capture time the camera wrote, with its offset where it wrote
    one, None without. The names come from the content.
    """

    name: str
    data: bytes
    thumbnail_name: str
    thumbnail: bytes
    width: int
    height: int
    taken: datetime | None


def take_in(data: bytes, shown: str = "the photo") -> Photo:
    """Clean and scale the photo `data`; `shown` names it in a refusal.

    Raises:
        BadInput: it is no picture accepted here, or too large.
        Refused: something private was still found after cleaning.
    """
    if len(data) > MOST_BYTES:
        raise BadInput(
            f"{shown} has {len(data) // 1_000_000} MB; accepted: {_ACCEPTED}"
        )
    large, profile, taken, format_ = _read(data, shown)
    small = large.resize(_box(large.size, THUMBNAIL_PX), _BICUBIC)
    kind, image = _encoded(large, profile, prefer_png=format_ == "PNG")
    thumbnail_kind, thumbnail = _encoded(small, profile, prefer_png=kind == "png")
    for made in (image, thumbnail):
        if left := private_parts(made):
            raise Refused(f"{shown} was not taken in: {', '.join(left)} is left in it")
    name = sha256(image).hexdigest()[:20]
    return Photo(
        f"{name}.{kind}",
        image,
        f"{name}-small.{thumbnail_kind}",
        thumbnail,
        *large.size,
        taken,
    )


def taken_at(place: Path) -> datetime | None:
    """Give the capture time a photo's file says, without decoding it.

    None where it says none, or cannot be read as a picture. A camera that writes
    no offset is taken to stand where this machine stands.
    """
    from PIL import Image as Pillow

    try:
        with Pillow.open(place, formats=("JPEG", "PNG")) as picture:
            taken = _capture_time(_exif(picture))
    except (*_BROKEN, Pillow.DecompressionBombError):
        return None
    return taken.astimezone() if taken else None


def _read(data: bytes, shown: str) -> tuple[Image, bytes, datetime | None, str]:
    """Decode at about the size wanted; give it upright, with profile and time."""
    from PIL import Image as Pillow

    warnings.filterwarnings("ignore", module=r"PIL\.")
    # Our own limit, checked before anything is decoded, takes the place of Pillow's.
    Pillow.MAX_IMAGE_PIXELS = None
    try:
        with Pillow.open(io.BytesIO(data), formats=("JPEG", "PNG")) as picture:
            format_ = str(picture.format)
            _check_size(picture, shown)
            exif = _exif(picture)
            profile = picture.info.get("icc_profile") or b""
            box = _box(picture.size, LONGEST_PX)
            picture.draft(picture.mode, box)
            scaled = _plain(picture).resize(box, _BICUBIC)
    except BadInput:
        raise
    except _BROKEN as error:
        raise BadInput(
            f"{shown} is not a picture that can be read; accepted: {_ACCEPTED}"
        ) from error
    upright = _upright(scaled, exif)
    upright.info.clear()
    return upright, _fitting(profile, upright.mode), _capture_time(exif), format_


def _check_size(picture: Image, shown: str) -> None:
    width, height = picture.size
    whole = picture.format == "PNG" or "progressive" in picture.info
    most = MOST_PIXELS_WHOLE if whole else MOST_PIXELS
    if width * height > most:
        kind = "PNG or a progressive JPEG" if whole else "JPEG"
        raise BadInput(
            f"{shown} has {width} × {height} pixels; accepted: at most "
            f"{most // 1_000_000} million in a {kind}"
        )


def _box(size: tuple[int, int], longest: int) -> tuple[int, int]:
    scale = min(1.0, longest / max(size))
    return max(1, round(size[0] * scale)), max(1, round(size[1] * scale))


def _plain(picture: Image) -> Image:
    """Give the picture in grey, colour, or colour with transparency, 8 bits each."""
    if picture.mode in ("L", "RGB", "RGBA"):
        return picture
    if picture.mode.startswith("I"):
        return picture.convert("I").point(lambda value: value * (1 / 256)).convert("L")
    if picture.mode in ("LA", "PA") or "transparency" in picture.info:
        return picture.convert("RGBA")
    return picture.convert("L" if picture.mode == "1" else "RGB")


def _exif(picture: Image) -> Exif | None:
    try:
        return picture.getexif()
    except _BROKEN:
        return None


def _upright(picture: Image, exif: Exif | None) -> Image:
    from PIL.Image import Transpose

    ways = {
        2: Transpose.FLIP_LEFT_RIGHT,
        3: Transpose.ROTATE_180,
        4: Transpose.FLIP_TOP_BOTTOM,
        5: Transpose.TRANSPOSE,
        6: Transpose.ROTATE_270,
        7: Transpose.TRANSVERSE,
        8: Transpose.ROTATE_90,
    }
    way = ways.get(exif.get(_ORIENTATION, 1)) if exif is not None else None
    return picture if way is None else picture.transpose(way)


def _capture_time(exif: Exif | None) -> datetime | None:
    if exif is None:
        return None
    try:
        tags = exif.get_ifd(_EXIF_IFD)
    except _BROKEN:
        return None
    for stamp, offset in _CAPTURE_TAGS:
        match = _STAMP.match(str(tags.get(stamp, "")))
        if match:
            try:
                year, month, day, hour, minute, second = map(int, match.groups())
                zone = _offset(str(tags.get(offset, "")))
                return datetime(year, month, day, hour, minute, second, tzinfo=zone)
            except ValueError:
                continue
    return None


def _offset(text: str) -> timezone | None:
    match = _OFFSET.match(text)
    if not match:
        return None
    minutes = int(match[2]) * 60 + int(match[3])
    return timezone(timedelta(minutes=-minutes if match[1] == "-" else minutes))


def _fitting(profile: bytes, mode: str) -> bytes:
    """Keep a whole colour profile for these pixels (ICC.1, table 17), or none."""
    space = {"L": b"GRAY", "RGB": b"RGB ", "RGBA": b"RGB "}[mode]
    whole = profile[16:20] == space and profile[36:40] == b"acsp"
    exact = len(profile) == int.from_bytes(profile[:4], "big")
    return profile if whole and exact and len(profile) <= _PROFILE_BYTES else b""


def _encoded(picture: Image, profile: bytes, *, prefer_png: bool) -> tuple[str, bytes]:
    """Encode a drawing or a screen picture as PNG while that is small, else JPEG."""
    out = io.BytesIO()
    if prefer_png:
        picture.save(out, "PNG", optimize=True, icc_profile=profile or None)
        if out.tell() <= _PNG_WORTH:
            return "png", out.getvalue()
    out = io.BytesIO()
    opaque = _on_white(picture) if picture.mode == "RGBA" else picture
    opaque.save(out, "JPEG", quality=_QUALITY, optimize=True, icc_profile=profile)
    return "jpg", out.getvalue()


def _on_white(picture: Image) -> Image:
    from PIL import Image as Pillow

    page = Pillow.new("RGB", picture.size, "white")
    page.paste(picture, mask=picture.getchannel("A"))
    return page
