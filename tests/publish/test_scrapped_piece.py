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
