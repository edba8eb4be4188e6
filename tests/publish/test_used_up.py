"""What the work uses up is told before it is begun, as far as its words tell."""

from __future__ import annotations

import pytest

from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")


def rows(stand: Stand) -> dict[str, str]:
    told(stand, "release", "1.2", "--anyway")
    guide = stand.look("guide", "1.2", "--print")[1]
    table = guide.partition("## What gets used up")[2].partition("\n## ")[0]
    cells = (one.split("|") for one in table.splitlines() if one.startswith("| "))
    found = {one[1].strip(): one[2].strip() for one in cells}
    found.pop("what", None)
    return found


@pytest.mark.parametrize(
    ("line", "used"),
    [
        ("glued the base with epoxy", ["epoxy"]),
        ("glued the base", ["glue, nobody said which"]),
        ("sanded the base with 240 grit", ["abrasive paper, 240 grit"]),
        ("sanded the base with 120, 180 and 240 grit",
         ["abrasive paper, 120, 180, 240 grit"]),
        ("sanded the base with 120 grit then 240",
         ["abrasive paper, 120, 240 grit"]),
        ("masked the base with masking tape, primed it", ["masking tape", "primer"]),
        ("soldered the base", ["solder"]),
        ("screwed the base together without glue", []),
        ("fitted the base dry, no epoxy", []),
        ("bent the base again", []),
    ],
)  # fmt: skip
def test_what_the_words_of_work_name_as_used_up_is_to_be_had_ready(
    stand: Stand, line: str, used: list[str]
) -> None:
    told(stand, "say", "--yes", line)
    assert [*rows(stand)] == used


def test_a_step_that_names_it_is_told_by_its_number_and_a_part_by_its_name(
    stand: Stand,
) -> None:
    told(stand, "step", "glue the sides with wood glue", "--number", "9")
    told(stand, "say", "--yes", "sanded the base with 240 grit")
    found = rows(stand)
    assert found["wood glue"].startswith("step ")
    assert found["abrasive paper, 240 grit"] == "base"


def test_what_is_a_part_is_bought_by_the_list_and_told_there(stand: Stand) -> None:
    told(stand, "part", "wood glue", "--source", "bought")
    told(stand, "step", "glue the sides with wood glue", "--number", "9")
    told(stand, "part", "tape guide")
    told(stand, "step", "screw the tape guide on", "--number", "10")
    assert not rows(stand)
