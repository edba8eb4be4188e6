"""What a window was in the middle of is said on the bench; one key goes back there."""

from __future__ import annotations

import json
import signal
from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Run
from logbook.screens.bench.bench import Bench as BenchSheet
from logbook.screens.gaps.gaps import Gaps
from logbook.screens.part.revise import Revise
from logbook.screens.record.record import RecordSheet
from logbook.screens.release.release_sheet import ReleaseSheet
from logbook.screens.run.grid import Grid
from logbook.screens.run.measure import Measure
from logbook.screens.steps.job_sheet import JobSheetTyped
from logbook.screens.steps.timer import Timer
from logbook.screens.sums.calculator import SumSheet
from logbook.store.disk.own_places import state_folder
from logbook.store.typed.drafts import drafts
from tests.screens.bench_keys import Bench, bench, measuring, project
from tests.screens.conftest import logged
from tests.screens.in_a_pty import in_a_pty
from tests.screens.on_disk import orphaned

WAYS = {
    "a run": ("f3 bar⏎", "40.0", Measure, "measuring bar-1, at length"),
    "a batch": ("f5 bar 3⏎", "40.0", Grid, "batch of 3: bar, at length of bar-2"),
    "a job sheet": ("ctrl+s ⏎", "40.0", JobSheetTyped, "job sheet"),
    "a revision": ("ctrl+r bar⏎", "slot", Revise, "revise bar: “slot”"),
    "a fact": ("up ⏎⏎", " twice", RecordSheet, "amending title of"),
    "a sum": ("f10 bend⏎", "2.0", SumSheet, "Allowance, outside"),
    "the clock": ("ctrl+t ", "deburring it", Timer, "the clock: “deburring it”"),
    "a what-if": ("ctrl+b ", "length 40.3", Gaps, "gaps and joints: “length 40.3”"),
    "a release": ("ctrl+e ", "1.0-rc", ReleaseSheet, "release and pages: “1.0-rc”"),
}
SIZE = (120, 40)


@pytest.fixture
def gapped(drawn: Path) -> Path:
    """The bar in the base's opening: a gap, and a size on the job sheet."""
    logged(drawn, "gap", "bar in it", "base.opening - bar.length",
           "--limits", "100 to 150", "--last", "bar.length")  # fmt: skip
    return drawn


def stands(at: Bench, sheet: type) -> bool:
    """Tell whether a sheet of this kind is on top."""
    return isinstance(at.app.screen, sheet)


async def go(at: Bench, way: str) -> None:
    """Press the key, type the rest, and Enter as often as it says."""
    key, _, rest = way.partition(" ")
    typed = rest.rstrip("⏎")
    await at.do(key)
    await at.type(typed)
    await at.do(*["enter"] * (len(rest) - len(typed)))


def noted(folder: Path) -> str:
    """Give what is on disk of what the windows are in the middle of."""
    places = (state_folder(folder) / "left-off").glob("*.json")
    rows = [row for place in places for row in json.loads(place.read_text())]
    return " · ".join(row["what"] for row in rows)


@pytest.mark.parametrize("what", WAYS)
async def test_what_was_interrupted_is_gone_back_to_by_one_key(
    what: str, gapped: Path
) -> None:
    way, typed, sheet, said = WAYS[what]
    async with bench(gapped, SIZE) as at:
        await go(at, way)
        await at.type(typed)
        assert stands(at, sheet)
        line = at.line.value
        await at.until(lambda: said in noted(gapped))
    orphaned(gapped)
    async with bench(gapped, SIZE) as at:
        assert f"Enter goes on: {said}" in at.words
        await at.do("enter")
        assert stands(at, sheet)
        assert at.line.value == line
        await at.do("escape", "escape", "escape", "escape")
        assert stands(at, BenchSheet)
        assert "goes on:" not in at.words


async def test_a_form_is_gone_back_to_at_the_row_that_was_filled_in(
    gapped: Path,
) -> None:
    async with bench(gapped, SIZE) as at:
        await go(at, "ctrl+r bar⏎")
        await at.press("down", "down")
        await at.type("it bound")
        row = at.app.screen.chosen  # type: ignore[attr-defined]
        await at.until(lambda: "it bound" in noted(gapped))
    orphaned(gapped)
    async with bench(gapped, SIZE) as at:
        await at.do("enter")
        assert at.line.value == "it bound"
        assert at.app.screen.chosen == row  # type: ignore[attr-defined]
        await at.type(" twice")
        assert at.line.value == "it bound twice"


async def left_in_a_run(folder: Path) -> None:
    """Leave a run behind one reading, in the middle of the next."""
    async with bench(folder) as at:
        await measuring(at, "bar")
        await at.press("up", "up", "up")
        await at.say("40.01")
        await at.type("40.0")
        await at.until(lambda: "40.0”" in noted(folder))
    orphaned(folder)


async def test_a_run_that_was_interrupted_stays_one_run(drawn: Path) -> None:
    await left_in_a_run(drawn)
    async with bench(drawn) as at:
        assert "Enter goes on: measuring bar-1, at length right: “40.0”" in at.words
        await at.do("enter", "end")
        await at.say("3")
        assert "length at left" not in at.line.placeholder
    [run] = [one for one in project(drawn).snapshot.all(Run) if len(one.readings) > 1]
    assert [str(one.value) for one in run.readings] == ["40.01 mm", "40.03 mm"]
    assert [one.place for one in run.readings] == ["left", "right"]


async def test_on_another_day_a_run_of_its_own_is_begun(drawn: Path) -> None:
    await left_in_a_run(drawn)
    last = project(drawn).snapshot.all(Run)[-1]
    place = drawn / project(drawn).snapshot.path(last)
    text, at_day = place.read_text(), f"{last.readings[0].at:%Y-%m-%d}"
    place.write_text(text.replace(f"at = {at_day}", "at = 2024-03-07"))
    async with bench(drawn) as at:
        await at.do("enter", "end")
        await at.say("3")
    counts = [len(one.readings) for one in project(drawn).snapshot.all(Run)]
    assert counts[-2:] == [1, 1]


async def test_it_is_gone_on_with_in_the_build_it_was_of(drawn: Path) -> None:
    await left_in_a_run(drawn)
    logged(drawn, "build", "build 2")
    async with bench(drawn) as at:
        await at.until(lambda: "build 2" in at.words)
        at.app.desk.choose(project(drawn).at_hand)
        at.app.screen.show_band()  # type: ignore[attr-defined]
        assert "Enter goes on in build 1: measuring bar-1" in at.words
        await at.do("enter")
        assert at.app.desk.shown.name == "build 1"


async def test_what_is_gone_meanwhile_is_said_and_offered_no_more(shop: Path) -> None:
    async with bench(shop) as at:
        await at.say("sanded the bed")
        await at.do("up", "enter", "enter")
        await at.type(" twice")
        await at.until(lambda: "amending" in noted(shop))
    logged(shop, "undo")
    async with bench(shop) as at:
        await at.do("enter")
        assert stands(at, BenchSheet)
        assert "that is not here any more" in at.words
        assert "goes on:" not in at.words


async def test_a_finished_run_is_not_gone_back_to(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.until(lambda: "bar-1" in noted(drawn))
        await at.do("escape")
        await at.until(lambda: not noted(drawn))
    async with bench(drawn) as at:
        assert "goes on:" not in at.words


@pytest.mark.parametrize("end", [signal.SIGKILL, signal.SIGHUP, "Ctrl-Q"])
def test_the_way_back_stands_on_the_bench_however_the_window_went(
    end: signal.Signals | str, drawn: Path, own_state: Path
) -> None:
    with in_a_pty(drawn, own_state) as at:
        at.press("\x1bOR")
        at.shows("measure what?")
        at.press("bar\r")
        at.shows("measuring bar-1")
        at.press("40.0")
        at.until(lambda: "40.0”" in noted(drawn))
        at.until(lambda: "40.0" in [one.text for one in drafts(drawn)])
        if isinstance(end, str):
            at.press("\x11")
        else:
            at.send(end)
        at.ended()
        with in_a_pty(drawn, own_state) as again:
            again.shows("Enter goes on: measuring bar-1")
            with in_a_pty(drawn, own_state) as beside:
                beside.shows("bar-1")
                assert not beside.glass.shows("goes on")  # one window has it
            again.press("\r")
            again.shows("reads › │ 40.0")


async def test_a_batch_is_gone_back_to_with_its_own_pieces_alone(gapped: Path) -> None:
    async with bench(gapped, SIZE) as at:
        await go(at, "f5 bar 3⏎")
        await at.say("40.01")
        await at.type("40.0")
        assert "batch of 3" in at.words
        await at.until(lambda: "batch of 3" in noted(gapped))
    orphaned(gapped)
    async with bench(gapped, SIZE) as at:
        await at.do("enter")
        assert "batch of 3: bar · 1 of 6 read" in at.words
        assert "bar-1 " not in at.seen
        assert "bar-4" in at.seen
