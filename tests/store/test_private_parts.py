"""The scanner for private parts names what does not belong in a picture."""

from __future__ import annotations

import pytest
from PIL import Image

from logbook.store.photos.metadata import private_parts
from tests.store.pictures_made import encoded, segment, stripes


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
