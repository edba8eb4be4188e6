"""A part that is given the name of another: are these one part?"""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.cli import main
from logbook.records.kinds.design import Part
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.workshop import Build
from logbook.screens.record.record import RecordSheet
from logbook.screens.record.record_rows import rows_of_record
from tests.screens.amending_keys import typed_over
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged


async def renamed(at: Bench, record: Part | Build, row: str, name: str) -> None:
    at.app.push_screen(RecordSheet(at.app.desk, record.id))
    await at.settle()
    keys = [line.key for line in rows_of_record(at.app.desk.snapshot, record)]
    await at.press(*["down"] * keys.index(row), "enter")
    await typed_over(at, name)


@pytest.fixture
def covered(shop: Path) -> Path:
    """A shop in which the lid was measured under two names."""
    logged(shop, "measure", "lid", "length", "120.2")
    logged(shop, "measure", "cover", "width", "40.1")
    return shop


def parts(shop: Path) -> list[str]:
    return [one.title for one in project(shop).snapshot.all(Part)]


@pytest.mark.parametrize("row", ["fact name", "title"])
async def test_a_name_in_use_is_asked_about_and_joins_the_two(
    covered: Path, row: str
) -> None:
    [cover] = project(covered).snapshot.named("cover", Part)
    async with bench(covered, (100, 30)) as at:
        await renamed(at, cover, row, "lid")
        assert "“lid” is a part already: are these one part?" in at.words
        assert parts(covered) == ["base", "lid", "cover"]
        await at.do("o")
        assert parts(covered) == ["base", "lid"]
    assert main(["check", "--in", str(covered)]) == 0


async def test_unanswered_it_is_not_renamed_and_what_was_typed_stays(
    covered: Path,
) -> None:
    [cover] = project(covered).snapshot.named("cover", Part)
    async with bench(covered, (100, 30)) as at:
        await renamed(at, cover, "title", "lid")
        await at.do("enter")
        assert at.line.value == "lid"
        await typed_over(at, "window")
    assert parts(covered) == ["base", "lid", "window"]


async def test_the_name_of_another_build_is_refused(shop: Path) -> None:
    logged(shop, "build", "build 2")
    build = project(shop).snapshot.all(Build)[-1]
    async with bench(shop, (100, 30)) as at:
        await renamed(at, build, "title", "build 1")
        assert "there is build 1 already; accepted: another name" in at.words


def test_check_names_a_part_that_was_given_the_name_of_another_by_hand(
    covered: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    [file] = (covered / "as-built/parts").rglob("*cover.md")
    text = file.read_text("utf-8")
    file.write_text(text.replace('name = "cover"', 'name = "lid"'), "utf-8")
    capsys.readouterr()
    assert main(["check", "--in", str(covered)]) == 8
    assert "name: found “lid”, as lid in as-built/parts/" in capsys.readouterr().out


async def test_what_went_out_with_a_release_is_not_opened_for_amending(
    shop: Path,
) -> None:
    logged(shop, "release", "1.0", "--anyway")
    [release] = project(shop).snapshot.all(Release)
    async with bench(shop, (120, 30)) as at:
        at.app.push_screen(RecordSheet(at.app.desk, release.id))
        await at.settle()
        keys = [line.key for line in rows_of_record(at.app.desk.snapshot, release)]
        await at.press(*["down"] * keys.index("fact tag"))
        await at.say("tag as-built/1.00")
        assert "release 1.0 went out with this tag: it stays" in at.words
    assert project(shop).snapshot.all(Release) == (release,)
