"""A few records among many: in order of time, whatever is asked of the sequence."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.records.kinds.happenings import Note
from logbook.records.kinds.workshop import Build
from logbook.records.together.ordered import age
from logbook.screens.desk.interleaved import Interleaved, revisions_in
from logbook.screens.ruled.newest import Newest
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged

START = datetime(2026, 3, 14, tzinfo=UTC)
MINUTES = st.lists(st.integers(0, 30), max_size=12)


def notes(minutes: list[int], sort: str) -> list[Note]:
    return [
        Note(
            id=f"{sort}{at:07}",
            title=f"{sort} {at}",
            when=START + timedelta(minutes=minute),
        )
        for at, minute in enumerate(minutes)
    ]


@given(MINUTES, MINUTES)
def test_all_of_them_in_order_by_place_and_by_going_through(
    many: list[int], few: list[int]
) -> None:
    long, short = sorted(notes(many, "a"), key=age), notes(few, "b")
    both = Interleaved(long, short)
    wanted = sorted([*long, *short], key=age)
    assert len(both) == len(wanted)
    assert [*both] == wanted
    assert [both[at] for at in range(-len(wanted), 0)] == wanted
    assert both[2:7] == wanted[2:7]


async def test_a_revision_stands_among_the_newest_and_is_where_it_is_taken_back(
    shop: Path,
) -> None:
    logged(shop, "part", "diffuser", "--dimension", "hole inset=9")
    async with bench(shop, (100, 30)) as at:
        await at.say("sanded the diffuser")
        logged(
            shop, "revise", "diffuser", "--dimension", "hole inset=11",
            "--changed", "holes further in",
        )  # fmt: skip
        await at.until(lambda: "diffuser rev A" in at.words)
        listed = at.words.rindex("diffuser rev A")
        assert at.words.index("sanded the diffuser") < listed
        assert at.words.index("diffuser rev A") < listed, "where the work was"
        await at.do("up", "enter")
        assert "holes further in" in at.words
    titles = [one.title for one in project(shop).snapshot.entries]
    assert "diffuser rev A" not in titles


async def test_first_issues_do_not_crowd_the_newest(shop: Path) -> None:
    logged(shop, "part", "diffuser", "--dimension", "hole inset=9")
    async with bench(shop, (100, 30)) as at:
        assert "first issue" not in at.words


async def test_a_gap_made_lately_stands_among_the_newest_as_what_it_is(
    shop: Path,
) -> None:
    logged(shop, "part", "crossbar", "--dimension", "length=179.7 ±0.1")
    async with bench(shop, (100, 30)) as at:
        await at.do("ctrl+b")
        await at.say("gap bar in it: base.opening - crossbar.length; limits 0.1 to 0.5")
        await at.do("escape", "escape")
        assert "gap bar in it" in at.words
        await at.do("up", "enter")
        assert "base.opening - crossbar.length" in at.words


@pytest.mark.parametrize(
    ("line", "called"),
    [
        ("crossbar length drawn 179.7 ±0.1", "as drawn"),
        ("part collar", "new part"),
        ("note the wide jaw is back", "note"),
    ],
)
async def test_a_note_is_called_by_what_it_put_on_record(
    shop: Path, line: str, called: str
) -> None:
    async with bench(shop, (100, 30)) as at:
        await at.say(line)
        newest = at.app.screen.query_one(Newest)
        assert (
            newest.render_line(newest.size.height - 1)
            .text.split("│")[1]
            .split()[: len(called.split())]
            == called.split()
        )


def test_a_revision_is_of_the_build_whose_fault_led_to_it_or_that_was_worked_on(
    shop: Path,
) -> None:
    logged(shop, "part", "gate", "--dimension", "depth=8")
    logged(shop, "failure", "gate", "gate sagged", "--when", "2026-11-01T10:00")
    logged(shop, "build", "build 2", "--when", "2026-11-02T10:00")
    logged(shop, "revise", "gate", "--changed", "PETG", "--because", "gate sagged")
    logged(shop, "say", "--yes", "sanded the base")
    logged(shop, "revise", "base", "--changed", "rounder corners")
    snapshot = project(shop).snapshot
    first, second = snapshot.all(Build)
    assert [one.title for one in revisions_in(snapshot, first)] == ["gate rev A"]
    assert [one.title for one in revisions_in(snapshot, second)] == ["base rev A"]
