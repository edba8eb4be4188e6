"""What was measured and made, told alike wherever a page tells it.

The scene is the copy stand; all of it is invented.
"""

from __future__ import annotations

import pytest

from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

OFF = "tried, but no piece of it came out as drawn"
NOT_HELD = "tried, but no piece that came out as drawn has held"


def pages(stand: Stand) -> tuple[str, str]:
    """Give the builder notes and the guide of the newest release."""
    notes = stand.run("notes", "--print")[1]
    return notes, stand.run("guide", "1.1", "--print")[1]


def row_of(page: str, part: str) -> str:
    return next(one for one in page.splitlines() if one.startswith(f"| {part}"))


def test_a_piece_as_drawn_that_did_not_hold_is_not_said_not_to_be(stand: Stand) -> None:
    assert f"| base, first issue, {OFF} |" in pages(stand)[1]
    told(stand, "build", "build 2")
    told(stand, "piece", "base")
    told(stand, "measure", "base", "opening", "180.1", "--piece", "2")
    told(stand, "failure", "base", "base tore", "--met-by", "drawing", "--do", "scrap")
    notes, guide = pages(stand)
    assert (
        "| base-2 | opening | 180.0 mm (178.8 mm to 181.2 mm) | 180.1 mm | within |"
        in (notes)
    )
    assert f"- First issue, {NOT_HELD}." in notes
    assert f"| base, first issue, {NOT_HELD} – " in guide
    assert OFF not in notes + guide


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (("--after", "1 h"), "after 1 h"),
        (("--after", "1 h", "--room", "21 °C"), "after 1 h in a room of 21 °C"),
        (("--state", "lit", "--after", "1 h"), "lit, after 1 h"),
    ],
)
def test_under_what_a_size_was_read_stands_beside_it(
    stand: Stand, more: tuple[str, ...], said: str
) -> None:
    told(stand, "measure", "lamp", "voltage", "24.1 V", *more)
    notes, _ = pages(stand)
    assert f"| 24.1 V ({said}) |" in notes
    told(stand, "measure", "base", "opening", "left=180.1", *more)
    assert f"180.1 mm (left, {said})" in row_of(pages(stand)[0], "base-1")
    assert f"to 180.1 mm at 2 places, {said}" in pages(stand)[1]


def test_what_each_build_made_is_counted(stand: Stand) -> None:
    told(stand, "build", "build 2")
    told(stand, "piece", "diffuser")
    told(stand, "piece", "diffuser")
    told(stand, "dispose", "diffuser-3", "scrap")
    told(stand, "piece", "base")
    guide = pages(stand)[1]
    assert row_of(guide, "base").endswith("| build 1: 1 made; build 2: 1 made |")
    assert row_of(guide, "diffuser").endswith(
        "| build 1: 1 made (to first issue), scrapped; "
        "build 2: 2 made, of these 1 scrapped |"
    )


def test_of_many_builds_the_one_it_was_tried_in_and_how_many_others(
    stand: Stand,
) -> None:
    for number in range(2, 6):
        told(stand, "build", f"build {number}")
        told(stand, "piece", "base")
    told(stand, "dispose", "base-2", "scrap")
    row = row_of(pages(stand)[1], "base")
    assert row.endswith(
        "| build 5: 1 made; 4 other builds: 4 made, of these 1 scrapped |"
    )


def test_nobody_made_what_was_bought(stand: Stand) -> None:
    told(stand, "piece", "lamp")
    notes, guide = pages(stand)
    assert row_of(guide, "lamp").endswith("| build 1: 1 on record |")
    assert "- Pieces: lamp-1 (first issue, bought)." in notes


def test_a_piece_worked_on_is_judged_by_what_it_reads_now(stand: Stand) -> None:
    told(stand, "build", "build 2")
    told(stand, "piece", "base")
    told(stand, "measure", "base", "opening", "178.2", "--piece", "2")
    told(stand, "measure", "base", "opening", "180.1", "--piece", "2")
    notes, guide = pages(stand)
    assert "| 178.2 mm, later 180.1 mm | within |" in notes
    assert "180.1 mm, within the limits (build 2)" in guide


def test_pieces_of_one_size_share_a_row_by_number_where_none_between_is_unread(
    drawn: Stand,
) -> None:
    told(drawn, "part", "rail", "--dimension", "length=550 ±0.5")
    told(drawn, "build", "build 1")
    for _ in range(6):
        told(drawn, "piece", "rail")
    read = {3: "549.8", 1: "550.2", 2: "550.1", 4: "551", 6: "550"}
    for number, length in read.items():
        told(drawn, "measure", "rail", "length", length, "--piece", f"{number}")
    notes = drawn.look("notes", "--print")[1]
    rows = [one for one in notes.splitlines() if one.startswith("| rail-")]
    cells = [[cell.strip() for cell in one.strip("|").split("|")] for one in rows]
    assert [(one[0], one[3], one[4]) for one in cells] == [
        (
            "rail-1 to rail-3, 3 pieces",
            "550.2 mm, 550.1 mm, 549.8 mm, in this order",
            "within",
        ),
        ("rail-4", "551 mm", "off drawing"),
        ("rail-6", "550 mm", "within"),
    ]
