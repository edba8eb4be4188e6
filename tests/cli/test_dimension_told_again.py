"""What `part` tells of a dimension is all kept, and only what is told changes."""

from __future__ import annotations

from logbook.records.kinds.design import Characteristic
from logbook.store.reading.records import read_files, snapshot_of
from tests.cli.shop import Shop


def opening(shop: Shop) -> Characteristic:
    snapshot = snapshot_of(read_files(shop.folder))
    return snapshot.lookup("opening", Characteristic)


def limits(shop: Shop) -> tuple[str, str]:
    return str(opening(shop).lower_limit), str(opening(shop).upper_limit)


def test_limits_and_bends_told_in_one_go_are_both_kept(shop: Shop) -> None:
    """A base of the invented copy stand, first read and then drawn."""
    assert shop.logbook("measure", "base", "opening", "178.6").code == 0
    said = shop.logbook(
        "part", "base", "--dimension", "opening=180.0 ±1.2",
        "--crosses", "opening=2 bends",
    )  # fmt: skip
    assert said.code == 0, said.err
    assert limits(shop) == ("178.8 mm", "181.2 mm")
    assert [(one.process, one.count) for one in opening(shop).made_by] == [("bend", 2)]
    assert "lower limit: not told → 178.8 mm" in said.out


def test_two_operations_of_one_dimension_are_both_kept(shop: Shop) -> None:
    shop.logbook("part", "base", "--dimension", "opening=180.0 ±1.2")
    shop.logbook(
        "part", "base", "--crosses", "opening=2 bends", "--crosses", "opening=1 cut"
    )
    assert [one.process for one in opening(shop).made_by] == ["bend", "cut"]


def test_limits_stay_until_they_are_taken_away_or_the_size_moves(shop: Shop) -> None:
    shop.logbook("part", "base", "--dimension", "opening=180.0 ±1.2")
    shop.logbook(
        "part", "base", "--dimension", "opening=180.0", "--critical", "opening"
    )
    assert limits(shop) == ("178.8 mm", "181.2 mm")
    assert opening(shop).critical
    said = shop.logbook("part", "base", "--no-limits", "opening")
    assert "upper limit: 181.2 mm → taken away" in said.out
    assert limits(shop) == ("None", "None")
    shop.logbook("part", "base", "--dimension", "opening=180.0 ±1.2")
    said = shop.logbook("part", "base", "--dimension", "opening=182")
    assert "lower limit: 178.8 mm → taken away" in said.out
