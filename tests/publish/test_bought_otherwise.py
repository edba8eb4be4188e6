"""A bought part of which another one is sold now reaches who holds the older release.

The scene is the copy stand; its switch and what became of it are invented.
"""

from __future__ import annotations

import pytest

from tests.publish.stand import Stand, page, told

pytestmark = pytest.mark.xdist_group("publish")

NOW = "rev A (6.35 bolt, what is sold now; newer than “6 mm bolt, 2 A” of the list)"
OLDER = "the list has the switch bought as “6 mm bolt, 2 A”, as release 1.2 had it for"


@pytest.fixture
def sold(stand: Stand) -> Stand:
    """Give a stand whose switch is bought by a revision since, not released yet."""
    told(stand, "part", "switch", "--source", "bought", "--dimension", "bolt=6.0 ±0.1")
    told(stand, "line", "switch", "2", "--bought-as", "6 mm bolt, 2 A")
    told(stand, "release", "1.2", "--anyway")
    told(stand, "revise", "switch", "--changed", "6.35 bolt, what is sold now",
         "--dimension", "bolt=6.35 ±0.1", "--remake", "no")  # fmt: skip
    return stand


def test_who_comes_from_the_older_release_is_told_what_to_buy(sold: Stand) -> None:
    told(sold, "release", "1.3", "--anyway")
    for older in (page(sold, "guide", "1.2"), page(sold, "errata", "1.2")):
        said = f"- Stop buying by this release: switch. What is bought now is {NOW}."
        assert f"{said} You have one already, replace it? No." in older
    since = page(sold, "guide", "1.3").partition("## If you come from release 1.2")[2]
    assert f"- **Bought otherwise**: switch is now {NOW}." in since
    assert "nothing new on the list" not in since.partition("\n## ")[0]


def test_the_list_says_the_revision_its_change_and_the_sizes(sold: Stand) -> None:
    told(sold, "release", "1.3", "--anyway")
    buy = page(sold, "guide", "1.3").partition("### Buy")[2].partition("\n#")[0]
    assert "| switch, rev A |" in buy
    assert "6 mm bolt, 2 A; new" in buy
    assert "; new in rev A: 6.35 bolt, what is sold now; " in buy
    assert "bolt 6.35 mm (6.25 mm to 6.45 mm)" in buy
    old = page(sold, "guide", "1.2").partition("### Buy")[2].partition("\n#")[0]
    assert "rev A" not in old


def test_words_older_than_the_revision_are_named_until_they_are_retold(
    sold: Stand,
) -> None:
    again = sold.run("revise", "switch", "--changed", "longer pins")[1]
    assert OLDER in again
    assert OLDER in sold.look("check")[1]
    assert OLDER in sold.look("release", "1.3", "--check")[1]
    told(sold, "line", "switch", "2", "--bought-as", "6.35 mm bolt, 2 A")
    assert OLDER not in sold.look("check")[1]


def test_words_that_went_out_again_as_they_are_are_not_asked_about_for_ever(
    sold: Stand,
) -> None:
    told(sold, "release", "1.3", "--anyway")
    assert "the list has the switch" not in sold.look("check")[1]


def test_how_to_tell_a_bought_one_is_the_list_and_its_sizes_not_a_revision(
    sold: Stand,
) -> None:
    told(sold, "release", "1.3", "--anyway")
    sticks = ("failure", "switch", "switch sticks", "--met-by", "drawing")
    told(sold, *sticks)
    told(sold, "erratum", "switch sticks")
    tell = "**How to tell that yours is**: it was bought as switch by the list of"
    assert f"{tell} release 1.3 (bolt 6.35 mm)." in page(sold, "errata", "1.3")
    told(sold, "erratum", "switch sticks", "--revision", "switch first issue")
    both = "**How to tell that yours is**: it was bought as switch."
    assert both in page(sold, "errata", "1.2")


def test_what_was_read_of_a_bought_part_stands_where_it_is_bought(
    stand: Stand,
) -> None:
    told(stand, "part", "insert", "--source", "bought")
    told(stand, "line", "insert", "4", "--bought-as", "brass insert M3")
    told(stand, "measure", "insert", "depth", "5.7")
    told(stand, "release", "1.2", "--anyway")
    guide = stand.look("guide", "1.2", "--print")[1]
    row = next(one for one in guide.splitlines() if one.startswith("| insert |"))
    assert "brass insert M3; measured: depth 5.7 mm (build 1)" in row


def test_who_never_had_a_bought_part_reads_what_is_newer_than_its_lines_words(
    stand: Stand,
) -> None:
    told(stand, "part", "switch", "--source", "bought")
    told(stand, "line", "switch", "1", "--bought-as", "6 mm bushing")
    told(stand, "release", "1.2", "--anyway")
    told(stand, "revise", "switch", "--changed", "6.35 mm bushing")
    told(stand, "release", "1.3", "--anyway")
    guide = stand.look("guide", "1.3", "--print")[1]
    older = guide.partition("## If you come from release 1.1")[2].partition("\n## ")[0]
    said = "1 × switch (6 mm bushing; new in rev A: 6.35 mm bushing)"
    assert f"- **To buy that you have not**: {said}" in older
