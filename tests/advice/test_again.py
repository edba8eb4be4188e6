"""What is to be made or fitted again once its piece was scrapped or taken out."""

from __future__ import annotations

import pytest

from logbook.advice.advisor import advise
from logbook.project import Project
from tests.cli.shop import Shop


def on(day: int) -> tuple[str, str]:
    return "--when", f"2026-03-0{day}T10:00"


def said(shop: Shop) -> list[str]:
    told = advise(Project.open(shop.folder).snapshot)
    return [one.statement for one in told.of("again") if one.open]


@pytest.fixture
def sawn(shop: Shop) -> Shop:
    shop.asked("build", "build 1", *on(1))
    shop.asked("part", "crossbar", *on(1))
    shop.asked("step", "saw the crossbar", "--makes", "crossbar", *on(1))
    shop.asked("step", "fit the bar", "--uses", "crossbar", *on(1))
    shop.asked("piece", "crossbar", *on(2))
    shop.asked("step", "saw the crossbar", "--done", *on(2))
    return shop


def test_what_was_scrapped_is_made_again_until_it_is_there(sawn: Shop) -> None:
    assert said(sawn) == []
    sawn.asked("dispose", "crossbar-1", "scrap", *on(3))
    assert said(sawn) == ["make again: crossbar-1 scrapped"]
    sawn.asked("piece", "crossbar", *on(4))
    assert said(sawn) == []


def test_what_is_lost_is_made_again(sawn: Shop) -> None:
    sawn.asked("status", "crossbar-1", "lost", *on(3))
    assert said(sawn) == ["make again: crossbar-1 lost"]
    sawn.asked("piece", "crossbar", *on(4))
    assert said(sawn) == []


def test_the_step_done_since_has_made_it_again(sawn: Shop) -> None:
    sawn.asked("dispose", "crossbar-1", "scrap", *on(3))
    sawn.asked("step", "saw the crossbar", "--done", *on(4))
    assert said(sawn) == []


def test_a_spare_that_is_scrapped_is_not_missed(sawn: Shop) -> None:
    sawn.asked("piece", "crossbar", *on(2))
    sawn.asked("dispose", "crossbar-2", "scrap", *on(3))
    assert said(sawn) == []


def test_the_list_says_how_many_are_needed(sawn: Shop) -> None:
    sawn.asked("line", "crossbar", "2")
    sawn.asked("piece", "crossbar", *on(2))
    sawn.asked("dispose", "crossbar-2", "scrap", *on(3))
    assert said(sawn) == ["make again: crossbar-2 scrapped"]


def test_what_was_taken_out_is_fitted_again_and_not_made(sawn: Shop) -> None:
    sawn.asked("step", "fit the bar", "--done", *on(3))
    sawn.asked("status", "crossbar-1", "taken out", *on(4))
    assert said(sawn) == ["fit again: crossbar-1 taken out"]
    sawn.asked("status", "crossbar-1", "fitted", *on(5))
    assert said(sawn) == []


def test_another_one_made_since_is_still_to_be_fitted(sawn: Shop) -> None:
    sawn.asked("step", "fit the bar", "--done", *on(3))
    sawn.asked("dispose", "crossbar-1", "scrap", *on(4))
    sawn.asked("piece", "crossbar", *on(5))
    assert said(sawn) == ["fit again: crossbar-1 scrapped"]
    sawn.asked("status", "crossbar-2", "fitted", *on(6))
    assert said(sawn) == []


def test_an_override_from_before_it_went_does_not_quiet_it(sawn: Shop) -> None:
    sawn.asked("override", "crossbar-1", "--because", "seen", *on(2))
    sawn.asked("dispose", "crossbar-1", "scrap", *on(3))
    assert said(sawn) == ["make again: crossbar-1 scrapped"]
    sawn.asked("override", "crossbar-1", "--because", "seen", *on(4))
    assert said(sawn) == []


def test_a_piece_of_another_build_is_not_missed_in_this_one(sawn: Shop) -> None:
    sawn.asked("build", "build 2", *on(3))
    sawn.asked("dispose", "crossbar-1", "scrap", "--build", "build 1", *on(4))
    sawn.asked("note", "swept the bench", "--build", "build 2", *on(5))
    assert said(sawn) == []
