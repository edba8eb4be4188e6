"""Before a rebuild: what is held, what applies to it, what was taken in."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from logbook.records.kinds.happenings import TakenIn
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.workshop import Build
from logbook.screens.rebuild.holds import Holds
from logbook.screens.rebuild.looked_up import looked_up
from logbook.screens.rebuild.rebuild import CURED, Rebuild, taken_in
from logbook.screens.record.record_rows import rows_of_record
from tests.publish.stand import Stand, released
from tests.screens.bench_keys import Bench, bench, project

FIRST = "1.0"


@pytest.fixture(scope="session")
def released_once(tmp_path_factory: pytest.TempPathFactory) -> Stand:
    """A stand with two releases; the first has faults the second is cured of."""
    return released(tmp_path_factory.mktemp("released") / "stand")


@pytest.fixture
def stand(released_once: Stand, tmp_path: Path) -> Path:
    return released_once.copy(tmp_path / "copy").bench.top


async def holding(at: Bench, typed: str) -> None:
    await at.do("ctrl+y")
    assert isinstance(at.app.screen, Holds)
    await at.say(typed)
    assert sheet(at).is_mounted


def sheet(at: Bench) -> Rebuild:
    assert isinstance(at.app.screen, Rebuild)
    return at.app.screen


def names(at: Bench) -> list[str]:
    return [line.words for line in sheet(at).lines()]


def test_what_is_wrong_stands_in_a_fault_by_its_words_and_not_by_ids(
    stand: Path,
) -> None:
    snapshot = project(stand).snapshot
    release = snapshot.all(Release)[0]
    wrong = release.statements[0]
    told = Erratum(
        id=new_id(), title="wrong", when=release.when, statements=(wrong.id, new_id())
    )
    found = (one for one in rows_of_record(snapshot, told) if "statements" in one.key)
    said = next(found).words
    assert said.startswith(release.label)
    assert said.endswith(f": {wrong.says}")
    assert wrong.id not in said


async def test_what_applies_to_a_release_stands_most_serious_first(
    stand: Path,
) -> None:
    async with bench(stand, (100, 34)) as at:
        await holding(at, FIRST)
        words = [line.label for line in sheet(at).lines()]
        assert words
        assert words == sorted(words, key=["applies", "not known", "cured"].index)
        assert words[0] == "applies"
        stops = [line for line in sheet(at).lines() if line.kind == "STOP"]
        assert [line.weight for line in stops] == ["$alarm bold"] * len(stops)
        assert "not known" not in [line.kind for line in sheet(at).lines()]
        said = " ".join(at.seen.split())
        assert "do this" in said
        assert "how to tell" in said


async def test_a_fix_that_failed_itself_is_not_what_to_do(
    released_once: Stand, tmp_path: Path
) -> None:
    shop = released_once.copy(tmp_path / "copy")
    bowed = "diffuser bowed in the heat"
    for words in (
        ("build", "build 2"),
        ("failure", "diffuser", bowed, "--met-by", "drawing", "--do", "scrap"),
        ("revise", "diffuser", "--changed", "5 mm plate", "--because", bowed),
        ("release", "1.2", "--anyway"),
    ):
        code, heard = shop.run(*words)
        assert code == 0, heard
    async with bench(shop.bench.top, (100, 34)) as at:
        await holding(at, FIRST)
        crack = next(x for x in sheet(at).lines() if x.words.startswith("diffuser cr"))
        said = {say.label: str(say.words) for say in sheet(at).known(crack.key)}
        assert said["do this"].startswith("make it to diffuser rev B of release 1.2: ")
        assert said["do this"].endswith(
            f"made diffuser rev A, which is faulty itself: {bowed}"
        )


async def test_of_a_fault_cured_in_what_is_held_there_is_nothing_to_do(
    stand: Path,
) -> None:
    async with bench(stand, (100, 34)) as at:
        await holding(at, "1.1")
        cured = [line.key for line in sheet(at).lines() if line.label == "cured"]
        assert cured
        for key in cured:
            said = {say.label: str(say.words) for say in sheet(at).known(key)}
            assert said["do this"] == CURED


async def test_a_tick_is_an_entry_of_this_build_and_undo_takes_it_back(
    stand: Path,
) -> None:
    async with bench(stand, (100, 34)) as at:
        await holding(at, FIRST)
        first = sheet(at).lines()[0]
        await at.do("enter")
        assert sheet(at).lines()[0].label == "taken in"
        assert "taken in" in at.seen
        [entry] = project(stand).snapshot.all(TakenIn)
        assert [ref.id for ref in entry.errata] == [first.key]
        await at.do("f8")
        assert sheet(at).lines()[0].label == "applies"
    assert not project(stand).snapshot.all(TakenIn)


async def test_a_second_tick_takes_the_first_off_again(stand: Path) -> None:
    async with bench(stand, (100, 34)) as at:
        await holding(at, FIRST)
        await at.do("enter")
        await at.do("enter")
        assert sheet(at).lines()[0].label == "applies"
    snapshot = project(stand).snapshot
    assert all(not taken_in(snapshot, b) for b in snapshot.all(Build))


async def test_a_file_is_known_by_its_content_whatever_it_is_called(
    stand: Path, tmp_path: Path
) -> None:
    at_first = project(stand).snapshot.lookup(FIRST, Release)
    recorded = {file.sha256 for file in at_first.files}
    assert recorded
    mine = tmp_path / "downloads"
    mine.mkdir()
    for number, place in enumerate(sorted((stand / "drawings").glob("*.dxf"))):
        shutil.copy(place, mine / f"file {number}.dxf")
    snapshot = project(stand).snapshot
    found = looked_up(snapshot, stand, f"path {mine}", project(stand).repository)
    held = found.held
    assert found.remark == "these are the design files of release 1.1"
    beside = "the lamp of release 1.1"
    known = {f"file {n}.dxf" for n in range(9)} | {beside}
    assert beside in {one.because for one in held} <= known
    assert held
    async with bench(stand, (100, 34)) as at:
        await holding(at, str(mine))
        because = {one.held.because for _, found in sheet(at).faults for one in found}
        assert because
        assert any(name in at.seen for name in because)


async def test_a_path_may_begin_in_the_projects_folder_or_the_terminals(
    stand: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    drawing = min((stand / "drawings").glob("*.dxf"))
    here = f"drawings/{drawing.name}"
    (tmp_path / "build 1").mkdir()
    monkeypatch.chdir(tmp_path)
    shutil.copy(drawing, tmp_path / "mine.dxf")
    async with bench(stand, (100, 34)) as at:
        await at.do("ctrl+y")
        holds = at.app.screen
        assert isinstance(holds, Holds)
        assert [line.key for line in holds.lines(here)] == [f"path {stand / here}"]
        found = [line.key for line in holds.lines("mine.dxf")]
        assert found == [f"path {tmp_path / 'mine.dxf'}"]
        named = holds.lines("build 1")
        assert [line.kind for line in named] == ["build", "folder"]
        await at.say(here)
        assert f"{drawing.name}" in at.seen
        assert sheet(at).is_mounted


async def test_of_a_file_nobody_recorded_nothing_is_known_good_or_bad(
    stand: Path, tmp_path: Path
) -> None:
    other = tmp_path / "other.dxf"
    other.write_text("999\nanother\n0\nEOF\n")
    async with bench(stand, (100, 34)) as at:
        await holding(at, str(other))
        assert "no known fault" not in at.seen
        [row] = sheet(at).lines()
        said = str(sheet(at).known(row.key)[0].words)
        assert said.endswith("so nothing is known of it, good or bad")
        await at.do("enter")
        assert "this row is none" in " ".join(at.seen.split())
        await at.do("f4")
        await at.say("1.0")
        assert "you hold release 1.0" in at.seen
        assert names(at)


async def test_in_a_folder_files_on_no_record_and_older_ones_are_seen(
    released_once: Stand, tmp_path: Path
) -> None:
    shop = released_once.copy(tmp_path / "copy")
    mine = tmp_path / "mine"
    mine.mkdir()
    shutil.copy(shop.bench.top / "drawings/base.dxf", mine / "bed.dxf")
    (mine / "cut anew.dxf").write_text("999\nanother\n0\nEOF\n")
    shop.draw("base", "2.5")
    shop.commit_files("Draw the base thicker")
    code, heard = shop.run("revise", "base", "--changed", "2.5 mm plate")
    assert code == 0, heard
    async with bench(shop.bench.top, (100, 34)) as at:
        await holding(at, str(mine))
        rows = {line.words: line for line in sheet(at).lines()}
        assert rows["cut anew.dxf"].label == "unknown"
        assert rows["bed.dxf"].label == "older"
        [said, ends] = sheet(at).known(rows["bed.dxf"].key)
        assert "base first issue; newer: base rev A (2.5 mm plate)" in str(said.words)
        assert "this record ends" in str(ends.words)


async def test_a_remark_on_what_was_held_does_not_stand_over_what_is_held_next(
    stand: Path,
) -> None:
    async with bench(stand, (100, 34)) as at:
        await holding(at, "drawings")
        assert "these are the design files of release 1.1" in " ".join(at.seen.split())
        await at.do("f4")
        await at.say("build 1")
        assert "design files of release" not in at.seen


async def test_in_an_old_checkout_it_is_said_that_the_record_ends(
    released_once: Stand, tmp_path: Path
) -> None:
    shop = released_once.copy(tmp_path / "copy")
    shop.bench.git("checkout", "-q", "as-built/1.0")
    stand = shop.bench.top
    async with bench(stand, (100, 34)) as at:
        await holding(at, "drawings/base.dxf")
        said = str(sheet(at).known("")[-1].words)
        assert "in this repository and not in it: release 1.1" in said
        assert "careful" in at.seen


async def test_a_build_is_held_by_its_pieces(stand: Path) -> None:
    async with bench(stand, (100, 34)) as at:
        await holding(at, "build 1")
        assert "you hold build 1" in at.seen


@pytest.mark.parametrize("typed", ["/nowhere/at/all", "~nobody/x", "\x00", "x" * 2000])
async def test_what_is_no_path_and_no_name_finds_nothing(
    stand: Path, typed: str
) -> None:
    async with bench(stand) as at:
        await at.do("ctrl+y")
        holds = at.app.screen
        assert isinstance(holds, Holds)
        assert holds.lines(typed) == []


async def test_a_row_says_its_kind_once_and_is_found_and_held_by_its_name(
    stand: Path,
) -> None:
    async with bench(stand, (100, 34)) as at:
        await at.do("ctrl+y")
        holds = at.app.screen
        assert isinstance(holds, Holds)
        rows = [(line.kind, line.words) for line in holds.lines("")]
        assert not [row for row in rows if row[1].casefold().startswith(row[0])]
        [release] = [row for row in rows if row[1].startswith("1.0 · ")]
        assert re.fullmatch(r"1\.0 · \d{4}-\d\d-\d\d", release[1])
        [found] = holds.lines("release 1.0")
        assert found.kind == "release"
        await at.say("release 1.0")
        assert "you hold release 1.0" in at.seen


async def test_who_holds_a_withdrawn_release_is_told_in_its_row_and_when_it_is_held(
    released_once: Stand, tmp_path: Path
) -> None:
    stand = released_once.copy(tmp_path / "copy")
    why = ("withdrawn", "--because", "two files are of another design")
    assert stand.run("status", "release 1.1", *why)[0] == 0
    async with bench(stand.bench.top) as at:
        await at.do("ctrl+y")
        assert "1.1 · withdrawn on " in at.words
        assert "1.0 · withdrawn" not in at.words
        await at.say("release 1.1")
        await at.until(lambda: "release 1.1 was withdrawn on " in at.words)
        assert "begin nothing by it" in at.words
