"""What was done to a made piece is told where its holder looks for it, as it was said.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import pytest

from logbook.advice.faults.done_in import told_done
from tests.publish.bowed import fault
from tests.publish.stand import Stand, page, told

pytestmark = pytest.mark.xdist_group("publish")

TIGHT = "base does not take the lamp"
FILED = "filed the lip to 20.5"


@pytest.mark.parametrize("by", ["disposal", "status"])
def test_rework_yours_says_how_it_was_done(stand: Stand, by: str) -> None:
    told(stand, "build", "build 2")
    told(stand, "failure", "base", TIGHT, "--met-by", "drawing", "--do", "rework")
    assert "no cure is on record yet" in page(stand, "errata", "1.1")
    if by == "disposal":
        told(stand, "dispose", TIGHT, "rework", "--because", FILED)
    else:
        told(stand, "status", "base-2", "reworked", "--because", FILED)
    found = fault(stand, TIGHT, "1.1")
    assert found["do_this"] == f"rework yours, as was done with base-2: {FILED}"
    assert not found["idle"]
    assert found["way_round"] == "way round available"
    text = page(stand, "errata", "1.1")
    assert "no cure is on record yet" not in text
    assert f"{FILED}." in page(stand, "guide", "1.1").partition("## Before you")[0]
    assert f"- **What helped**: {FILED}." in page(stand, "notes")


def test_work_that_may_have_been_for_another_fault_is_not_told_as_the_cure(
    stand: Stand,
) -> None:
    told(stand, "build", "build 2")
    for line in (TIGHT, "base rocks on the desk"):
        told(stand, "failure", "base", line, "--piece", "2", "--met-by", "drawing",
             "--do", "rework")  # fmt: skip
    told(stand, "status", "base-2", "reworked", "--because", FILED)
    assert FILED not in page(stand, "errata", "1.1")


def test_what_failed_after_its_rework_is_no_way_to_do_it(stand: Stand) -> None:
    told(stand, "build", "build 2")
    told(stand, "failure", "base", TIGHT, "--met-by", "drawing", "--do", "rework")
    told(stand, "dispose", TIGHT, "rework", "--because", FILED)
    told(stand, "failure", "base", "lip tore off", "--piece", "2", "--met-by",
         "drawing")  # fmt: skip
    assert not fault(stand, TIGHT, "1.1")["do_this"]


def test_a_cure_that_the_record_tells_as_done_is_not_called_untried(
    stand: Stand,
) -> None:
    told(stand, "build", "build 2")
    drilled = ("--cure", "drill the wire hole out to 4.5", "--do", "use as is")
    told(stand, "failure", "base", TIGHT, *drilled, "--met-by", "drawing")
    assert "(not tried yet)" in fault(stand, TIGHT, "1.1")["do_this"]
    told(stand, "status", "base-2", "reworked", "--because", "wire hole drilled to 4.5")
    assert "(not tried yet)" not in fault(stand, TIGHT, "1.1")["do_this"]


@pytest.mark.parametrize(
    ("cure", "line", "done"),
    [
        ("use M3x8", "used M3x8 instead of M3x10, the 10 stood out", True),
        ("use M3x8", "used M3x10 instead of M3x8", False),
        ("use M3x8", "M3x10 stood out", False),
        ("use M3x8", "did not use M3x8", False),
    ],
)
def test_a_line_can_tell_that_its_own_cure_was_done(
    cure: str, line: str, *, done: bool
) -> None:
    assert told_done(cure, line) is done


def test_the_room_a_failure_was_met_in_is_told(stand: Stand) -> None:
    told(stand, "build", "build 2")
    room = ("--room", "24 °C", "--after", "40 h", "--met-by", "drawing")
    told(stand, "failure", "base", "base split", *room)
    for words in (("errata", "1.1"), ("notes",)):
        assert "after 40 h, in a room of 24 °C" in page(stand, *words)


def test_what_came_of_doing_what_is_said_is_told_with_it(stand: Stand) -> None:
    told(stand, "build", "build 2")
    hole = "cable does not go through the wire hole"
    drill = ("--cure", "drill the wire hole out to 4.5", "--do", "rework")
    told(stand, "failure", "base", hole, *drill, "--met-by", "drawing")
    told(stand, "status", "base-2", "reworked", "--because", "wire hole drilled to 4.5")
    entry = fault(stand, hole, "1.1")["entries"][0].rpartition(" ")[2]
    told(stand, "revise", "base", "--changed", "wire hole 4.5", "--because", entry)
    told(stand, "failure", "base", "the wire hole of base 2 tore", "--piece", "2",
         "--met-by", "drawing")  # fmt: skip
    assert fault(stand, hole, "1.1")["way_round"] == "way round available"
    cut = "the drilled wire hole of base 2 cut the cable after 6 h"
    told(stand, "failure", "base", cut, "--piece", "2", "--met-by", "drawing")
    found = fault(stand, hole, "1.1")
    assert found["way_round"] == "way round in part"
    said = f"drill the wire hole out to 4.5. What came of that: {cut} (no cure yet)."
    assert said in page(stand, "errata", "1.1")
    assert said in page(stand, "guide", "1.1")


def test_an_instruction_that_was_written_is_a_way_round_and_not_called_untried(
    stand: Stand,
) -> None:
    told(stand, "build", "build 2")
    used = "used M3x8 instead of M3x10, the 10 stood out"
    told(stand, "failure", "base", used, "--met-by", "drawing", "--do", "use as is")
    told(stand, "erratum", used, "--do-this", "use M3x8")
    found = fault(stand, used, "1.1")
    assert found["do_this"] == "use M3x8 (nobody has said that it holds)"
    told(stand, "erratum", "base too dark", "--part", "base", "--release", "1.1",
         "--do-this", "paint it white")  # fmt: skip
    assert fault(stand, "base too dark", "1.1")["way_round"] == "way round available"
