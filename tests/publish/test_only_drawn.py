"""What changed in a drawing is no instruction to who holds the faulty part."""

from __future__ import annotations

from typing import Any

from tests.publish.errata_data import as_data
from tests.publish.stand import Stand

LINE = "base outside diameter 103 should be 99.5"


def released(stand: Stand, *, remake: str = "yes") -> dict[str, Any]:
    """Say that the base of a release is wrong, then draw it right."""
    for words in (
        ("say", LINE, "--met-by", "drawing", "--yes"),
        ("revise", "base", "--changed", "base 99.5 mm outside", "--why",
         "the hose did not go over it", "--remake", remake, "--because", LINE),
    ):  # fmt: skip
        code, said = stand.run(*words)
        assert code == 0, said
    faults = as_data(stand, "1.0")["faults"]
    [found] = [one for one in faults if "outside diameter" in one["title"].casefold()]
    return dict(found)


def test_who_holds_it_is_told_to_make_the_revision(stand: Stand) -> None:
    found = released(stand)
    assert found["do_this"].startswith("make it to base rev A (not released)")


def test_a_part_that_must_be_made_again_has_no_way_round(stand: Stand) -> None:
    assert released(stand)["way_round"] == "no way round that has held"


def test_a_cure_that_somebody_named_is_an_instruction_still(stand: Stand) -> None:
    stand.run(
        "failure", "base", "binds on the tube", "--cure", "sand it down to 99.5",
        "--met-by", "drawing",
    )  # fmt: skip
    stand.run(
        "revise", "base", "--changed", "sand it down to 99.5", "--why", "it binds",
        "--remake", "yes",
    )  # fmt: skip
    [found] = [
        one
        for one in as_data(stand, "1.0")["faults"]
        if "binds" in one["title"].casefold()
    ]
    assert found["do_this"].startswith("sand it down to 99.5")
    assert found["way_round"] != "no way round that has held"
