"""A reading of one of several pieces made together is asked which; none is guessed."""

from __future__ import annotations

import pytest

from logbook.project import Project
from logbook.records.kinds.happenings import Run
from tests.cli.shop import Shop


@pytest.fixture
def uprights(shop: Shop) -> Shop:
    """Three uprights, made in one go."""
    shop.asked("part", "upright")
    shop.asked("say", "--yes", "--when", "2026-03-10T10:00", "made 3 uprights")
    return shop


def pieces_read(shop: Shop) -> list[str]:
    snapshot = Project.open(shop.folder).snapshot
    return [one.piece.name for one in snapshot.all(Run) if one.piece]


def test_what_was_read_of_several_made_at_once_is_asked(uprights: Shop) -> None:
    said = uprights.logbook("say", "--yes", "upright height 100.2")
    assert "which upright? this build has 1, 2, 3" in said.err
    assert pieces_read(uprights) == []


@pytest.mark.parametrize("line", ["upright 2 height 100.2", "upright-2 height 100.2"])
def test_nothing_is_asked_where_the_line_tells_it(uprights: Shop, line: str) -> None:
    said = uprights.logbook("say", "--yes", line)
    assert "which upright" not in said.out
    assert pieces_read(uprights) == ["upright-2"]


def test_nothing_is_asked_of_pieces_made_one_after_the_other(shop: Shop) -> None:
    shop.asked("say", "--yes", "--when", "2026-03-10T10:00", "made the bar")
    shop.asked("say", "--yes", "--when", "2026-03-11T10:00", "made a second bar")
    said = shop.logbook("say", "--yes", "bar length 178.3")
    assert "which bar" not in said.out
    assert pieces_read(shop) == ["bar-2"]


def test_a_reading_dated_before_its_piece_was_made_says_so(shop: Shop) -> None:
    shop.asked("build", "build 1", "--when", "2026-03-01T09:00")
    shop.asked("say", "--yes", "--when", "2026-03-10T10:00", "made the bar")
    line = ("say", "--yes", "bar length 178.3", "--when", "2026-03-09T10:00")
    said = shop.logbook(*line)
    assert said.code == 0
    told = "dated 09 Mar 10:00, before bar-1 was made (10 Mar 10:00)"
    assert (said.out + said.err).count(told) == 1
    later = shop.logbook("say", "--yes", "bar width 19.9", "--when", "2026-03-10T11:00")
    assert "dated" not in later.out + later.err
