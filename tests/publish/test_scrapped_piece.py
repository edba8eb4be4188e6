"""A piece that split is scrapped because it split, whatever else was decided of it.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import pytest

from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")


@pytest.fixture
def split(stand: Stand) -> Stand:
    """Give a stand whose first peg measured thin, split and was scrapped for that."""
    told(stand, "part", "peg", "--dimension", "width=20.0 ±0.1")
    thin = ("deviation", "peg", "peg came thin", "--dimension", "width")
    told(stand, *thin, "--wanted", "20.0", "--found", "19.6", "--met-by", "drawing")
    told(stand, "failure", "peg", "peg split at the hole", "--met-by", "drawing",
         "--do", "scrap")  # fmt: skip
    return stand


def test_nothing_is_left_to_decide_of_a_scrapped_piece(split: Stand) -> None:
    assert "peg came thin" not in split.look("check")[1]


def test_a_later_use_as_is_of_its_size_does_not_say_why_it_is_gone(
    split: Stand,
) -> None:
    told(split, "dispose", "peg came thin", "use as is")
    notes = split.run("notes", "--print")[1]
    assert "scrapped: peg split at the hole" in notes
    assert "scrapped: peg came thin" not in notes


def test_the_size_of_a_piece_on_hand_is_told_and_not_that_of_one_scrapped_since(
    stand: Stand,
) -> None:
    told(stand, "part", "peg", "--dimension", "width=20.0 ±0.1")
    told(stand, "measure", "peg", "width", "20.02")
    told(stand, "piece", "peg")
    told(stand, "measure", "peg", "width", "20.3", "--piece", "2")
    told(stand, "measure", "peg", "height", "6.1", "--piece", "2")
    told(stand, "dispose", "peg-2", "scrap")
    told(stand, "release", "1.2", "--anyway")
    guide = stand.run("guide", "1.2", "--print")[1]
    assert "20.02 mm, within the limits (build 1)" in guide
    assert "20.3 mm (build 1" not in guide
    assert "height 6.1 mm (build 1, scrapped since)" in guide


def test_sizes_with_a_comma_in_the_words_of_the_work_are_no_settings(
    stand: Stand,
) -> None:
    told(stand, "say", "printed five crossbars in PETG, 24,1 x 24 x 18", "--yes")
    assert "24.1" not in stand.run("guide", "1.1", "--print")[1]
