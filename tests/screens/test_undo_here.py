"""Taking back from inside a screen takes nothing back that was done elsewhere."""

from __future__ import annotations

from pathlib import Path

from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import Deviation
from logbook.screens.record.record import RecordSheet
from tests.screens.bench_keys import bench, measuring, project
from tests.screens.conftest import draw_limits, logged
from tests.screens.on_disk import readings

SANDED = "sanded the bed"


async def test_a_run_takes_back_only_its_own_readings(shop: Path) -> None:
    before = readings(shop)
    async with bench(shop, (100, 30)) as at:
        await measuring(at, "base")
        await at.do("f8")
        said = " ".join(at.seen.split())
        assert "nothing taken in this run yet; F8 on the bench takes back" in said
        assert readings(shop) == before
        await at.say("178.6")
        await at.do("f8")
        assert readings(shop) == before
        await at.do("f8")
        assert "nothing taken in this run yet" in at.seen
    assert readings(shop) == before


async def test_a_deviation_logged_in_the_run_is_taken_back_there(shop: Path) -> None:
    logged(shop, "part", "bar")
    logged(shop, "measure", "bar", "length", "40.02", "--nominal", "40.0 mm")
    draw_limits(shop)
    async with bench(shop, (100, 30)) as at:
        deviations = len(project(shop).snapshot.all(Deviation))
        await measuring(at, "bar")
        await at.say("40.4")
        await at.do("f6", "d")
        assert len(project(shop).snapshot.all(Deviation)) == deviations + 1
        await at.do("f8")
        assert len(project(shop).snapshot.all(Deviation)) == deviations
        assert "40.4 mm" in readings(shop)


async def test_a_deviation_logged_in_the_run_is_of_the_build_shown(shop: Path) -> None:
    logged(shop, "part", "bar")
    logged(shop, "measure", "bar", "length", "40.02", "--nominal", "40.0 mm")
    draw_limits(shop)
    logged(shop, "build", "build 2")
    async with bench(shop, (100, 30)) as at:
        await at.do("f4")
        await measuring(at, "bar")
        await at.say("40.4")
        await at.do("f6", "d")
    last = project(shop).snapshot.all(Deviation)[-1]
    assert str(last.found) == "40.4 mm"
    assert last.build is not None
    assert last.build.name == "build 1"


async def test_a_record_takes_back_only_what_was_done_to_it(shop: Path) -> None:
    async with bench(shop, (120, 30)) as at:
        await at.say(SANDED)
        [opening] = project(shop).snapshot.all(Characteristic)
        at.app.push_screen(RecordSheet(at.app.desk, opening.id))
        await at.settle()
        await at.do("f8")
        said = " ".join(at.seen.split())
        assert "F8 again takes back “" in said
        assert "base opening 178.6 should be 180” of " in said
        assert SANDED in {one.title for one in project(shop).snapshot.entries}
        await at.press("enter", "ctrl+u")
        await at.say("clear opening")
        await at.do("f8")
        said = " ".join(at.seen.split())
        assert "F8 again takes back “amend: clear opening”" in said
        await at.do("down")
        assert "again takes back" not in at.seen
        await at.do("f8")
        assert [c.title for c in project(shop).snapshot.all(Characteristic)] == [
            "clear opening"
        ]
        await at.do("f8")
    snapshot = project(shop).snapshot
    assert [one.title for one in snapshot.all(Characteristic)] == ["opening"]
    assert SANDED in {one.title for one in snapshot.entries}


async def test_an_older_entry_is_taken_back_from_its_own_page(shop: Path) -> None:
    async with bench(shop, (120, 30)) as at:
        await at.say(SANDED)
        [note] = [one for one in project(shop).snapshot if one.title == SANDED]
        await at.say("filed the crossbar")
        at.app.push_screen(RecordSheet(at.app.desk, note.id))
        await at.settle()
        await at.do("f8")
        assert "F8 again takes back" in at.words
        await at.do("f8")
    titles = {one.title for one in project(shop).snapshot.entries}
    assert SANDED not in titles
    assert "filed the crossbar" in titles


async def test_what_another_entry_stands_on_is_not_taken_back(shop: Path) -> None:
    async with bench(shop, (120, 30)) as at:
        [opening] = project(shop).snapshot.all(Characteristic)
        await at.say("base opening 178.7")
        at.app.push_screen(RecordSheet(at.app.desk, opening.id))
        await at.settle()
        await at.do("f8")
        await at.do("f8")
        assert "undo" in at.seen
    assert opening.id in project(shop).snapshot
