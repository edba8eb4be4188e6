"""What is being typed survives the screen it is typed on; a full disk is said once."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import Run
from logbook.screens.desk.slips import EMPTIED, MOST_EMPTIED, Slips
from logbook.screens.run.measure import Measure
from logbook.store.disk.own_places import state_folder
from logbook.store.typed.drafts import drafts, keep_draft
from tests.screens.amending_keys import on_opening
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.in_a_pty import HOUSE
from tests.screens.on_disk import kept, orphaned


async def measuring(at: Bench) -> None:
    await at.do("f3")
    await at.do("enter")
    assert isinstance(at.app.screen, Measure)


async def test_a_reading_being_typed_is_offered_again(shop: Path) -> None:
    async with bench(shop) as at:
        await measuring(at)
        await at.type("178.6")
        await kept(at, "178.6", shop)
    orphaned(shop)
    async with bench(shop) as at:
        assert at.line.value == ""
        await measuring(at)
        assert at.line.value == "178.6"
        assert "this was being typed here" in at.seen
        await at.press("end")
        await at.say("5")
    values = {
        str(r.value) for run in project(shop).snapshot.all(Run) for r in run.readings
    }
    assert "178.65 mm" in values
    async with bench(shop) as at:
        await measuring(at)
        assert at.line.value == ""


async def test_a_run_left_with_words_in_its_line_offers_them_when_it_comes_back(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await measuring(at)
        await at.type("178.6")
        await at.do("escape")
        assert at.line.value == ""
        await measuring(at)
        assert at.line.value == "178.6"


async def test_a_fact_being_amended_is_offered_again(shop: Path) -> None:
    async with bench(shop) as at:
        await on_opening(at, shop)
        await at.press("enter")
        await at.type(" of the base")
        await kept(at, "opening of the base", shop)
    orphaned(shop)
    async with bench(shop) as at:
        await on_opening(at, shop)
        assert at.line.value == "opening of the base"
        await at.do("enter")
    titles = [c.title for c in project(shop).snapshot.all(Characteristic)]
    assert "opening of the base" in titles
    assert drafts(shop) == ()


async def test_an_edit_that_was_dropped_is_not_offered(shop: Path) -> None:
    async with bench(shop) as at:
        await on_opening(at, shop)
        await at.press("enter")
        await at.type(" of the base")
        await kept(at, "opening of the base", shop)
        await at.do("escape")
    assert [one.for_what.split()[0] for one in drafts(shop)] == [EMPTIED]
    async with bench(shop) as at:
        await on_opening(at, shop)
        assert at.line.value == ""


@contextmanager
def another_window(shop: Path) -> Iterator[int]:
    """Let another process have a window open on the project; give its number."""
    script = (
        "import sys; from pathlib import Path\n"
        "from logbook.store.typed.windows import Window"
        "; window = Window(Path(sys.argv[1])); print('open', flush=True); input()"
    )
    words = [sys.executable, "-c", script, str(shop)]
    pipe = subprocess.PIPE
    with subprocess.Popen(words, stdin=pipe, stdout=pipe, cwd=HOUSE) as other:
        assert other.stdout is not None
        assert other.stdout.readline() == b"open\n"
        yield other.pid
        other.kill()


async def test_a_line_another_running_app_holds_is_not_taken(shop: Path) -> None:
    with another_window(shop) as process:
        keep_draft(shop, "his words", f"bench line of process {process}")
        async with bench(shop) as at:
            assert at.line.value == ""
            assert f"(process {process}): F8 takes it over" in at.words
        assert [one.text for one in drafts(shop)] == ["his words"]


def test_a_line_typed_on_while_it_is_taken_over_is_kept_apart(shop: Path) -> None:
    slips = Slips(pytest.fail)
    slips.want("bench line", "bed sanded")
    slips.keep(shop)
    with another_window(shop) as process:
        [one] = drafts(shop)
        keep_draft(shop, one.text, f"bench line of process {process}", one.id)
        slips.want("bench line", "bed sanded twice")
        slips.keep(shop)
        assert {one.text for one in drafts(shop)} == {"bed sanded", "bed sanded twice"}
        assert slips.gone(shop) == [("bench line", "")]


async def test_a_disk_that_refuses_is_said_once_and_the_work_goes_on(
    shop: Path,
) -> None:
    async with bench(shop, (100, 30)) as at:
        place = state_folder(shop) / "drafts"
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text("no folder can be made here")
        await at.type("sanded")
        for _ in range(200):
            if "is not kept" in at.seen:
                break
            await at.pilot.pause(0.05)
        assert "what is being typed is not kept" in at.seen
        assert at.line.value == "sanded"
        await at.say(" the bed")
        assert "sanded the bed" in at.seen


def test_a_refusal_is_told_until_keeping_works_again(
    shop: Path, own_state: Path
) -> None:
    said: list[str] = []
    slips = Slips(said.append)
    place = state_folder(shop) / "drafts"
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text("in the way")
    for text in ("a", "ab", "abc"):
        slips.want("bench line", text)
        slips.keep(shop)
    assert len(said) == 3
    place.unlink()
    slips.keep(shop)
    assert [one.text for one in drafts(shop)] == ["abc"]
    assert len(said) == 3
    assert own_state.is_dir()


def test_a_line_that_was_taken_stays_until_it_is_on_disk(shop: Path) -> None:
    writing = True
    slips = Slips(pytest.fail, lambda: writing)
    slips.want("bench line", "bed sanded")
    slips.keep(shop)
    slips.want("bench line", "")
    slips.want("bench line", "bed oiled")
    slips.keep(shop)
    assert {one.text for one in drafts(shop)} == {"bed sanded", "bed oiled"}
    writing = False
    slips.keep(shop)
    assert [one.text for one in drafts(shop)] == ["bed oiled"]


def test_a_line_taken_before_it_came_to_the_disk_leaves_nothing(shop: Path) -> None:
    slips = Slips(pytest.fail)
    slips.want("bench line", "bed sanded")
    slips.want("bench line", "")
    slips.keep(shop)
    assert drafts(shop) == ()


def test_emptied_lines_stay_the_newest_of_them(shop: Path) -> None:
    slips = Slips(pytest.fail)
    for number in range(MOST_EMPTIED + 3):
        slips.empty("bench line", f"coat {number}")
        slips.keep(shop)
    assert len(drafts(shop)) == MOST_EMPTIED


@pytest.mark.parametrize("size", [5_000, 1_000_000])
async def test_a_wrong_clipboard_is_refused_on_every_line(
    shop: Path, size: int
) -> None:
    from textual.events import Paste

    async with bench(shop, (100, 30)) as at:
        await measuring(at)
        await at.type("178")
        at.app.post_message(Paste("7" * size))
        await at.settle()
        assert at.line.value == "178"
        assert at.line.has_focus
        assert f"{size:,} characters were pasted and not taken in" in at.seen


async def test_what_was_being_typed_is_offered_after_a_crash(
    shop: Path, own_state: Path
) -> None:
    async with bench(shop) as at:
        await at.type("bed half ty")
        await at.until(lambda: any(own_state.rglob("drafts/*.txt")))
    orphaned(shop)
    async with bench(shop) as at:
        assert at.line.value == "bed half ty"
        assert "this was being typed" in at.seen
