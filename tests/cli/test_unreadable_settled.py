"""A record that a clean merge left with one fact twice is named, with what to do."""

from __future__ import annotations

import json

import pytest

from logbook.errors import ProblemsFound
from tests.cli.shop import Shop


@pytest.fixture
def twice(shop: Shop) -> Shop:
    """Give a shop in which two clones each added a cure, at another place."""
    shop.asked("failure", "gate", "gate sagged", "--met-by", "drawing")
    [place] = shop.records("failures")
    text = place.read_text("utf-8")
    first = text.replace('kind = "failure"\n', 'kind = "failure"\ncure = "foil"\n')
    place.write_text(first.replace("\n```\n", '\ncure = "PETG"\n```\n', 1), "utf-8")
    return shop


def test_check_says_which_two_lines_and_to_keep_one(twice: Shop) -> None:
    said = twice.logbook("check")
    assert said.code == ProblemsFound.exit_code
    assert (
        "accepted: one line “cure”: line 6 has it too, keep one of the two" in said.out
    )
    assert "TOML" not in said.out


@pytest.mark.parametrize("take", [(), ("--take", "ours")])
def test_settle_does_not_say_that_nothing_is_left(
    twice: Shop, take: tuple[str, ...]
) -> None:
    said = twice.logbook("settle", *take)
    assert said.code == ProblemsFound.exit_code
    assert "nothing to settle" not in said.out
    assert "to be mended by hand: as-built/failures/" in said.out
    told = twice.logbook("settle", *take, "--json")
    [left] = json.loads(told.out)["left_to_do"]
    assert "keep one of the two" in left


def test_a_fact_that_stands_twice_in_a_table_is_found_too(shop: Shop) -> None:
    shop.asked("failure", "gate", "gate sagged", "--met-by", "drawing")
    [place] = shop.records("failures")
    text = place.read_text("utf-8")
    more = '\n[conditions]\nplace = "face"\nplace = "edge"\n```\n'
    place.write_text(text.replace("\n```\n", more, 1), "utf-8")
    assert "one line “place”: line" in shop.logbook("check").out
    whole = shop.logbook("settle").out
    assert "to be mended by hand" in whole
