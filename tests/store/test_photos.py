"""Nothing private leaves in a photo, and it stands upright whatever the camera said.

The private parts are planted byte by byte after EXIF 2.32 (TIFF structure), and
looked for again as bytes, by our scanner, and by an independent EXIF reader.
"""

from __future__ import annotations

import io
import struct
import zlib
from datetime import datetime, timedelta, timezone

import exifread
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageCms

from logbook.errors import BadInput, Refused
from logbook.store.photos.cleaned import LONGEST_PX, THUMBNAIL_PX, Photo, take_in
from logbook.store.photos.metadata import private_parts

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


def independent(data: bytes) -> dict[str, str]:
    tags = exifread.process_file(io.BytesIO(data), details=True)
    return {name: str(value)[:60] for name, value in tags.items()}


def pixels(data: bytes) -> Image.Image:
    return Image.open(io.BytesIO(data)).convert("RGB")


def corners(data: bytes) -> list[str]:
    """Say which colour rules in each corner: red, green, blue or white."""
    picture = pixels(data)
    width, height = picture.size
    said = []
    for x, y in ((1, 1), (width - 2, 1), (1, height - 2), (width - 2, height - 2)):
        colour = picture.getpixel((x, y))
        assert isinstance(colour, tuple)
        ruling = colour.index(max(colour))
        said.append("white" if min(colour) > 150 else ("red", "green", "blue")[ruling])
    return said


UPRIGHT = ["red", "green", "blue", "white"]


def test_nothing_private_is_left_in_a_photo_or_its_thumbnail() -> None:
    taken = with_secrets(encoded(stripes(2000, 1500)))
    before = independent(taken)
    assert "GPS GPSLatitude" in before
    assert "EXIF BodySerialNumber" in before
    assert "JPEGThumbnail" in before
    assert len(private_parts(taken)) == 8
    photo = take_in(taken)
    for made in (photo.data, photo.thumbnail):
        assert SECRET not in made
        assert private_parts(made) == ()
        assert independent(made) == {}


def test_a_photo_in_which_something_is_left_is_not_handed_out(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    talkative = encoded(stripes(), comment=SECRET)
    monkeypatch.setattr(
        "logbook.store.photos.cleaned._encoded", lambda *_, **__: ("jpg", talkative)
    )
    with pytest.raises(Refused, match=r"bench\.jpg was not taken in: a comment"):
        take_in(encoded(stripes()), "bench.jpg")


def test_a_large_photo_is_decoded_small(monkeypatch: pytest.MonkeyPatch) -> None:
    sizes = []
    resize = Image.Image.resize

    def resized(picture: Image.Image, *how: object) -> Image.Image:
        sizes.append(picture.size)
        return resize(picture, *how)  # type: ignore[arg-type]

    data = encoded(Image.new("RGB", (6400, 4800)))
    monkeypatch.setattr(Image.Image, "resize", resized)
    take_in(data)
    assert sizes[0] == (1600, 1200)


def test_the_colour_profile_stays() -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    for kind in ("JPEG", "PNG"):
        photo = take_in(encoded(stripes(), kind, icc_profile=profile))
        assert Image.open(io.BytesIO(photo.data)).info["icc_profile"] == profile
        assert private_parts(photo.data) == ()
    longer = encoded(stripes(), "PNG", icc_profile=profile + SECRET)
    assert "icc_profile" not in Image.open(io.BytesIO(take_in(longer).data)).info


def chunk(name: bytes, body: bytes) -> bytes:
    mark = zlib.crc32(name + body)
    return struct.pack(">I", len(body)) + name + body + struct.pack(">I", mark)


def test_text_and_exif_go_from_a_png() -> None:
    png = encoded(stripes(), "PNG")
    head, rest = png[:33], png[33:]
    planted = (
        head
        + chunk(b"tEXt", b"Comment\0SECRET text")
        + chunk(b"zTXt", b"Comment\0\0" + zlib.compress(b"SECRET"))
        + chunk(b"iTXt", b"XML:com.adobe.xmp\0\0\0\0\0SECRET xmp")
        + chunk(b"eXIf", exif_block(3, "2026:03:14 10:15:22"))
        + rest
        + b"SECRET after the end"
    )
    assert len(private_parts(planted)) == 5
    photo = take_in(planted)
    assert photo.name.endswith(".png")
    assert private_parts(photo.data) == ()
    assert SECRET not in photo.data
    assert corners(photo.data) == UPRIGHT[::-1]


STORED = {
    1: None,
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}
"""How a camera stores an upright scene under each orientation (EXIF 2.32, 4.6.4)."""


@pytest.mark.parametrize(("orientation", "way"), STORED.items())
def test_every_orientation_ends_in_the_same_upright_pixels(
    orientation: int, way: Image.Transpose | None
) -> None:
    upright = stripes(40, 24)
    stored = upright if way is None else upright.transpose(way)
    png = encoded(stored, "PNG")
    exif = exif_block(orientation, "")
    photo = take_in(png[:33] + chunk(b"eXIf", exif) + png[33:])
    assert pixels(photo.data).tobytes() == upright.tobytes()
    camera = take_in(with_secrets(encoded(stored), orientation))
    assert (camera.width, camera.height) == (40, 24)
    assert corners(camera.data) == corners(camera.thumbnail) == UPRIGHT


@pytest.mark.parametrize(
    ("size", "large", "small"),
    [
        ((4000, 3000), (1600, 1200), (320, 240)),
        ((3000, 4000), (1200, 1600), (240, 320)),
        ((1601, 10), (1600, 10), (320, 2)),
        ((300, 200), (300, 200), (300, 200)),
        ((5000, 1), (1600, 1), (320, 1)),
    ],
)
def test_a_photo_is_scaled_down_but_never_up(
    size: tuple[int, int], large: tuple[int, int], small: tuple[int, int]
) -> None:
    photo = take_in(encoded(Image.new("RGB", size, (90, 90, 90))))
    assert (photo.width, photo.height) == large == pixels(photo.data).size
    assert pixels(photo.thumbnail).size == small
    assert max(large) <= LONGEST_PX
    assert max(small) <= THUMBNAIL_PX


@pytest.mark.parametrize(
    ("stamp", "zone", "taken"),
    [
        ("2026:03:14 10:15:22", "+01:00", timezone(timedelta(hours=1))),
        ("2026:03:14 10:15:22", "-03:30", timezone(-timedelta(hours=3, minutes=30))),
        ("2026:03:14 10:15:22", "", None),
    ],
)
def test_the_capture_time_is_handed_on(
    stamp: str, zone: str, taken: timezone | None
) -> None:
    exif = exif_block(1, stamp, zone)
    jpeg = encoded(stripes())
    photo = take_in(jpeg[:2] + segment(0xE1, b"Exif\0\0" + exif) + jpeg[2:])
    assert photo.taken == datetime(2026, 3, 14, 10, 15, 22, tzinfo=taken)


@pytest.mark.parametrize("stamp", ["    :  :     :  :  ", "2026:13:40 99:99:99", ""])
def test_a_capture_time_that_is_none_is_not_made_up(stamp: str) -> None:
    jpeg = encoded(stripes())
    exif = segment(0xE1, b"Exif\0\0" + exif_block(1, stamp))
    assert take_in(jpeg[:2] + exif + jpeg[2:]).taken is None


@pytest.mark.parametrize("mode", ["1", "L", "P", "LA", "RGBA", "I;16", "CMYK", "YCbCr"])
def test_every_colour_mode_comes_through(mode: str) -> None:
    grey = stripes().convert("L")
    if mode == "I;16":
        picture = grey.convert("I").point(lambda value: value * 257).convert("I;16")
    else:
        picture = stripes().quantize() if mode == "P" else stripes().convert(mode)
    photo = take_in(encoded(picture, "JPEG" if mode in ("CMYK", "YCbCr") else "PNG"))
    assert private_parts(photo.data) == ()
    shown = pixels(photo.data).convert("L")
    if mode != "1":
        close = zip(shown.tobytes(), grey.tobytes(), strict=True)
        assert sum(abs(a - b) for a, b in close) / len(grey.tobytes()) < 8


def test_a_large_png_becomes_a_jpeg_on_white() -> None:
    noise = Image.effect_noise((1200, 900), 80).convert("RGBA")
    noise.putalpha(Image.linear_gradient("L").resize((1200, 900)))
    photo = take_in(encoded(noise, "PNG", compress_level=1))
    assert photo.name.endswith(".jpg")
    colour = pixels(photo.data).getpixel((5, 2))
    assert isinstance(colour, tuple)
    assert min(colour) > 240


def test_the_name_is_the_content() -> None:
    first, again = take_in(encoded(stripes())), take_in(encoded(stripes()))
    other = take_in(encoded(stripes(66)))
    assert first == again
    assert first.name != other.name
    assert first.thumbnail_name == first.name.replace(".jpg", "-small.jpg")


def test_a_second_picture_behind_the_first_is_dropped() -> None:
    both = encoded(
        stripes(), "MPO", save_all=True, append_images=[stripes().rotate(180)]
    )
    assert Image.open(io.BytesIO(both)).format == "MPO"
    assert private_parts(both)
    photo = take_in(both)
    assert private_parts(photo.data) == ()
    assert corners(photo.data) == UPRIGHT


def announcing(jpeg: bytes, width: int, height: int) -> bytes:
    """Write another size into the frame header of a JPEG (T.81, figure B.3)."""
    at = max(jpeg.find(b"\xff\xc0"), jpeg.find(b"\xff\xc2"))
    return jpeg[: at + 5] + struct.pack(">HH", height, width) + jpeg[at + 9 :]


def bomb(width: int, height: int) -> bytes:
    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    body = chunk(b"IDAT", zlib.compress(b"\0" * 1000)) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + body


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (bomb(50_000, 50_000), "bench.png has 50000 × 50000 pixels; accepted: at most"),
        (
            announcing(encoded(stripes()), 60_000, 60_000),
            "60000 × 60000 pixels; accepted: at most 220 million in a JPEG",
        ),
        (
            announcing(encoded(stripes(), progressive=True), 10_000, 10_000),
            "accepted: at most 60 million in a PNG or a progressive JPEG",
        ),
        (b"", "bench.png is not a picture that can be read; accepted: a JPEG or PNG"),
        (b"GIF89a" + b"\0" * 50, "is not a picture that can be read"),
        (encoded(stripes(640, 480))[:900], "is not a picture that can be read"),
        (encoded(stripes(), "PNG")[:80], "is not a picture that can be read"),
        (b"\0" * 80_000_001, "bench.png has 80 MB; accepted"),
    ],
)
def test_what_is_no_photo_is_refused_in_one_sentence(
    data: bytes, sentence: str
) -> None:
    with pytest.raises(BadInput) as refusal:
        take_in(data, "bench.png")
    assert sentence in str(refusal.value)


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 2500), st.binary(min_size=1, max_size=6), st.booleans())
def test_damage_anywhere_is_taken_in_clean_or_refused(
    at: int, damage: bytes, png: bool
) -> None:
    whole = encoded(stripes(), "PNG") if png else with_secrets(encoded(stripes()))
    data = whole[:at] + damage + whole[at + len(damage) :]
    try:
        photo = take_in(data)
    except BadInput:
        return
    assert isinstance(photo, Photo)
    assert SECRET not in photo.data
    assert SECRET not in photo.thumbnail


@pytest.mark.parametrize(
    ("data", "part"),
    [
        (
            b"\xff\xd8" + segment(0xE0, b"JFIF\0\1\1\0\0\1\0\1\1\1rgb") + b"\xff\xd9",
            "application segment 0 (JFIF)",
        ),
        (b"GIF89a", "a format that is neither JPEG nor PNG"),
        (encoded(stripes())[:-2], "a file cut short"),
        (encoded(stripes()) + b"x", "1 bytes after the picture"),
        (encoded(stripes(), comment=b"hello"), "a comment"),
        (encoded(stripes(), "PNG")[:-12], "no end of the picture"),
        (encoded(stripes(), "PNG", dpi=(300, 300)), "a pHYs chunk"),
        (encoded(stripes(), progressive=True, comment=b"hello"), "a comment"),
    ],
)
def test_the_scanner_names_what_does_not_belong(data: bytes, part: str) -> None:
    assert part in private_parts(data)


def test_the_scanner_passes_a_bare_picture_of_every_coding() -> None:
    noise = Image.effect_noise((90, 70), 99)
    for how in ({}, {"progressive": True}, {"restart_marker_blocks": 2}):
        assert private_parts(encoded(noise, **how)) == ()
    assert private_parts(encoded(noise, "PNG")) == ()
