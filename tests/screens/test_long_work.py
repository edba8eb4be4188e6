"""Long work is said in the band, in one manner; stopping it leaves all as it was."""

from __future__ import annotations

from pathlib import Path
from threading import Event

import pytest

from logbook.project import Project
from logbook.records.kinds.happenings import Note
from logbook.records.kinds.ids import new_id
from logbook.records.making.drafts import Draft
from logbook.screens.app import LogbookApp
from logbook.screens.bench.saying_sheet import SayingSheet
from logbook.screens.desk import long_work
from logbook.screens.desk.adviser import Adviser
from logbook.screens.desk.long_work import LongWork, LongWorks, Stopped
from logbook.screens.desk.lookup import Lookup
from logbook.screens.desk.news import Job
from tests.index.world import started
from tests.screens.bench_keys import Bench, bench, project


@pytest.fixture(autouse=True)
def said_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let work be spoken of as soon as it is begun."""
    monkeypatch.setattr(long_work, "SAID_AFTER_S", 0.0)


def test_only_what_is_under_way_is_spoken_of_and_stopped() -> None:
    works = LongWorks()
    assert works.stop() is None
    with works.doing(LongWork("reading", lambda: "3 of 10")) as first:
        with works.doing(LongWork("leaving", can_stop=False)):
            assert works.said is not None
            assert works.said.words == "leaving …"
            assert works.stop() is None
        assert works.said is first
        assert first.words == "reading: 3 of 10"
        assert works.stop() is first
        with pytest.raises(Stopped, match="nothing was written"):
            first.check()
    assert works.said is None


def test_an_index_that_was_stopped_is_begun_anew_by_who_needs_it(
    tmp_path: Path,
) -> None:
    top = started(tmp_path / "stand")
    works = LongWorks()

    class Stops(Lookup):
        """Is stopped at the first file that is read."""

        stopping = True

        def _count(self, done: int, total: int) -> None:
            if self.stopping:
                assert works.stop() is not None
            super()._count(done, total)

    lookup = Stops(top, tmp_path / "index.sqlite", works)
    with pytest.raises(Stopped):
        lookup.newest("anything", 9)
    assert lookup.read is None
    lookup.stopping = False
    assert lookup.newest("anything", 9) == []
    lookup.close()


async def test_a_save_that_is_stopped_writes_nothing_and_gives_the_line_back(
    shop: Path,
) -> None:
    async with bench(shop, (100, 30)) as at:
        begun, go_on = Event(), Event()

        def slowly(project: Project) -> Draft:
            begun.set()
            go_on.wait(60)
            draft = project.draft(at.app.desk.now())
            draft.add(Note(id=new_id(), title="taken in", when=draft.when))
            return draft

        screen = at.app.screen
        assert isinstance(screen, SayingSheet)
        screen.send(Job("taking in the photo", slowly, typed="a photo"))
        while not begun.is_set():
            await at.pilot.pause()
        at.app._tick()
        await at.rest()
        assert "taking in the photo … · Ctrl-Z stops it" in at.words
        await at.press("ctrl+z")
        assert "stopped: taking in the photo; all is as it was" in at.words
        go_on.set()
        await at.settle()
        assert at.line.value == "a photo"
        at.app._tick()
        await at.rest()
        assert "Ctrl-Z stops it" not in at.words
        await at.press("ctrl+z")
        assert "nothing takes long just now" in at.words
    assert "taken in" not in [one.title for one in project(shop).snapshot]


def test_advice_that_was_stopped_is_worked_out_when_it_is_asked_next(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("logbook.screens.desk.adviser.IN_A_CHILD", 1)
    works = LongWorks()
    adviser = Adviser(shop, works)
    snapshot = project(shop).snapshot
    first = adviser.told(snapshot)
    child = adviser._child
    assert child is not None

    def stopped(*_: object) -> object:
        assert works.stop() is not None
        raise EOFError

    monkeypatch.setattr(child, "ask", stopped)
    with pytest.raises(Stopped):
        adviser.told(snapshot)
    assert adviser.told(snapshot).advice == first.advice


async def test_a_first_reading_that_was_stopped_is_begun_again_by_the_same_key(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("logbook.screens.desk.adviser.READ_IN_A_CHILD", 1)
    app = LogbookApp(shop)
    async with app.run_test(size=(100, 30)) as pilot:
        at = Bench(app, pilot)
        while not hasattr(app, "desk") or app.desk.works.said is None:
            await pilot.pause()
        await at.press("ctrl+z")
        await at.settle()
        stopped = "the records are not read: that was stopped; Ctrl-Z reads them"
        assert stopped in at.words
        await at.say("sanded the bed")
        assert at.line.value == "sanded the bed"
        await at.do("ctrl+n")
        assert stopped in at.words
        await at.do("escape", "ctrl+z")
        assert "Ctrl-Z reads them" not in at.words
        assert "base opening 178.6" in at.words
        await at.do("enter")
    assert "sanded the bed" in [one.title for one in project(shop).snapshot]
