"""No thread waits behind another one: what is to be saved always finds one."""

from __future__ import annotations

import asyncio
import signal
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Event
from time import monotonic

import pytest

from logbook.project import Project
from logbook.records.kinds.happenings import Note
from logbook.records.kinds.ids import new_id
from logbook.records.making.drafts import Draft
from logbook.screens.desk import adviser
from logbook.screens.desk.lanes import Lane
from logbook.screens.desk.news import Job
from tests.screens.bench_keys import Bench, bench, project

PATIENCE_S = 60.0
MORE_THAN_THREADS = 40


def noting(title: str) -> Job:
    def make(here: Project) -> Draft:
        draft = here.draft(here.snapshot.project.when)
        draft.add(Note(id=new_id(), title=title, when=draft.when))
        return draft

    return Job(title, make)


def noted(folder: Path) -> set[str]:
    return {note.title for note in project(folder).snapshot.all(Note)}


async def wait(at: Bench, seen: Callable[[], bool]) -> None:
    end = monotonic() + PATIENCE_S
    while not seen():
        assert monotonic() < end
        await at.pilot.pause(0.01)


def test_what_comes_meanwhile_is_done_afterwards_in_order() -> None:
    lane, begun, go_on = Lane(), Event(), Event()
    done: list[int] = []

    def first() -> None:
        begun.set()
        assert go_on.wait(PATIENCE_S)
        done.append(0)

    with ThreadPoolExecutor(1) as thread:
        at_it = thread.submit(lane.do, first)
        assert begun.wait(PATIENCE_S)
        again = lambda: done.append(9)  # noqa: E731
        for number in (1, 2):
            lane.do(lambda number=number: done.append(number))  # type: ignore[misc]
            lane.once(again)
        assert done == []  # nobody waited, and nobody went past the one at work
        go_on.set()
        at_it.result(PATIENCE_S)
    assert done == [0, 1, 9, 2]
    lane.once(again)
    assert done == [0, 1, 9, 2, 9]


def test_a_lane_goes_on_after_work_that_failed() -> None:
    lane = Lane()
    done: list[int] = []
    with pytest.raises(ZeroDivisionError):
        lane.do(lambda: done.append(1 // 0))
    lane.do(lambda: done.append(1))
    assert done == [1]


async def test_entries_go_to_disk_while_advice_keeps_everybody_waiting(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(adviser, "IN_A_CHILD", 0)
    titles = {f"swept {number}" for number in range(MORE_THAN_THREADS)}
    async with bench(shop) as at:
        desk = at.app.desk
        assert desk.looking.adviser is not None
        assert desk.looking.adviser._child is not None
        process = desk.looking.adviser._child._process
        process.send_signal(signal.SIGSTOP)
        try:
            for title in sorted(titles):
                desk.write(noting(title))
                await asyncio.sleep(0)
            await wait(at, lambda: len(desk.snapshot.all(Note)) == len(titles))
            assert noted(shop) == titles
        finally:
            process.send_signal(signal.SIGCONT)
        await at.settle()
        assert desk.advised
        assert len(desk.snapshot) == len(project(shop).snapshot)
