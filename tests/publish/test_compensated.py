"""What a file allows for already stands with it: nobody takes a kerf off twice.

The scene is the copy stand; its sizes are invented.
"""

from __future__ import annotations

import pytest

from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

UNSAID = (
    "- **In the file**: Nobody has said whether the width of the cut is allowed for "
    "in it already.\n"
)


def sheet(stand: Stand, release: str = "1.1") -> str:
    guide = stand.run("guide", release, "--print")[1]
    making = guide.partition("## Making the parts")[2]
    return making.partition("### Diffuser")[2].partition("\n### ")[0]


def test_a_sawn_part_says_nothing_of_it_and_a_laser_cut_one_that_nobody_has_said(
    stand: Stand,
) -> None:
    assert "In the file" not in sheet(stand)
    told(stand, "part", "diffuser", "--process", "laser cutting")
    assert UNSAID in sheet(stand)


def test_a_nominal_file_and_one_that_allows_for_the_cut_say_what_is_left_to_do(
    stand: Stand,
) -> None:
    told(stand, "part", "diffuser", "--process", "laser cutting")
    told(stand, "part", "diffuser", "--compensated", "nominal")
    assert (
        "- **In the file**: Nominal, the sizes of the finished part: allow for the "
        "width of the cut yourself.\n" in sheet(stand)
    )
    told(stand, "part", "diffuser", "--compensated", "kerf 0.18 mm")
    assert (
        "- **In the file**: Allowed for in it already: kerf 0.18 mm; do not allow for "
        "that again.\n" in sheet(stand)
    )


def test_what_was_said_holds_of_the_same_file_and_not_of_another(stand: Stand) -> None:
    told(stand, "part", "diffuser", "--process", "laser cutting")
    told(stand, "part", "diffuser", "--compensated", "nominal")
    told(stand, "revise", "diffuser", "--changed", "edges broken by hand")
    told(stand, "release", "1.2", "--anyway")
    assert "- **In the file**: Nominal, " in sheet(stand, "1.2")
    stand.draw("diffuser", "5 mm plate, drawn anew")
    stand.commit_files("Draw the diffuser anew")
    told(stand, "revise", "diffuser", "--changed", "5 mm plate")
    told(stand, "release", "1.3", "--anyway")
    assert "already; of rev B, another file" not in sheet(stand, "1.3")
    assert "already; of rev A, another file, it was: nominal.\n" in sheet(stand, "1.3")
    said = ("--compensated", "kerf 0.18 mm")
    told(stand, "revise", "diffuser", "--changed", "offset inward", *said)
    told(stand, "release", "1.4", "--anyway")
    assert "allowed for in it already: kerf 0.18 mm" in sheet(stand, "1.4").lower()
