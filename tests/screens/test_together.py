"""Screens side by side: two on one repository, each with its keys and its search."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from textual.screen import Screen

from logbook.cli import main
from logbook.records.kinds.happenings import Run
from logbook.records.kinds.workshop import Piece
from logbook.screens.find import Find
from logbook.screens.gaps.gaps import Gaps
from logbook.screens.inbox.inbox import InboxSheet
from logbook.screens.rebuild.rebuild import Rebuild
from logbook.screens.record.record import RecordSheet
from logbook.screens.ruled.keys_listed import Keys
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.sheet import Sheet
from logbook.screens.run.grid import Grid
from logbook.screens.run.measure import Measure
from logbook.screens.run.slots import Subject
from logbook.store.typed.user_settings import settings_file
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged


async def test_two_apps_on_one_repository_lose_nothing_and_see_each_other(
    shop: Path,
) -> None:
    sanded = [f"{done} the base" for done in ("sanded", "filed", "brushed")]
    oiled = [f"{done} the base" for done in ("oiled", "waxed", "polished")]
    async with bench(shop) as one, bench(shop) as two:
        for first, second in zip(sanded, oiled, strict=True):
            await one.say(first)
            await two.say(second)
        for at in (one, two):
            at.app.desk.watch()
            await at.settle()
            assert sanded[-1] in at.seen
            assert oiled[-1] in at.seen
        for at in (one, two):
            at.app.desk.commit()
            await at.settle()
    said = [entry.title for entry in project(shop).snapshot.entries]
    assert sorted(one for one in said if " the base" in one) == sorted(sanded + oiled)
    assert project(shop).waiting() == ()
    assert not project(shop).snapshot.problems


async def test_two_apps_measuring_one_piece_keep_two_runs(shop: Path) -> None:
    async with bench(shop) as one, bench(shop) as two:
        for at in (one, two):
            await at.do("f3")
            await at.do("enter")
        await one.say("178.61")
        await two.say("178.62")
        await one.say("w 40.1")
        await two.say("w 40.2")
    runs = project(shop).snapshot.all(Run)
    values = {str(r.value) for run in runs for r in run.readings}
    assert {"178.61 mm", "178.62 mm", "40.1 mm", "40.2 mm"} <= values
    # Each window made the size “w”, new to both: that is named, and settled at once.
    named = {one.accepted for one in project(shop).snapshot.problems}
    assert named <= {"one dimension of a name (settle joins them)"}
    logged(shop, "settle")
    assert not project(shop).snapshot.problems


async def test_the_command_line_beside_a_screen_is_seen_and_not_overwritten(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    async with bench(shop) as at:
        await at.type("sanded")
        assert main(["note", "from the shell", "--in", str(shop)]) == 0
        at.app.desk.watch()
        await at.settle()
        assert "from the shell" in at.seen
        assert at.line.value == "sanded"
        await at.say(" the bed")
    titles = {entry.title for entry in project(shop).snapshot.entries}
    assert titles >= {"from the shell", "sanded the bed"}
    capsys.readouterr()


async def test_a_key_can_be_put_elsewhere_and_every_place_names_it(
    shop: Path,
) -> None:
    settings_file().parent.mkdir(parents=True, exist_ok=True)
    settings_file().write_text('[keys]\nfind = "f12"\nclock = "ctrl+z"\n')
    async with bench(shop, (120, 40)) as at:
        assert "F12 find" in at.seen
        await at.do("f2")
        assert not isinstance(at.app.screen, Find)
        await at.do("f12")
        assert isinstance(at.app.screen, Find)
        await at.do("escape", "f1")
        assert "Ctrl-Z" in at.seen


@pytest.mark.parametrize(
    "wrong",
    ["keys = 3", "[keys]\nfind = 5", 'theme = "pink"', "idle_minutes = 0", "= ="],
)
async def test_settings_that_cannot_be_used_leave_the_bench_working(
    shop: Path, wrong: str
) -> None:
    settings_file().parent.mkdir(parents=True, exist_ok=True)
    settings_file().write_text(wrong)
    async with bench(shop, (200, 30)) as at:
        assert "screens.toml" in at.seen
        assert "accepted: " in at.seen
        await at.say("sanded the bed")
        assert "sanded the bed" in at.seen


SCREENS: dict[str, Callable[[Bench], Screen[object]]] = {
    "a record": lambda at: RecordSheet(
        at.app.desk, at.app.desk.snapshot.all(Piece)[0].id
    ),
    "a run": lambda at: Measure(at.app.desk, [Subject("base", 1, "base-1")]),
    "a batch": lambda at: Grid(at.app.desk, at.app.desk.snapshot.all(Piece)[0].part.id),
    "gaps": lambda at: Gaps(at.app.desk),
    "the inbox": lambda at: InboxSheet(at.app.desk),
    "before a rebuild": lambda at: Rebuild(
        at.app.desk, Line(f"build {at.app.desk.glance.builds[0].id}", "", "build 1")
    ),
}


@pytest.mark.parametrize("name", SCREENS)
async def test_f1_lists_every_key_of_a_screen_and_does_the_one_chosen(
    shop: Path, name: str
) -> None:
    async with bench(shop, (120, 40)) as at:
        at.app.push_screen(SCREENS[name](at))
        await at.settle()
        screen = at.app.screen
        assert isinstance(screen, Sheet)
        await at.do("f1")
        assert isinstance(at.app.screen, Keys)
        for verb in screen.VERBS:
            assert verb.purpose[:40] in at.seen, verb.action
        await at.type("slate")
        theme = at.app.theme
        await at.do("enter")
        assert at.app.screen is screen
        assert at.app.theme != theme


@pytest.mark.parametrize(
    "name", [n for n in SCREENS if n not in {"a run", "a batch", "gaps"}]
)
async def test_find_opens_from_a_screen_and_leads_back_to_it(
    shop: Path, name: str
) -> None:
    async with bench(shop, (120, 40)) as at:
        at.app.push_screen(SCREENS[name](at))
        await at.settle()
        screen = at.app.screen
        await at.do("f2")
        assert isinstance(at.app.screen, Find)
        await at.do("escape")
        assert at.app.screen is screen


async def test_a_batch_is_measured_size_by_size_across_its_pieces(
    shop: Path,
) -> None:
    logged(shop, "measure", "base", "opening", "179.9", "--piece", "2")
    async with bench(shop, (100, 30)) as at:
        await at.do("f5")
        await at.do("enter")
        assert isinstance(at.app.screen, Grid)
        assert "batch of 2: base" in at.seen
        await at.say("178.7")
        await at.say("179.8")
    values: dict[str, list[str]] = {}
    for run in project(shop).snapshot.all(Run):
        piece = run.piece.name if run.piece else ""
        values.setdefault(piece, []).extend(str(r.value) for r in run.readings)
    assert "178.7 mm" in values["base-1"]
    assert "179.8 mm" in values["base-2"]


async def test_a_batch_goes_on_where_the_last_one_rested(shop: Path) -> None:
    logged(shop, "part", "spacer", "--dimension", "length=12.0 ±0.1")
    for number in (1, 2):
        logged(shop, "measure", "spacer", "length", "12.0", "--piece", str(number))
    logged(shop, "piece", "spacer")
    logged(shop, "piece", "spacer")
    async with bench(shop, (100, 30)) as at:
        await at.do("f5")
        await at.say("spacer")
        assert isinstance(at.app.screen, Grid)
        assert "▸spacer-3" in at.seen.replace(" ", "")


@pytest.mark.parametrize("size", [(60, 20), (80, 24), (120, 40)])
async def test_a_long_reason_to_wait_is_shown_in_full(
    shop: Path, size: tuple[int, int]
) -> None:
    logged(shop, "step", "fold the base")
    long = "the sheet is not here, the folder is lent out, and the jaws are worn"
    logged(shop, "hold", "fold the base", long)
    async with bench(shop, size) as at:
        await at.do("ctrl+g")
        seen = "".join(c for c in at.seen if c.isalnum())
        assert "".join(c for c in long if c.isalnum()) in seen


async def test_a_batch_of_another_build_is_none_and_new_pieces_are_begun_by_number(
    shop: Path,
) -> None:
    logged(shop, "build", "build 2")
    async with bench(shop, (100, 30)) as at:
        await at.do("f5")
        assert "none in build 2 yet" in at.words
        await at.do("enter")
        assert "type how many new ones behind the name: base 5" in at.words
        await at.type("base 2")
        assert "base-2 to base-3" in at.words
        await at.do("enter")
        assert isinstance(at.app.screen, Grid)
        await at.say("178.7")
        await at.say("178.8")
    pieces = {one.title: one.build for one in project(shop).snapshot.all(Piece)}
    for name in ("base-2", "base-3"):
        build = pieces[name]
        assert build is not None
        assert build.name == "build 2"
