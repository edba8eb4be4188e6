"""Nothing private leaves in a photo, and it stands upright whatever the camera said.

The private parts are planted byte by byte after EXIF 2.32 (TIFF structure), and
looked for again as bytes, by our scanner, and by an independent EXIF reader.
"""

from __future__ import annotations

import io
import zlib
from datetime import datetime, timedelta, timezone

import exifread
import pytest
from PIL import Image, ImageCms

from logbook.errors import Refused
from logbook.store.photos.cleaned import LONGEST_PX, THUMBNAIL_PX, take_in
from logbook.store.photos.metadata import private_parts
from tests.store.pictures_made import (
    SECRET,
    chunk,
    encoded,
    exif_block,
    segment,
    stripes,
    with_secrets,
)


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
