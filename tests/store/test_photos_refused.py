"""What is no photo is refused in one sentence; a damaged one is clean or refused."""

from __future__ import annotations

import struct
import zlib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.errors import BadInput
from logbook.store.photos.cleaned import Photo, take_in
from tests.store.pictures_made import SECRET, chunk, encoded, stripes, with_secrets


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
