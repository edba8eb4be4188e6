"""A part that a release lists none of is neither made nor faulty nor untried in it.

The scene is the copy stand; all of it is invented.
"""

from __future__ import annotations

import json

import pytest

from tests.publish.stand import Stand, page, told

pytestmark = pytest.mark.xdist_group("publish")


@pytest.fixture
def without(stand: Stand) -> Stand:
    """Give a stand whose 1.2 has a shim and a bolt, both taken off the list in 1.3."""
    told(stand, "part", "shim", "--process", "sawing", "--material", "beech")
    told(stand, "part", "short bolt", "--source", "bought")
    told(stand, "line", "shim", "1")
    told(stand, "line", "short bolt", "1")
    told(stand, "release", "1.2", "--anyway")
    short = ("failure", "short bolt", "the short bolt does not reach")
    told(stand, *short, "--met-by", "drawing", "--cure", "take a longer one")
    told(stand, "line", "shim", "0")
    told(stand, "line", "short bolt", "0")
    told(stand, "release", "1.3", "--anyway")
    return stand


def test_nobody_is_sent_to_make_it(without: Stand) -> None:
    guide = page(without, "guide", "1.3")
    assert "Not needed in this release: shim, short bolt." in guide
    assert "### Shim" not in guide
    unmade = next(x for x in guide.splitlines() if x.startswith("- Nobody has made"))
    assert "shim" not in unmade
    assert "To make that you have not" not in guide
    assert "of its 3 parts" in guide
    assert "### Shim" in page(without, "guide", "1.2")


def test_who_comes_from_before_hears_that_it_is_not_needed(without: Stand) -> None:
    guide = page(without, "guide", "1.3").partition("If you come from release 1.2")[2]
    since = guide.partition("If you come from release 1.1")[0]
    assert "- **Not needed any more**: shim, short bolt." in since
    assert "Unchanged: shim" not in since
    assert "shim" not in since.partition("**Not needed any more**")[0]


def test_its_fault_ends_with_the_release_that_needs_none(without: Stand) -> None:
    title = "the short bolt does not reach"
    for label, has in (("1.2", True), ("1.3", False)):
        facts = json.loads(without.run("errata", label, "--json")[1])
        assert (title in {one["title"] for one in facts["faults"]}) is has
    before = page(without, "errata", "1.2")
    assert "(release 1.2)" in before
    assert "- **Fixed by**: release 1.3, which needs no short bolt." in before
    assert "not affected: not needed in it" in before


def test_a_spare_is_still_needed(stand: Stand) -> None:
    told(stand, "part", "shim", "--process", "sawing", "--material", "beech")
    told(stand, "line", "shim", "0", "--spare", "1")
    told(stand, "release", "1.2", "--anyway")
    assert "### Shim" in page(stand, "guide", "1.2")


def test_a_step_that_takes_it_all_the_same_says_that_the_list_has_none(
    stand: Stand,
) -> None:
    assert stand.run("line", "lamp", "0")[0] == 0
    assert stand.run("release", "1.2", "--anyway")[0] == 0
    steps = stand.run("guide", "1.2", "--print")[1].partition("## Steps")[2]
    assert "1 × diffuser, lamp (the list of this release has none)\n" in steps


# -- files that lie there and are for nothing on the list ----------------------------


def test_the_files_of_a_part_that_is_not_needed_are_named_with_it(stand: Stand) -> None:
    told(stand, "line", "crossbar", "0")
    told(stand, "release", "1.2", "--anyway")
    guide = page(stand, "guide", "1.2")
    assert "Not needed in this release: crossbar (drawings/crossbar.dxf)." in guide


def test_a_design_file_of_no_part_is_named_as_it_was_at_that_release(
    stand: Stand,
) -> None:
    stand.draw("old spacer", "12")
    stand.commit_files("Draw a spacer")
    told(stand, "release", "1.2", "--anyway")
    stand.draw("spacer 2", "14")
    stand.commit_files("Draw another")
    guide = page(stand, "guide", "1.2")
    said = "came with this release and are of no part of it: drawings/old spacer.dxf."
    assert said in guide
    assert "are of no part of it" not in page(stand, "guide", "1.1")
