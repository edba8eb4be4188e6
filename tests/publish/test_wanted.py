"""What a drawing should have is told apart from what it has.

The scene is the copy stand; its sizes are invented.
"""

from __future__ import annotations

import pytest

from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")


def pages(stand: Stand) -> str:
    return "\n".join(
        stand.run(*words, "--print")[1]
        for words in (("errata", "1.0"), ("guide", "1.0"), ("notes",))
    )


def test_a_size_the_drawing_should_have_is_not_told_as_the_one_it_has(
    stand: Stand,
) -> None:
    told(stand, "say", "base opening drawn 180.0 ±1.2", "--yes")
    line = "base opening 179.9 should be 182"
    told(stand, "say", line, "--yes", "--met-by", "drawing")
    found = pages(stand)
    assert "drawing has opening 182" not in found
    assert "where the drawing has 182" not in found
    assert (
        "the drawing (base first issue) has opening 180.0 mm, it should be 182 mm, "
        "found was 179.9 mm, which is inside the limits that hold"
        in found.replace("The", "the")
    )
    assert (
        "measure the opening: drawn 180.0 mm, found 179.9 mm, where it should be 182 mm"
        in found
    )
    assert "said to be 182 mm, drawn 180.0 mm (base first issue)" in found.replace(
        "Said", "said"
    )


def test_it_stays_so_once_a_revision_draws_what_was_wanted(stand: Stand) -> None:
    line = "base opening 179.9 should be 182"
    told(stand, "say", line, "--yes", "--met-by", "drawing")
    told(stand, "revise", "base", "--dimension", "opening=182", "--changed", "182")
    told(stand, "release", "1.2", "--anyway")
    assert "(base first issue) has opening 180.0 mm, it should be 182 mm" in pages(
        stand
    )


def test_what_should_be_is_no_drawn_size_where_none_is_on_record(stand: Stand) -> None:
    line = "base width 80.1 should be 85"
    told(stand, "say", line, "--yes", "--met-by", "drawing")
    found = pages(stand)
    assert "has width 85" not in found
    assert "drawing has 85" not in found
    should = "the width should be 85 mm (no drawn size on record), found was 80.1 mm"
    assert should in found.replace("The", "the")


def test_a_piece_within_its_limits_came_out_as_drawn(stand: Stand) -> None:
    off = "tried, but no piece of it came out as drawn"
    line = "diffuser hole to edge 4.1 should be 9"
    told(stand, "build", "build 2")
    told(stand, "piece", "diffuser")
    told(stand, "say", line, "--yes", "--met-by", "drawing")
    guide = stand.run("guide", "1.1", "--print")[1]
    row = next(one for one in guide.splitlines() if one.startswith("| diffuser"))
    assert "hole to edge" in guide
    assert off not in row


@pytest.mark.parametrize("whose", ["machine", "piece"])
def test_what_should_be_is_no_drawn_size_whoever_is_at_fault(
    stand: Stand, whose: str
) -> None:
    told(stand, "say", "tray width 80.1 should be 85", "--yes", "--met-by", whose)
    notes = stand.run("notes", "--print")[1].casefold()
    assert "wanted 85 mm, became 80.1 mm" in notes
    assert "drawn 85 mm" not in notes
