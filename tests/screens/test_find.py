"""Find asks the index: what it lists is what a plain look at every record gives."""

from __future__ import annotations

import tempfile
from datetime import timedelta
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.index.query import ALL
from logbook.records.kinds.happenings import Note
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.record import Record
from logbook.screens import find
from logbook.screens.desk.lookup import Lookup
from logbook.screens.find import Find, answers, row_of
from logbook.screens.ruled.listing import Listing
from logbook.store.reading.records import read_files, snapshot_of
from tests.index import scan
from tests.index.test_agreement import SEARCHES, some_record
from tests.index.world import NOON, started, write
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged

SIZES = [(60, 20), (80, 24), (120, 40)]
HOSTILE = "[bold]bed[/] \x1b[31mred\x1b[0m \x07 $title \u202eflipped"


@settings(max_examples=15, deadline=None)
@given(
    records=st.lists(some_record(), min_size=1, max_size=8),
    few=st.sampled_from([1, 3, find.MOST]),
)
def test_it_lists_what_a_scan_finds_the_newest_first(
    records: list[Record], few: int
) -> None:
    with tempfile.TemporaryDirectory() as place, pytest.MonkeyPatch.context() as patch:
        patch.setattr(find, "AT_ONCE", min(few, 2))
        patch.setattr(find, "MOST", few)
        top = started(Path(place) / "stand")
        for record in records:
            write(top, record)
        snapshot = snapshot_of(read_files(top))
        lookup = Lookup(top, Path(place) / "index.sqlite")
        for typed in SEARCHES:
            expected = scan.search(snapshot, typed, ALL)
            told = [[line.id for line in some] for some in answers(lookup, typed)]
            for before, after in pairwise(told):
                assert after[: len(before)] == before
            assert told[-1][:few] == expected[:few], typed
            older = told[-1][few:]
            assert len(set(older)) == len(older)
            assert set(older) <= set(expected[few:]), typed
            if typed.strip():
                assert len(told[-1]) == min(len(expected), few + len(older))
        lookup.close()


def with_notes(shop: Path, *titles: str, prose: str = "") -> None:
    """Log notes, a minute apart."""
    there = project(shop)
    for minutes, title in enumerate(titles):
        when = NOON + timedelta(minutes=minutes)
        draft = there.draft(when)
        draft.add(Note(id=new_id(), title=title, prose=prose, when=when))
        there.save(draft, title, when)


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_it_is_found_and_opened_at_every_size(
    shop: Path, size: tuple[int, int]
) -> None:
    with_notes(shop, "sawn at 178,450", "filed", "sawn again at 178.45 mm")
    async with bench(shop, size) as at:
        await at.do("f2")
        await at.type("178.450")
        await at.settle()
        seen = [row for row in at.seen.splitlines() if "sawn" in row]
        assert len(seen) == 2
        assert "again" in seen[0]
        assert "filed" not in at.seen
        await at.do("down", "enter")
        assert "sawn at 178,450" in at.seen
        await at.press("escape")
        assert isinstance(at.app.screen, Find)


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_hostile_text_is_found_and_only_shown(
    shop: Path, size: tuple[int, int]
) -> None:
    with_notes(shop, "noted [red]at[/] the bed", prose=HOSTILE)
    async with bench(shop, size) as at:
        await at.press("f2")
        for typed in ("flipped", "[bold]bed[/]", '" OR *', "$title", "'); DROP"):
            await at.type(typed)
            await at.settle()
            found = "noted [red]at[/] the bed" in at.seen
            assert found == (typed not in {'" OR *', "'); DROP"}), typed
            at.line.put("")
            await at.settle()


async def test_what_was_saved_or_undone_just_now_is_found_or_gone(shop: Path) -> None:
    async with bench(shop) as at:
        await at.say("swept the bench")
        await at.press("f2")
        await at.type("swept")
        await at.settle()
        assert "swept the bench" in at.app.screen.query_one(Listing).chosen.words  # type: ignore[union-attr]
        await at.do("escape", "f8")
        await at.press("f2")
        await at.type("swept")
        await at.settle()
        assert at.app.screen.query_one(Listing).chosen is None
        assert "no record has that" in at.seen


async def test_the_row_chosen_stays_chosen_when_more_are_found(shop: Path) -> None:
    async with bench(shop) as at:
        with_notes(shop, *(f"filed {n}" for n in range(4)))
        at.app.desk.watch()
        await at.settle()
        await at.press("f2")
        await at.type("filed")
        await at.settle()
        screen = at.app.screen
        assert isinstance(screen, Find)
        assert at.app.desk.lookup is not None
        await at.press("down")
        lines = [row_of(line) for line in at.app.desk.lookup.newest("filed", 9)]
        screen.post_message(Find.Found("filed", lines))
        await at.settle()
        chosen = screen.query_one(Listing).chosen
        assert chosen is not None
        assert chosen.words == "filed 2"


def test_it_says_how_far_the_records_are_read_for_the_search(tmp_path: Path) -> None:
    top = started(tmp_path / "stand")
    for at in range(3):
        write(top, Note(id=new_id(), title=f"note {at}", when=NOON))
    told: list[str] = []

    class Watched(Lookup):
        """Notes what would be said at each step."""

        def _count(self, done: int, total: int) -> None:
            super()._count(done, total)
            told.append(find.progress_words(self.read))

    lookup = Watched(top, tmp_path / "index.sqlite")
    assert find.progress_words(lookup.read) == "looking …"
    assert len(lookup.newest("note", 9)) == 3
    assert lookup.read is None
    lookup.close()
    assert told[-1] == "reading for the search: 4 of 4; Esc goes back, it goes on"
    big = find.progress_words((2000, 100_000))
    assert big == "reading for the search: 2,000 of 100,000; Esc goes back, it goes on"


async def test_what_was_amended_from_here_stands_so_when_one_comes_back(
    shop: Path,
) -> None:
    logged(shop, "failure", "base", "dented", "--cure", "a pad of felt")
    async with bench(shop, (120, 30)) as at:
        await at.do("f2")
        await at.type("dented")
        await at.until(lambda: "a pad of felt" in at.words)
        await at.do("enter")
        await at.type("cure: ")
        await at.say("a strip of cork")
        await at.do("enter")
        await at.do("escape")
        await at.until(lambda: isinstance(at.app.screen, Find))
        assert "a strip of cork" in at.words
        assert "a pad of felt" not in at.words
