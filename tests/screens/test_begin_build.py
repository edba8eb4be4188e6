"""A build begun from the bench: by its line, by its key; asked once, one key."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from pathlib import Path

import pytest

from logbook.plain.told.build_begun import build_begun
from logbook.records.kinds.workshop import Build
from logbook.records.together.snapshot import Snapshot
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged


def builds(shop: Path) -> list[tuple[str, str, str]]:
    found = project(shop).snapshot.all(Build)
    return [(b.title, b.purpose, b.release.name if b.release else "") for b in found]


@pytest.mark.parametrize("line", ["start build 2 for mounted slides", "begin build 2"])
async def test_a_line_begins_a_build_after_one_key(shop: Path, line: str) -> None:
    async with bench(shop) as at:
        await at.type(line)
        assert "begins a build" in at.seen
        await at.press("enter")
        assert "begin build 2" in at.seen
        assert len(builds(shop)) == 1
        await at.do("1")
        purpose = line.partition(" for ")[2]
        assert builds(shop)[1] == ("build 2", purpose, "")
        assert at.line.value == ""
        await at.say("the second one has begun")
        entry = project(shop).snapshot.entries[-1]
        assert entry.build is not None
        assert entry.build.name == "build 2"


async def test_enter_once_more_begins_what_was_typed(shop: Path) -> None:
    async with bench(shop) as at:
        await at.type("start build 2 for mounted slides")
        await at.press("enter")
        assert "Enter begin it, as 1 does" in at.words
        await at.do("enter")
    assert builds(shop)[1] == ("build 2", "mounted slides", "")


async def test_a_release_on_the_line_is_what_the_first_key_begins_by(
    shop: Path,
) -> None:
    logged(shop, "note", "it stands")
    logged(shop, "release", "1.0", "--anyway")
    async with bench(shop, (120, 40)) as at:
        await at.type("start build 2 from release 1.0")
        await at.press("enter")
        assert "1.0, as published" in at.words
        assert "parts as they are now" not in at.words
        await at.do("1")
    assert "1.0" in builds(shop)[1][2]


async def test_the_newest_release_is_one_key_away(shop: Path) -> None:
    logged(shop, "note", "it stands")
    logged(shop, "release", "1.0", "--anyway")
    async with bench(shop) as at:
        await at.type("start build 2")
        await at.do("enter", "2")
        assert builds(shop)[1][0] == "build 2"
        assert "1.0" in builds(shop)[1][2]


async def test_an_older_release_is_a_key_away_too(shop: Path) -> None:
    logged(shop, "note", "it stands")
    logged(shop, "release", "1.0", "--anyway")
    logged(shop, "release", "1.1", "--anyway")
    async with bench(shop, (120, 40)) as at:
        await at.press("f12")
        key = re.search(r"(\d) begin it by release 1\.0, as", at.words)
        assert key, at.words
        await at.do(key[1])
    assert "1.0" in builds(shop)[1][2]


async def test_a_release_told_behind_what_it_is_for_is_the_one(shop: Path) -> None:
    logged(shop, "note", "it stands")
    logged(shop, "release", "1.0", "--anyway")
    logged(shop, "release", "1.1", "--anyway")
    async with bench(shop, (120, 40)) as at:
        await at.type("start build 2 for mounted slides by release 1.0")
        await at.press("enter")
        assert "1.0, as published" in at.words
        assert "1.1" not in at.words.partition("begin build 2")[2]
        await at.do("1")
    assert builds(shop)[1][1] == "mounted slides"
    assert "1.0" in builds(shop)[1][2]


async def test_the_key_begins_the_next_one_and_another_key_leaves_it(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await at.press("f12")
        assert "begin build 2" in at.seen
        await at.do("enter")
        assert len(builds(shop)) == 1
        await at.press("f12", "escape")
        await at.do("f12", "1")
        assert [title for title, _, _ in builds(shop)] == ["build 1", "build 2"]


async def test_one_that_is_there_is_gone_on_with(shop: Path) -> None:
    logged(shop, "build", "build 2")
    async with bench(shop) as at:
        await at.type("start build 1")
        await at.press("enter")
        assert "begun already" in at.seen
        await at.do("1")
        assert len(builds(shop)) == 2
        assert at.app.desk.build is not None
        assert at.app.desk.build.title == "build 1"


@pytest.mark.parametrize(
    ("line", "name"),
    [
        ("start build 2", "build 2"),
        ("begin a new build", "build 1"),
        ("New build for mounted slides", "build 1"),
        ("started build B", "build B"),
        ("start the build of the base", None),
        ("start build went fine today", None),
        ("build the base", None),
        ("start of build 2 was slow", None),
    ],
)
def test_only_what_begins_a_build_begins_one(line: str, name: str | None) -> None:
    begun = build_begun(line, Snapshot({}), datetime(2026, 11, 29, 12, tzinfo=UTC))
    assert (begun.name if begun else None) == name


@pytest.mark.parametrize(
    "line", ["12.11. start build 2", "start build 2, 12 nov", "on 12 nov start build 2"]
)
def test_a_build_begins_on_the_day_that_is_told(line: str) -> None:
    begun = build_begun(line, Snapshot({}), datetime(2026, 11, 29, 12, tzinfo=UTC))
    assert begun is not None
    assert (begun.name, begun.purpose) == ("build 2", "")
    assert begun.when == datetime(2026, 11, 12, 12, tzinfo=UTC)
