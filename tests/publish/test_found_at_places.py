"""What one line found at several places, or of several sizes, is told whole.

The scene is the copy stand; the sizes are invented.
"""

from __future__ import annotations

import pytest

from logbook.records.kinds.happenings import Deviation
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")


def pages(stand: Stand, line: str) -> tuple[str, str]:
    told(stand, "say", "--yes", line)
    for one in stand.project.snapshot.all(Deviation):
        if one.title == line:
            told(stand, "met", one.id, "drawing")
    errata = stand.look("errata", "1.1", "--print")[1]
    return errata, stand.look("notes", "--print")[1]


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("base holes 5.1 and 5.2 should be 5", "5.1 mm and 5.2 mm"),
        ("base slots 9.1, 9.3, 9.0 should be 9.2", "9.0 mm to 9.3 mm at 3 places"),
        ("base slot 5.1 should be 5", "5.1 mm"),
    ],
)
def test_no_place_that_was_read_is_left_out(
    stand: Stand, line: str, found: str
) -> None:
    errata, notes = pages(stand, line)
    told_so = [one for one in errata.splitlines() if "found was" in one]
    assert told_so
    assert all(f"found was {found}" in one for one in told_so)
    assert f"became {found}" in notes
    assert "**What was seen, and why**: place" not in errata


def test_two_sizes_of_one_line_have_a_heading_each(stand: Stand) -> None:
    line = "base plate 599.2 x 399.5 should be 600 x 400"
    errata, notes = pages(stand, line)
    for page in (errata, notes):
        heads = [one for one in page.splitlines() if one.startswith("###")]
        meant = [one for one in heads if "should be 600 x 400" in one]
        assert len(meant) == len({"side 1", "side 2"})
        assert {one.rpartition(": ")[2] for one in meant} == {"side 1", "side 2"}
