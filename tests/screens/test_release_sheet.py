"""A release from the bench: looked at, asked, tagged; its pages written."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from logbook.cli.pages import stale_of
from logbook.publish.release.frozen import hindrances
from logbook.records.kinds.made_public import Release
from logbook.screens.bench.bench import Bench as BenchScreen
from logbook.screens.desk import long_work
from logbook.screens.release.readied import next_label
from logbook.screens.release.release_sheet import ReleaseSheet
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged


def git(folder: Path, *words: str) -> str:
    done = subprocess.run(
        ["git", *words], cwd=folder, check=True, capture_output=True, text=True
    )
    return done.stdout.strip()


@pytest.fixture
def ready(shop: Path) -> Path:
    """A shop of which everything is settled."""
    logged(shop, "part", "bar", "--dimension", "length=40.0 ±0.1")
    logged(shop, "dispose", "base-1", "use as is", "--why", "it fits")
    return shop


async def looked(at: Bench, words: str) -> None:
    await at.say(words)
    assert isinstance(at.app.screen, ReleaseSheet)


async def test_what_would_go_out_is_shown_and_nothing_saved_unasked(
    ready: Path,
) -> None:
    async with bench(ready, (120, 40)) as at:
        await looked(at, "release 1.0")
        seen = at.words
        assert "release and pages" in seen
        assert "untried" in seen
        assert "bar" in seen
        assert "tag as-built/1.0" in seen
        await at.do("enter")
        assert "no key takes it back" in at.words
        await at.do("enter")
        assert "nothing was saved" in at.words
        await at.do("escape")
        assert isinstance(at.app.screen, BenchScreen)
    assert project(ready).snapshot.all(Release) == ()
    assert git(ready, "tag") == ""


async def test_a_release_is_put_out_and_its_pages_written(ready: Path) -> None:
    async with bench(ready, (120, 40)) as at:
        await looked(at, "release 1.0")
        await at.press("enter", "1")
        await at.until(lambda: "release 1.0 is out" in at.words)
        assert git(ready, "tag") == "as-built/1.0"
        assert "out of date" in at.words
        await at.press("ctrl+s")
        await at.until(lambda: "written: guide of 1.0" in at.words)
        await at.until(lambda: "as it was" in at.words)
        await at.do("ctrl+s")
        assert "every page is as it would be written now" in at.words
    now = project(ready)
    [made] = now.snapshot.all(Release)
    assert made.label == "1.0"
    assert (ready / "as-built/published/1.0/guide.md").is_file()
    assert [*stale_of(now)] == []
    assert git(ready, "show", "-s", "--format=%s", "as-built/1.0^{commit}")


async def test_a_label_typed_takes_the_place_of_the_one_proposed(ready: Path) -> None:
    async with bench(ready, (80, 24)) as at:
        await at.do("ctrl+e")
        assert at.line.value == "1.0"
        assert "what is typed takes its place, End goes on with it" in at.words
        await at.type("2.5")
        assert at.line.value == "2.5"
        assert "takes its place" not in at.words


@pytest.mark.parametrize(("keys", "left"), [("end", "1.0b"), ("right", "1.0b")])
async def test_a_proposed_label_is_edited_after_a_key_that_moves(
    ready: Path, keys: str, left: str
) -> None:
    async with bench(ready, (80, 24)) as at:
        await at.do("ctrl+e", keys)
        await at.type("b")
        assert at.line.value == left


async def test_a_label_told_on_the_bench_is_gone_on_with(ready: Path) -> None:
    async with bench(ready, (80, 24)) as at:
        await looked(at, "release 1.2")
        await at.type("b")
        assert at.line.value == "1.2b"


async def test_what_is_not_settled_is_said_first_and_asked(ready: Path) -> None:
    logged(ready, "measure", "bar", "length", "40.6", "--met-by", "drawing")
    async with bench(ready, (80, 24)) as at:
        await at.do("ctrl+e")
        assert at.line.value == "1.0"
        assert "not settled" in at.seen
        await at.do("enter")
        assert "not settled; put release 1.0 out all the same?" in at.words
        await at.do("enter")
    assert project(ready).snapshot.all(Release) == ()


async def test_a_taken_label_is_refused_beside_the_line(ready: Path) -> None:
    logged(ready, "release", "1.0", "--anyway")
    async with bench(ready) as at:
        await at.do("ctrl+e")
        assert at.line.value == "1.1"
        await at.press("backspace")
        await at.type("0")
        await at.settle()
        assert "is there already" in at.words
        await at.do("backspace")
        await at.type("1..")
        await at.settle()
        assert "accepted: letters, digits" in at.words


async def test_a_release_whose_tag_is_missing_is_tagged_by_enter(ready: Path) -> None:
    logged(ready, "release", "1.0", "--anyway")
    git(ready, "tag", "-d", "as-built/1.0")
    async with bench(ready) as at:
        await looked(at, "release 1.0")
        assert "its tag is missing" in at.words
        await at.press("enter")
        await at.until(lambda: "release 1.0 is out" in at.words)
    assert git(ready, "tag") == "as-built/1.0"
    assert len(project(ready).snapshot.all(Release)) == 1


async def test_looking_can_be_stopped_and_begun_again(
    ready: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(long_work, "SAID_AFTER_S", 0.0)
    real = hindrances
    stopping = True

    async with bench(ready) as at:
        desk = at.app.desk

        def stops(*about: object) -> object:
            if stopping:
                assert desk.works.stop() is not None
            return real(*about)  # type: ignore[arg-type]

        monkeypatch.setattr("logbook.screens.release.readied.hindrances", stops)
        await looked(at, "release 1.0")
        assert "stopped, nothing was written" in at.words
        stopping = False
        await at.do("enter")
        assert "as-built/1.0" in at.words


def test_the_next_label_counts_on_from_the_newest(ready: Path) -> None:
    assert next_label(project(ready).snapshot) == "1.0"
    logged(ready, "release", "1.9", "--anyway")
    assert next_label(project(ready).snapshot) == "1.10"


async def test_a_release_without_any_file_does_not_read_as_settled(
    ready: Path,
) -> None:
    (ready / "bar.svg").write_text("<svg/>", "utf-8")
    async with bench(ready, (120, 40)) as at:
        await looked(at, "release 1.0")
        await at.until(lambda: "no file on record" in at.words)
        await at.press(*["up"] * 9)  # to the first row, wherever it stood
        await at.do("down")
        assert "1 design file here is of no" in at.words
        assert "nothing is against putting it out" not in at.words


async def test_a_release_of_somebody_elses_design_says_whose_it_is_and_asks(
    ready: Path,
) -> None:
    logged(ready, "release", "1.0")
    git(ready, "config", "user.email", "two@invalid")
    async with bench(ready, (120, 40)) as at:
        await looked(at, "release 1.1")
        assert "this is a design that Test" in at.words
        await at.do("enter")
        assert "the design is another's; put release 1.1 of it out all the" in at.words
        await at.do("enter")
        assert "nothing was saved" in at.words
