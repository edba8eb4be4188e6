"""Pieces made on another machine than planned say nothing of the planned one."""

from __future__ import annotations

from typing import Any

import pytest

from logbook.project import Project
from logbook.records.kinds.workshop import Piece
from tests.cli.shop import Shop


@pytest.fixture
def folded(shop: Shop) -> Shop:
    """Three bases folded on the folder; a second shop folds on its brake."""
    shop.asked("machine", "folder", "--process", "folding")
    shop.asked("machine", "shed brake", "--process", "folding")
    shop.asked("machine", "drill press", "--process", "drilling")
    shop.asked("part", "base", "--dimension", "opening=180.0", "--process", "folding")
    bends = ("--crosses", "opening=2 bends on the folder")
    shop.asked("part", "base", *bends)
    for _ in range(3):
        shop.asked("piece", "base", "--on", "folder")
        shop.asked("measure", "base", "opening", "178.6")
    return shop


def figures(shop: Shop) -> dict[str, str]:
    """Give the figure of folding on each machine, as the first row says it."""
    rows = shop.logbook("figures").out.splitlines()
    told = (row for row in rows if " on the " in row)
    return {row.partition(" on the ")[2].partition(":")[0]: row for row in told}


def newest(shop: Shop) -> Any:
    return Project.open(shop.folder).snapshot.all(Piece)[-1]


@pytest.mark.parametrize(
    "made",
    [
        ("piece", "base", "--on", "shed brake"),
        ("say", "--yes", "folded another base on the shed brake"),
        ("say", "--yes", "folded a new base with the shed brake, 40 min"),
    ],
)
def test_readings_count_for_the_machine_a_piece_was_made_on(
    folded: Shop, made: tuple[str, ...]
) -> None:
    before = figures(folded)["folder"]
    assert folded.logbook(*made).code == 0
    assert newest(folded).machine.name == "shed brake"
    folded.asked("measure", "base", "opening", "179.9")
    assert figures(folded)["folder"] == before
    assert ", 2 bends on record" in figures(folded)["shed brake"]


def test_a_machine_that_does_other_work_is_not_what_it_was_folded_on(
    folded: Shop,
) -> None:
    before = figures(folded)["folder"]
    assert (
        folded.logbook("say", "--yes", "drilled the base on the drill press").code == 0
    )
    assert newest(folded).machine.name == "folder"
    assert figures(folded)["folder"] == before
