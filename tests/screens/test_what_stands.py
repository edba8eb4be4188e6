"""What the bench says stands: nothing before it is known, and only what is here."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import UTC, datetime
from pathlib import Path
from threading import Event
from typing import Any

import pytest

from logbook.advice.stops import stops
from logbook.cli.verbs import VERBS
from logbook.project import Project
from logbook.records.kinds.happenings import Disposal, Failure
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import Disposition
from logbook.screens.app import LogbookApp
from logbook.screens.bench.in_the_shell import VERBS as SHELL
from logbook.screens.bench.standing import LOOKING
from logbook.screens.record.record import RecordSheet
from logbook.screens.ruled.listing import Listing
from logbook.screens.ruled.newest import READING
from logbook.screens.ruled.sheet import STILL_READING
from logbook.screens.undecided import Undecided
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged


@pytest.fixture
def second(shop: Path) -> Path:
    """Give a second build: of it a piece off its drawing, nobody has decided."""
    logged(shop, "step", "fold the base")
    logged(shop, "part", "bar", "--dimension", "length=40.0 ±0.1")
    logged(shop, "build", "build 2", "--when", "2024-04-11T08:00")
    return shop


async def measured_off(at: Bench) -> None:
    """Read a size off its drawing, and leave open what to do with the piece."""
    await at.press("f3")
    await at.type("bar")
    await at.press("enter")
    await at.type("40.4")
    await at.do("enter", "escape")


def standing(at: Bench, row: str) -> str:
    found: str = at.app.screen.query_one(f"#{row}").said  # type: ignore[attr-defined]
    return found


@pytest.fixture
def reading(monkeypatch: pytest.MonkeyPatch) -> Event:
    """Keep the records from being read until this is set."""
    go_on, opened = Event(), Project.open

    def held(folder: Path, *args: Any) -> Project:
        assert go_on.wait(120)
        return opened(folder, *args)

    monkeypatch.setattr(Project, "open", held)
    return go_on


@asynccontextmanager
async def unread(folder: Path) -> AsyncIterator[Bench]:
    """Open the app; its bench stands, the records are still to be read."""
    app = LogbookApp(folder)
    async with app.run_test(size=(80, 24)) as pilot:
        at = Bench(app, pilot)
        await at.rest()
        yield at


async def test_nothing_is_said_to_be_nothing_before_it_was_looked_for(
    shop: Path, reading: Event
) -> None:
    async with unread(shop) as at:
        for row in ("waits", "undecided", "bare"):
            assert standing(at, row) == LOOKING
        await at.press("ctrl+g")
        assert STILL_READING in at.words
        reading.set()
        await at.settle()
        assert standing(at, "waits") == "nothing"
        assert standing(at, "undecided").startswith("1, ")


@pytest.mark.parametrize(("key", "there"), [("ctrl+t", "fold the base"), ("f3", "bar")])
async def test_a_list_opened_before_the_records_are_read_says_so_and_fills(
    second: Path, reading: Event, key: str, there: str
) -> None:
    async with unread(second) as at:
        await at.press(key)
        assert STILL_READING in at.words
        reading.set()
        await at.settle()
        assert STILL_READING not in at.words
        assert there in at.seen
        assert "build 2" in at.seen


@pytest.mark.parametrize(
    ("key", "nothing"), [("ctrl+n", "no step"), ("ctrl+b", "no gap")]
)
async def test_what_is_not_read_yet_is_not_said_to_be_none(
    second: Path, reading: Event, key: str, nothing: str
) -> None:
    async with unread(second) as at:
        assert READING in at.words
        await at.press(key)
        assert STILL_READING in at.words
        assert nothing not in at.words
        reading.set()
        await at.settle()
        assert STILL_READING not in at.words


async def test_what_is_off_its_drawing_is_undecided_as_the_release_check_has_it(
    second: Path,
) -> None:
    async with bench(second) as at:
        await measured_off(at)
        stopping = stops(project(second).snapshot).open
        assert [one for one in stopping if "bar-1 is off" in one.statement]
        assert "2, Tab lists: " in standing(at, "undecided")
        assert "bar-1 is off its drawing" in standing(at, "undecided")


async def test_a_new_build_has_nothing_on_record_and_nothing_of_another_waits(
    second: Path,
) -> None:
    async with bench(second) as at:
        await measured_off(at)
        assert "bar-1 is off its drawing" in standing(at, "waits")
    logged(second, "build", "build 3")
    async with bench(second) as at:
        begun = datetime.now(UTC).astimezone()
        said = f"build 3 begun {begun.day} {begun:%b}, nothing on record yet"
        assert said in standing(at, "where")
        assert standing(at, "waits") == "nothing"
        assert "bar-1 is off its drawing" in standing(at, "undecided")


async def test_a_row_divides_what_is_of_this_build_from_what_came_before(
    second: Path,
) -> None:
    logged(second, "note", "wide jaw is back", "--build", "build 1")
    async with bench(second) as at:
        await at.do("f4")
        await at.say("sanded the bed")
        seen = at.seen
        assert seen.index("wide jaw is back") < seen.index("build 2 begun")
        assert seen.index("build 2 begun") < seen.rindex("sanded the bed")


async def test_the_result_of_a_move_names_the_build(second: Path) -> None:
    async with bench(second) as at:
        await at.say("sanded the bed")
        await at.do("f7", "1", "enter")
        assert "moved to build 1: sanded the bed" in at.words


async def test_a_reading_says_at_once_what_it_means(shop: Path) -> None:
    logged(shop, "project", "--hottest", "35 °C")
    logged(shop, "part", "gate", "--material", "PETG")
    async with bench(shop, (120, 40)) as at:
        await at.say("gate face 51 °C after 2 h, room 22 °C")
        assert "is 64 °C in one of 35 °C" in at.words
        assert "keeps its shape" in at.words
        await at.say("wide jaw is back")
        assert "is 64 °C in one of 35 °C" not in at.words


async def test_climate_is_found_among_the_keys_and_says_it_in_full(shop: Path) -> None:
    logged(shop, "project", "--hottest", "35 °C")
    logged(shop, "part", "gate", "--material", "PETG")
    async with bench(shop, (120, 40)) as at:
        await at.say("gate face 51 °C after 2 h, room 22 °C")
        await at.press("f1")
        await at.type("climate")
        assert "no key does that" not in at.seen
        await at.say(" warmth")
        assert "is 64 °C in one of 35 °C" in at.words
        assert "a calculation, not an approval" in at.words
        await at.do("enter")
        assert "gate" in at.app.screen.heading  # type: ignore[attr-defined]


@pytest.mark.parametrize("line", ["impact 1.2", "climate", "logbook check"])
async def test_a_command_of_the_shell_is_said_to_be_one_and_logs_nothing(
    shop: Path, line: str
) -> None:
    async with bench(shop) as at:
        before = len(project(shop).snapshot)
        await at.say(line)
        assert f"in the shell: logbook {line.removeprefix('logbook ')}" in at.words
        assert at.line.value == line
    assert len(project(shop).snapshot) == before


def test_the_verbs_said_to_be_of_the_shell_are_verbs_of_the_shell() -> None:
    assert set(SHELL) <= set(VERBS)


async def test_which_parts_have_no_entry_is_said_in_words(second: Path) -> None:
    async with bench(second) as at:
        assert standing(at, "bare").startswith("2 parts: ")
        for part in ("base", "bar"):
            await at.say(f"oiled the {part}")
        await at.until(lambda: "no part is without one" in at.words)


async def test_what_is_undecided_is_listed_and_opened_by_the_key_shown(
    second: Path,
) -> None:
    async with bench(second) as at:
        await measured_off(at)
        assert standing(at, "undecided").startswith("2, Tab lists: ")
        await at.type("half a line")
        await at.do("tab")
        assert "opening 178.6" in at.seen
        assert "bar-1 is off its drawing" in at.seen
        await at.type("bar-1")
        await at.settle()
        assert "scrap bar-1" in at.seen
        await at.do("enter")
        assert isinstance(at.app.screen, RecordSheet)
        await at.press("escape", "escape")
        assert at.line.value == "half a line"
        await at.press("escape", "escape")
        await at.say("use bar-1 as is")
        assert standing(at, "undecided").startswith("1, Tab lists: ")
        await at.do("tab")
        assert "bar-1 is off" not in at.seen


async def test_a_sentence_that_decides_is_taken_where_the_undecided_are_listed(
    second: Path,
) -> None:
    async with bench(second, (100, 30)) as at:
        await measured_off(at)
        await at.type("half a line")
        await at.do("tab")
        assert "build 2 · bar-1 is off its drawing" in at.words
        await at.type("use bar-1 as is")
        assert "Enter says it on the bench: what to do with it" in at.words
        await at.do("enter")
        assert standing(at, "undecided").startswith("1, Tab lists: ")
        assert at.line.value == "half a line"
    assert any(one.title == "use bar-1 as is" for one in project(second).snapshot)


async def test_a_sentence_said_from_the_list_is_not_left_on_the_line(
    second: Path,
) -> None:
    async with bench(second, (100, 30)) as at:
        await measured_off(at)
        await at.type("use bar-1 as is")
        await at.do("tab")
        await at.type("bar-1 is")
        await at.press("escape")
        await at.do("tab")
        await at.press("down")
        await at.say("use as is")
        assert at.line.value == "", "said once, it waits for no second Enter"
    titles = [one.title for one in project(second).snapshot]
    assert titles.count("use bar-1 as is") == 1


async def test_words_no_row_has_are_said_to_be_in_none(second: Path) -> None:
    async with bench(second, (100, 30)) as at:
        await measured_off(at)
        await at.do("tab")
        await at.type("lamp")
        assert "no row has these words" in at.words
        await at.press("enter")
        assert "a sentence that decides: scrap" in at.words
        assert "nothing is undecided" not in at.words


@pytest.mark.parametrize(
    "said",
    [
        "scrap",
        "use as is",
        "scrap bar-1",
        "Use bar-1 as is",
        "scrap the bar",
        "scrap bar",
        "scrap it",
        "scrap the bar 1.",
        "use the bar as is",
        "use it as is",
    ],
)
async def test_what_is_done_is_said_of_the_row_the_arrow_stands_at(
    second: Path, said: str
) -> None:
    async with bench(second, (100, 30)) as at:
        await measured_off(at)
        await at.do("tab")
        await at.press("down")
        await at.type(said)
        assert "bar-1 is off its drawing" in at.words
        assert "decides on it: " in at.words
        await at.do("enter")
        assert isinstance(at.app.screen, Undecided)
        assert "bar-1 is off its drawing" not in at.words
        await at.do("escape")
        assert standing(at, "undecided").startswith("1, Tab lists: ")
    sentence = "scrap bar-1" if "scrap" in said else "use bar-1 as is"
    assert any(one.title == sentence for one in project(second).snapshot)


async def test_the_thing_of_other_rows_is_asked_about_before_it_is_decided_on(
    second: Path,
) -> None:
    async with bench(second, (100, 30)) as at:
        await measured_off(at)
        await at.do("tab")
        assert "base" in marked_row(at)
        await at.type("scrap the bar")
        assert "bar-1 is off its drawing" in marked_row(at)
        assert "then once more Enter: decides on it" in at.words
        await at.do("enter")
        assert isinstance(at.app.screen, Undecided)
        assert "this row? Enter: scrap bar-1" in at.words
        assert not any(one.title == "scrap bar-1" for one in project(second).snapshot)
        await at.do("enter")
        assert at.line.value == ""
        assert "bar-1" not in at.seen.split("decided")[0]
    assert any(one.title == "scrap bar-1" for one in project(second).snapshot)


async def test_each_row_is_decided_on_without_leaving_the_list(second: Path) -> None:
    async with bench(second, (100, 30)) as at:
        for line in ("bar length 99 should be 100", "bar width 19 should be 20"):
            await at.say(line)
            await at.say("2")
        await at.do("tab")
        for word in ("width", "length"):
            while word not in marked_row(at):
                await at.press("down")
            await at.type("use as is")
            await at.do("enter")
            assert isinstance(at.app.screen, Undecided)
            assert at.line.value == ""
            assert f"bar {word}" not in at.seen
    decided = project(second).snapshot.all(Disposal)[-2:]
    names = [one.answers.name for one in decided if one.answers]
    assert ["width" in names[0], "length" in names[1]] == [True, True]


async def test_a_row_of_no_part_is_decided_on_where_it_is_listed(second: Path) -> None:
    title = "the magnet sits 1.2 above the board"
    shop = project(second)
    draft = shop.draft(datetime(2024, 4, 12, 8, tzinfo=UTC))
    build = draft.build().ref
    fault = Failure(id=new_id(), title=title, when=draft.when, build=build)
    draft.add(fault)
    shop.save(draft, title, draft.when)
    async with bench(second, (100, 30)) as at:
        await at.do("tab")
        while "magnet" not in marked_row(at):
            await at.press("down")
        assert "type it here: scrap; use as is; rework" in at.words
        await at.type("rework the opening")
        assert "decides on it" not in at.words
        await at.do(*["backspace"] * len("rework the opening"))
        while "magnet" not in marked_row(at):
            await at.press("down")
        await at.type("use the magnet as is")
        assert "decides on it: use as is: the magnet" in at.words
        await at.do("enter")
        assert not at.line.value
        assert "magnet" not in marked_row(at)
    [made] = [one for one in project(second).snapshot.all(Disposal) if not one.piece]
    assert made.answers == fault.ref
    assert made.disposition is Disposition.USE_AS_IS


def marked_row(at: Bench) -> str:
    return row.words if (row := at.app.screen.query_one(Listing).chosen) else ""


async def test_the_bench_and_check_count_the_same_undecided(
    second: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    async with bench(second) as at:
        await measured_off(at)
        assert (count := len(at.app.desk.glance.open_ones)) == 2
    capsys.readouterr()
    logged(second, "check")
    said = capsys.readouterr().out
    assert f", {count} undecided" in said
    assert sum(row.startswith("undecided") for row in said.splitlines()) == count
