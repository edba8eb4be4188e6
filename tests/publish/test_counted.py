"""What was only counted speaks for the revision it was made to, where that is known.

The scene is the copy stand; the spacers are invented.
"""

from __future__ import annotations

import pytest

from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")


@pytest.fixture
def stand(drawn: Stand) -> Stand:
    """Give the stand with spacers on its list, and a build of it begun."""
    told(drawn, "part", "spacer", "--process", "sawing")
    told(drawn, "line", "spacer", "4")
    told(drawn, "build", "build 1")
    return drawn


def page(stand: Stand) -> str:
    told(stand, "guide", "--draft")
    return stand.read("as-built/published/draft/guide.md")


def row(text: str) -> str:
    return next(line for line in text.split("\n") if line.startswith("| spacer, "))


def test_pieces_counted_as_used_make_their_only_revision_tried(stand: Stand) -> None:
    assert "untried" in row(page(stand))
    told(stand, "count", "spacer", "--used", "3", "--scrapped", "1")
    found = page(stand)
    assert row(found).startswith("| spacer, first issue, tried |")
    assert "build 1: 3 used, 1 scrapped |" in row(found)
    [unmade] = [one for one in found.split("\n") if "Nobody has made yet" in one]
    assert "spacer" not in unmade
    assert "build 1 made 1 of its 4 parts" in found


def test_of_several_revisions_it_speaks_for_none_until_it_is_said(
    stand: Stand,
) -> None:
    told(stand, "revise", "spacer", "--changed", "shorter", "--why", "it stuck out")
    said = told(stand, "count", "spacer", "--used", "3")
    assert "accepted: first issue, rev A" in said
    found = row(page(stand))
    assert found.startswith("| spacer, rev A, untried |")
    assert "3 used (to which revision nobody said)" in found
    assert "accepted" not in told(
        stand, "count", "spacer", "--used", "3", "--revision", "first issue"
    )
    found = row(page(stand))
    assert found.startswith("| spacer, rev A, untried |")
    assert "3 used (to first issue)" in found
    told(stand, "count", "spacer", "--used", "3", "--revision", "A")
    assert row(page(stand)).startswith("| spacer, rev A, tried |")
    code, said = stand.run("count", "spacer", "--used", "3", "--revision", "C")
    assert code != 0
    assert "accepted: first issue, rev A" in said


def test_what_failed_by_its_drawing_is_not_tried_by_a_count(stand: Stand) -> None:
    told(stand, "count", "spacer", "--used", "3")
    told(stand, "failure", "spacer", "spacer crushed", "--met-by", "drawing")
    assert "untried" in row(page(stand))


def test_only_scrapped_is_made_and_has_not_held(stand: Stand) -> None:
    told(stand, "count", "spacer", "--scrapped", "2")
    found = page(stand)
    assert "untried" in row(found)
    assert "No piece has held so far of spacer first issue" in found
