"""How many of a part a unit takes, where nobody has said it: no more than is known.

The scene is the copy stand; the foot and its screws are invented.
"""

from __future__ import annotations

import pytest

from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")


def row(stand: Stand, part: str) -> str:
    told(stand, "guide", "--draft")
    rows = stand.read("as-built/published/draft/guide.md").split("\n")
    return next(line for line in rows if line.startswith(f"| {part}, "))


def test_two_screws_through_a_part_make_no_two_of_it(stand: Stand) -> None:
    told(stand, "piece", "foot")
    told(stand, "piece", "foot")
    told(
        stand, "joint", "foot to base", "M4x16", "--number", "2",
        "--layer", "foot=8 mm", "--layer", "base=2 mm",
    )  # fmt: skip
    found = row(stand, "foot")
    assert "at least 1; nobody said how many" in found
    assert "2 made" in found


def test_once_it_is_said_it_is_no_more_counted(stand: Stand) -> None:
    told(stand, "line", "foot", "4")
    assert "nobody said" not in row(stand, "foot")
