"""What an entry suggests shows on the bench, and never takes a key from the line."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.advice.proposed.proposal import Proposal
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.happenings import Declined, Note, Run
from logbook.records.kinds.ids import Ref
from logbook.screens.bench.offering import Offering
from tests.screens.bench_keys import Bench, bench, project

ROOM = "does the crossbar go into"


async def suggested(at: Bench) -> None:
    """Say the bar beside the opening that is on record, and wait for the offer."""
    await at.say("crossbar 179.7")
    await at.settle()
    assert ROOM in at.seen


async def test_the_bar_beside_the_opening_is_answered_after_its_own_key(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await suggested(at)
        await at.press("ctrl+o")
        await at.say("0.1 to 0.5, made last")
        assert ROOM not in at.seen
    [fit] = project(shop).snapshot.all(Fit)
    assert fit.made_last is not None
    assert str(fit.lower_limit) == "0.1 mm"


async def test_who_types_on_passes_it_over_and_loses_no_letter(shop: Path) -> None:
    async with bench(shop) as at:
        await suggested(at)
        await at.say("xyz is next on the list")
        assert at.line.value == ""
    found = project(shop).snapshot
    assert [one.title for one in found.all(Note)] == ["xyz is next on the list"]
    assert not found.all(Fit)
    assert not found.all(Declined)


async def test_one_key_refuses_it_for_good(shop: Path) -> None:
    async with bench(shop) as at:
        await suggested(at)
        await at.do("ctrl+o", "x")
        await at.say("crossbar 179.6")
        assert ROOM not in at.seen
    found = project(shop).snapshot
    assert len(found.all(Declined)) == 1
    assert len(found.all(Run)) == 3


def test_a_no_that_says_what_is_so_instead_has_its_key_and_its_words() -> None:
    ref = Ref("fault", "aaaaaaaa")
    asks = ("k", "known fault", ref, "is it the same?", "it is told", "yes", ())
    found = Proposal(*asks, lambda *_: None, "another fault")
    keys = Offering(found).asked().keys
    assert keys["n"][0] == "another fault"
    assert found.subject(keys["n"][1]) == "another fault: is it the same?"
    plain = Proposal(*asks, lambda *_: None)
    assert Offering(plain).asked().keys["x"][0] == "not wanted"


async def test_the_list_tells_its_rows_by_what_they_are_and_the_shells_name(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await suggested(at)
        await at.press("ctrl+o", "escape")
        await at.do("ctrl+o")
        assert "▸gap" in at.seen
        assert "logbook offered take " in at.seen


@pytest.mark.parametrize("key", ["enter", "escape"])
async def test_later_leaves_it_in_the_list_and_the_line_free(
    shop: Path, key: str
) -> None:
    async with bench(shop) as at:
        await suggested(at)
        await at.press("ctrl+o", key)
        assert "Ctrl-O lists what is offered" in at.words
        await at.type("on")
        assert at.line.value == "on"
        assert ROOM not in at.seen
    assert project(shop).snapshot.all(Declined) == ()


async def test_an_answer_that_is_none_is_said_and_stays_to_be_put_right(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await suggested(at)
        await at.press("ctrl+o")
        assert "accepted:" in at.words
        assert "found “0.5”" not in at.words
        await at.type("0.5")
        await at.press("enter")
        assert "found “0.5”; accepted:" in at.words
        assert "› 0.5" in at.seen
        await at.press("backspace")
        await at.say("1 to 0.5")
    [fit] = project(shop).snapshot.all(Fit)
    assert str(fit.lower_limit) == "0.1 mm"
