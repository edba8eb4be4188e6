"""What is taken back was done here, in the build shown; all else is named first."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.errors import Refused
from logbook.screens.desk.taking_back import Doings, Shown, TakingBack
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged
from tests.screens.on_disk import titles

NAMED = "which was not logged in this window; any other key keeps it"


async def test_what_another_window_logged_later_stays_and_is_named_first(
    shop: Path,
) -> None:
    logged(shop, "part", "bed")
    async with bench(shop) as one, bench(shop) as two:
        await one.say("sanded the bed")
        await two.say("oiled the bed")
        await one.do("f8")
        assert "sanded the bed" not in titles(shop)
        assert "oiled the bed" in titles(shop)
        await one.do("f8")
        assert "oiled the bed" in titles(shop)
        assert NAMED in one.words
        await one.press("up")
        await one.do("f8")
        assert "oiled the bed" in titles(shop)
        await one.do("f8")
        assert "oiled the bed" not in titles(shop)
        assert "taken back" in one.seen


async def test_what_was_logged_in_another_build_stays(shop: Path) -> None:
    logged(shop, "note", "the wide jaw is back")
    logged(shop, "build", "build 2")
    async with bench(shop) as at:
        await at.say("sanded the bed")
        await at.do("f4")
        assert "now build 1, no longer build 2; F4 goes on" in at.words
        await at.do("f8")
        assert "the wide jaw is back” of" in at.words
        assert NAMED in at.words
        await at.do("f4")
        await at.do("f8")
    assert "sanded the bed" not in titles(shop)
    assert "the wide jaw is back" in titles(shop)


def test_where_nothing_of_the_build_is_left_the_last_of_all_is_named(
    shop: Path,
) -> None:
    logged(shop, "note", "the wide jaw is back")
    at = project(shop)
    newest = at.undoable()
    assert newest is not None
    wish = TakingBack(at, Doings(), Shown("0b0b0b0b", "build 9"))
    with pytest.raises(Refused, match="nothing logged in build 9 is left") as refusal:
        wish.choose([newest])
    assert "the wide jaw is back" in str(refusal.value)


async def test_after_a_beginning_taken_back_the_build_before_is_gone_on_with(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await at.say("start build 2")
        await at.do("1")
        await at.say("sanded the bed")
        for _ in range(2):
            await at.do("f8")
        assert [b.title for b in at.app.desk.glance.builds] == ["build 1"]
        await at.say("oiled the bed")
    last = project(shop).snapshot.entries[-1]
    assert (last.title, last.build and last.build.name) == ("oiled the bed", "build 1")
    assert not project(shop).snapshot.problems


async def test_a_piece_that_another_window_measured_meanwhile_stays(
    shop: Path,
) -> None:
    async with bench(shop) as one, bench(shop) as two:
        await one.say("base-2 opening 179.9")
        two.app.desk.watch()
        await two.settle()
        await two.say("base-2 opening 179.8")
        await one.do("f8")
        assert "came later and is of it" in one.words
    values = [title for title in titles(shop) if title.startswith("base-2 opening")]
    assert len(values) == 2
    assert not project(shop).snapshot.problems


async def test_while_a_question_stands_no_other_entry_is_touched(shop: Path) -> None:
    logged(shop, "build", "build 2")
    async with bench(shop) as at:
        await at.say("sanded the bed")
        await at.type("bed cracked at the rim")
        await at.press("enter")
        assert "would another builder meet this?" in at.words
        for key in ("f8", "f7", "f6", "f4"):
            await at.do(key)
            assert "the question comes first" in at.words, key
        assert "would another builder meet this?" in at.words
        await at.press("escape")
        assert "the question comes first" not in at.words
        await at.do("enter", "3")
    found = project(shop).snapshot.entries
    assert [one.title for one in found][-2:] == [
        "sanded the bed",
        "bed cracked at the rim",
    ]
    assert {one.build and one.build.name for one in found[-2:]} == {"build 2"}


async def test_the_last_entry_is_that_of_the_build_shown(shop: Path) -> None:
    logged(shop, "note", "the wide jaw is back")
    logged(shop, "build", "build 2")
    async with bench(shop) as at:
        await at.say("sanded the bed")
        await at.do("f4")
        await at.do("f7")
        assert "“the wide jaw is back” of" in at.words
        assert "now of build 1" in at.words
        await at.press("escape")


async def test_a_move_is_taken_back_at_once(shop: Path) -> None:
    logged(shop, "build", "build 2")
    async with bench(shop) as at:
        await at.say("sanded the bed")
        await at.do("f7", "1", "enter")
        await at.do("f8")
    last = project(shop).snapshot.entries[-1]
    assert (last.title, last.build and last.build.name) == ("sanded the bed", "build 2")


@pytest.mark.parametrize(
    "line", ["collar thickness 6.35 should be 6", "part collar", "mask cracked"]
)
async def test_what_was_taken_back_is_made_again_under_the_same_names(
    shop: Path, line: str
) -> None:
    def names() -> list[tuple[str, str]]:
        snapshot = project(shop).snapshot
        return sorted((type(one).__name__, one.title) for one in snapshot)

    async with bench(shop) as at:
        await at.say(line)
        await at.do("enter")
        made = names()
        await at.do("f8")
        assert names() != made
        await at.say(line)
        await at.do("enter")
        assert names() == made
    assert not project(shop).snapshot.problems
