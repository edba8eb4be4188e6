"""A cure that was typed as done is not printed as an order that is done already.

The scene is the copy stand; its failures are invented.
"""

from __future__ import annotations

import pytest

from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")


def cured(stand: Stand, cure: str, do: str = "rework") -> str:
    tight = ("failure", "base", "the lamp does not go in", "--met-by", "drawing")
    told(stand, *tight, "--cure", cure, "--do", do)
    return stand.run("errata", "1.1", "--print")[1]


def test_what_was_done_is_told_as_done_and_of_which_fault(stand: Stand) -> None:
    page = cured(stand, "drilled it to 6.5")
    so = "as was done in build 1: “drilled it to 6.5”"
    assert f"- **Do this now**: {so}" in page
    to_do = page.partition("## What to do")[2].partition("\n## ")[0]
    assert so in to_do
    assert "(the lamp does not go in)" in to_do
    guide = stand.run("guide", "1.1", "--print")[1]
    assert f"Do this: {so}" in guide


def test_what_is_told_as_done_to_nobody_said_which_piece_is_no_order_either(
    stand: Stand,
) -> None:
    page = cured(stand, "drilled it to 6.5", "scrap")
    assert "- **Do this now**: as was said: “drilled it to 6.5”" in page


@pytest.mark.parametrize(
    ("cure", "do"),
    [
        ("drill it to 6.5", "rework"),
        ("shred the old gasket", "rework"),
        ("slotted holes", "scrap"),
    ],
)
def test_an_order_and_what_was_never_done_stand_as_written(
    stand: Stand, cure: str, do: str
) -> None:
    page = cured(stand, cure, do)
    assert f"- **Do this now**: {cure}" in page
    assert "as was done" not in page
    assert "as was said" not in page
