"""A start paints the newest entries first, loads little for it, and loses no key."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from textual.events import Key

from logbook.records.kinds.place import FOLDER
from logbook.screens.app import LogbookApp
from logbook.screens.bench import bench as bench_screen
from logbook.screens.bench.glimpse import glimpse
from logbook.screens.bench.opening import Opening
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled.listing import Line
from tests.screens.bench_keys import Bench, bench


def test_the_first_rows_load_nothing_that_reads_records() -> None:
    script = (
        "import sys, logbook.screens.app\n"
        "print(*(n for n in sys.modules if n.startswith('logbook.')))"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], check=True, capture_output=True, text=True
    )
    names = set(done.stdout.split())
    assert "logbook.screens.bench.opening" in names
    heavy = {
        "records.kinds.record",
        "records.kinds.table",
        "project",
        "screens.desk.desk",
        "shop",
    }
    assert not {f"logbook.{name}" for name in heavy} & names
    assert not {name for name in names if name.startswith("logbook.plain")}


async def test_the_first_paint_has_what_the_index_has(shop: Path) -> None:
    assert not glimpse(shop)
    async with bench(shop) as at:
        await at.say("swept the bench")
    app = LogbookApp(shop)
    first = app.get_default_screen()
    assert isinstance(first, Opening)
    words = [line.words for line in first.lines]
    assert words[-1] == "swept the bench"
    assert len(words) == 3


def test_where_there_is_no_project_there_are_no_first_rows(tmp_path: Path) -> None:
    assert not glimpse(tmp_path)
    (tmp_path / FOLDER).mkdir()
    (tmp_path / FOLDER / "project.md").write_text("# A stand in no repository\n")
    assert not glimpse(tmp_path)


async def test_the_bench_is_painted_once_with_the_first_rows(shop: Path) -> None:
    rows = (Line("", "14 Mar", "an entry of the first paint", "note"),)
    async with bench(shop, size=(170, 20)) as at:
        screen = bench_screen.Bench(Desk(at.app, shop), rows)  # not open yet
        before = screen.classes
        await at.app.push_screen(screen)
        assert rows[0].words in at.words
        await at.settle()
        assert before >= {"-broad", "-low"}
        assert screen.classes >= before


async def test_keys_typed_before_the_bench_stands_are_not_lost(shop: Path) -> None:
    app = LogbookApp(shop)
    for sign in "swept":
        app.post_message(Key(sign, sign))
    async with app.run_test(size=(80, 24)) as pilot:
        at = Bench(app, pilot)
        await at.settle()
        assert at.line.value == "swept"
