"""A fault that comes back in its cure: known as the same, or asked about.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import re

import pytest

from tests.publish.bowed import CRACK, facts, fault
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

RIM = "diffuser cracked on its rim"
SEEMS = f"it seems to have come back: {RIM}"


def cracks(stand: Stand, line: str, *more: str) -> str:
    """Let the cure of release 1.1 fail; give what is asked of the author then."""
    told(stand, "build", "build 2")
    blame = ("--met-by", "drawing", "--do", "scrap")
    told(stand, "failure", "diffuser", line, *more, *blame)
    return stand.look("check")[1]


def asking(stand: Stand) -> str:
    """Give the short name of the question whether it is the same."""
    found = re.search(r"(\w+)  .*: is that “", stand.look("offered")[1])
    assert found is not None
    return found[1]


def test_what_only_words_tell_seems_so_and_is_asked_about(stand: Stand) -> None:
    asked = cracks(stand, RIM)
    assert f"{RIM}: by its words it is “{CRACK}” come back, nobody has said" in asked
    found = fault(stand, CRACK, "1.0")
    assert found["do_this"].endswith(f"(release 1.1), and {SEEMS}")
    rows = {one["revision"]: one["words"] for one in found["table"]}
    assert rows["diffuser rev A"] == f"not fixed: {SEEMS} (no cure yet)"
    assert found["again"] == (
        f"it seems to have come back in diffuser rev A: {RIM} (no cure yet)"
    )
    offered = stand.look("offered")[1]
    assert f"“{RIM}”: is that “{CRACK}” come back?" in offered


def test_who_says_that_it_is_the_same_makes_it_so(stand: Stand) -> None:
    cracks(stand, RIM)
    told(stand, "offered", "take", asking(stand), "yes")
    found = fault(stand, CRACK, "1.0")
    assert found["do_this"].endswith(f"and it came back: {RIM}")
    assert "by its words" not in stand.look("check")[1]
    assert f"is that “{CRACK}” come back?" not in stand.look("offered")[1]
    [only] = facts(stand, "1.1")["faults"]
    assert only["title"] == CRACK


@pytest.mark.parametrize("by", ["refused", "answered", "saved"])
def test_who_says_that_it_is_another_has_two_faults(stand: Stand, by: str) -> None:
    asked = cracks(stand, RIM)
    if by == "refused":
        told(stand, "offered", "refuse", asking(stand))
    elif by == "answered":
        told(stand, "offered", "take", asking(stand), "n")
        assert f"is that “{CRACK}” come back?" not in stand.look("offered")[1]
    else:
        own = re.search(r"another fault: logbook erratum (\w+)", asked)
        assert own is not None
        told(stand, "erratum", own[1])
    assert "by its words" not in stand.look("check")[1]
    found = fault(stand, CRACK, "1.0")
    assert found["do_this"] == "oversize holes 9 mm in, pan heads, washers"
    assert [one["title"] for one in facts(stand, "1.1")["faults"]] == [RIM]


@pytest.mark.parametrize(
    ("line", "more"),
    [
        (RIM, ("--where", "third corner screw")),
        ("diffuser cracked on its rim again", ()),
    ],
)
def test_the_same_place_or_the_word_again_need_no_question(
    stand: Stand, line: str, more: tuple[str, ...]
) -> None:
    assert "by its words" not in cracks(stand, line, *more)
    assert f"it came back: {line}" in fault(stand, CRACK, "1.0")["do_this"]


def test_a_fault_that_came_back_has_no_way_round_until_one_is_written(
    stand: Stand,
) -> None:
    cracks(stand, "diffuser cracked again")
    none = "**affected**: no way round that has held"
    assert none in stand.run("errata", "1.0", "--print")[1]
    told(stand, "erratum", CRACK, "--do-this", "take a 6 mm plate")
    page = stand.run("errata", "1.0", "--print")[1]
    assert "**affected**: way round available" in page
    assert "take a 6 mm plate" in page
