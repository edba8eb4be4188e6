"""A fault of one part that is cured by a revision of another: what each holder reads.

The scene is the copy stand: bought lamps come wider than the seat that the base was
drawn with. Sizes and failures are invented.
"""

from __future__ import annotations

import re

import pytest

from logbook.records.kinds.happenings import Deviation, Failure
from tests.publish.bowed import facts, fault
from tests.publish.stand import Stand, page, told

pytestmark = pytest.mark.xdist_group("publish")

WIDE = "delivered lamps measure 58.6, the seat was drawn for 58.0"
NARROW = "lamp does not go into the seat"
FALLS = "lamp falls out of the 59.0 seat when the stand is turned"
CURE = "seat of the base filed to 59.0"


def wide(stand: Stand) -> None:
    """Let the lamps come wide, and the base be drawn anew for them in release 1.2."""
    told(stand, "build", "build 2")
    told(stand, "revise", "lamp", "--dimension", "diameter=58.0")
    told(stand, "revise", "base", "--dimension", "seat=58.4", "--remake", "no")
    told(stand, "release", "1.1.1")
    sizes = ("--dimension", "diameter", "--wanted", "58.0 mm", "--found", "58.6 mm")
    blame = ("--met-by", "drawing", "--do", "use as is", "--cure", CURE)
    told(stand, "deviation", "lamp", WIDE, *sizes, *blame)


def drawn_anew(stand: Stand) -> None:
    wide(stand)
    told(stand, "measure", "base", "seat", "58.1", "--met-by", "drawing", "--do",
         "rework")  # fmt: skip
    tight = ("failure", "base", NARROW, "--cure", "fold the base with a 59.0 seat")
    told(stand, *tight, "--met-by", "drawing", "--do", "scrap")
    stand.draw("base", "2.0, seat 59.0")
    stand.commit_files("Draw the seat 59.0")
    snapshot = stand.project.snapshot
    because = [
        word
        for one in snapshot.entries
        if one.title in {WIDE, NARROW} or "seat 58.1" in one.title
        if isinstance(one, Deviation | Failure)
        for word in ("--because", one.id)
    ]
    more = ("--dimension", "seat=59.0", "--file", "drawings/base.dxf")
    told(stand, "revise", "base", *more, *because, "--remake", "yes")
    told(stand, "release", "1.2", "--anyway")


def falls(stand: Stand) -> None:
    """Let the lamp fall out of the seat that was to hold it."""
    drawn_anew(stand)
    blame = ("--met-by", "drawing", "--do", "use as is")
    told(stand, "failure", "base", FALLS, *blame, "--piece", "4")


def rows(stand: Stand, release: str) -> dict[str, list[str]]:
    """Give how every release stands to each fault, by its title."""
    return {
        one["title"]: one["stands"] for one in facts(stand, release)["matrix"]["rows"]
    }


def test_the_release_that_has_the_cure_is_not_affected_on_any_page(
    stand: Stand,
) -> None:
    drawn_anew(stand)
    found = rows(stand, "1.1.1")[WIDE]
    assert found[-2].startswith("way round")
    assert found[-1].startswith("not affected: fixed")
    assert WIDE not in [one["title"] for one in facts(stand, "1.2")["faults"]]
    assert not facts(stand, "1.2")["not_known"]
    assert fault(stand, WIDE, "1.1.1")["releases"] == ["1.0", "1.1", "1.1.1"]


def test_it_is_said_which_part_is_made_again_and_that_once(stand: Stand) -> None:
    drawn_anew(stand)
    found = fault(stand, WIDE, "1.1.1")
    assert (found["part"], found["made"]) == ("lamp", "base")
    assert found["remake"] == "yes, if your lamp has it"
    text = page(stand, "errata", "1.1.1")
    assert "Replace it?" not in text
    assert (
        "- Make the base again? **Yes, if your lamp has it.** Take base rev B" in text
    )
    assert "**You have one already: make the base again?** Yes" in text
    order = text.partition("### In this order")[2].partition("\n## ")[0]
    assert "take anything apart: base rev B, made again." in order
    assert "The crossbar is made to suit the base" in order


def test_a_part_that_another_ones_revision_cures_is_told_of_in_every_guide(
    stand: Stand,
) -> None:
    drawn_anew(stand)
    text = page(stand, "guide", "1.2")
    row = next(one for one in text.splitlines() if one.startswith("| lamp rev A"))
    assert "takes its place" not in row
    assert f"{WIDE} (put right in base rev B)" in row


def test_another_trouble_at_the_size_that_was_drawn_anew_is_a_fault_of_its_own(
    stand: Stand,
) -> None:
    falls(stand)
    assert "come back" not in page(stand, "errata", "1.1.1")
    assert rows(stand, "1.2").keys() == {FALLS}
    again = r"Take base rev B .* But it has another fault: " + FALLS
    assert re.search(again, page(stand, "errata", "1.1.1"))
    coming = page(stand, "guide", "1.2").partition("## If you come from")[2]
    assert f"base: yes; but: {FALLS}" in coming
    assert "not yet" not in coming


def test_what_came_back_in_the_other_part_is_not_called_fixed(stand: Stand) -> None:
    drawn_anew(stand)
    about = fault(stand, WIDE, "1.1.1")["entries"][0].rpartition(" ")[2]
    told(stand, "erratum", about)
    again = f"{WIDE} again"
    blame = ("--met-by", "drawing", "--piece", "4")
    told(stand, "failure", "base", again, *blame)
    found = fault(stand, WIDE, "1.1.1")
    assert found["status"] == f"confirmed, not fixed: it came back: {again}"
