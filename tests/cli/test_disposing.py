"""What is done with a piece, told in plain words, settles what was open of it."""

from __future__ import annotations

import pytest

from logbook.project import Project
from logbook.records.states.dispositions import undisposed
from tests.cli.shop import Shop


@pytest.mark.parametrize(
    "line", ["scrapped the base", "use the base as is", "base use as is"]
)
def test_a_disposition_settles_the_open_fault_of_its_part(
    shop: Shop, line: str
) -> None:
    shop.asked("say", "base opening 178.6 should be 180", "--yes")
    assert undisposed(Project.open(shop.folder).snapshot)
    records = shop.asked("say", line, "--yes")["records"]
    assert [record["kind"] for record in records] == ["disposal"]
    assert not undisposed(Project.open(shop.folder).snapshot)


def test_a_disposition_settles_every_fault_its_piece_had_by_then(shop: Shop) -> None:
    shop.asked("say", "base opening 178.6 should be 180", "--yes")
    shop.asked("say", "base cracked at the bend", "--yes")
    assert len(undisposed(Project.open(shop.folder).snapshot)) == 2
    shop.asked("say", "scrapped the base", "--yes")
    assert not undisposed(Project.open(shop.folder).snapshot)
