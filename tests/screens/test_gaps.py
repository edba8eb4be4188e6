"""Gaps and joints on screen: what they come to, and what if, which writes nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.advice.advisor import Told
from logbook.screens.desk.news import Advised, Supposed
from logbook.screens.gaps.gaps import Gaps
from logbook.screens.ruled.passage import bar
from logbook.screens.ruled.rows import Row
from tests.screens.bench_keys import bench
from tests.screens.conftest import logged
from tests.screens.test_look import HOSTILE, SIZES


@pytest.fixture
def fitted(shop: Path) -> Path:
    logged(
        shop, "part", "crossbar", "--process", "sawing",
        "--dimension", "length=179.7 ±0.1",
    )  # fmt: skip
    logged(
        shop, "gap", "bar in the opening", "base.opening - crossbar.length",
        "--limits", "0.1 to 0.5", "--last", "crossbar.length",
    )  # fmt: skip
    logged(
        shop, "joint", "collar to base", "M4x16", "--nut", "thin self-locking",
        "--nut-height", "5.0 mm", "--layer", "collar=8.35 mm", "--layer", "base=2.0 mm",
    )  # fmt: skip
    return shop


def files(folder: Path) -> dict[str, bytes]:
    return {str(p): p.read_bytes() for p in (folder / "as-built").rglob("*.md")}


async def test_a_joint_through_a_part_with_a_known_fault_is_marked(
    fitted: Path,
) -> None:
    logged(
        fitted, "joint", "crossbar to shelf", "M3x10", "--layer", "crossbar=10 mm",
        "--layer", "shelf=2.0 mm",
    )  # fmt: skip
    async with bench(fitted, (120, 40)) as at:
        await at.do("ctrl+b")
        assert "known fault" not in at.words
    logged(
        fitted, "failure", "collar", "too thick", "--cure", "take M4x20",
        "--met-by", "drawing",
    )  # fmt: skip
    async with bench(fitted, (100, 30)) as at:
        await at.do("ctrl+b")
        await at.until(lambda: "known fault · collar to base" in at.seen)
        assert "known fault · crossbar to shelf" not in at.seen
        while "▸joint" not in at.seen:
            await at.press("down")
        assert "too thick" in at.words


async def test_gaps_not_worked_out_yet_are_not_said_to_have_nothing_against_them(
    fitted: Path,
) -> None:
    async with bench(fitted, (120, 40)) as at:
        desk = at.app.desk
        came = desk.advice
        desk.advice, desk.advised = Told((), ()), ()  # as when it opens
        await at.press("ctrl+b")
        assert "being worked out" in at.words
        assert "nothing known against it" not in at.words
        desk.post(Advised(desk.snapshot, came, desk.here))
        await at.settle()
        assert "being worked out" not in at.words
        assert "M4x16" in at.words


async def test_a_gap_says_what_to_make_and_in_which_steps(fitted: Path) -> None:
    async with bench(fitted, (120, 40)) as at:
        await at.do("ctrl+b")
        assert isinstance(at.app.screen, Gaps)
        assert "M4x16" in at.seen
        await at.do("down")
        # the opening reads 178.6: finish at its middle, 178.6 − 0.3
        for words in (
            "1 rough",
            "2 finish",
            "178.30 mm",
            "3 accept",
            "chance",
            "doubt",
        ):
            assert words in at.seen
        assert "a calculation, not an approval" in at.seen


async def test_no_row_of_a_gap_loses_the_build_it_is_of(fitted: Path) -> None:
    logged(fitted, "build", "build 2")
    logged(fitted, "piece", "base")
    logged(fitted, "measure", "base", "opening", "178.9", "--piece", "2")
    async with bench(fitted, (120, 40)) as at:
        await at.do("ctrl+b")
        await at.until(lambda: "build 2: bar" in at.words)


async def test_what_if_changes_the_answer_and_writes_nothing(fitted: Path) -> None:
    before = files(fitted)
    async with bench(fitted, (120, 40)) as at:
        await at.do("ctrl+b", "down")
        await at.type("opening 178.9")
        await at.settle()
        assert "WHAT IF" in at.seen
        assert "base opening is 178.9 mm" in at.seen
        assert "finish 178.60 mm" in at.seen
        await at.do("enter")
        assert "nothing of it is written" in at.seen
        assert at.line.value == "opening 178.9"
        await at.do("escape")
        assert "WHAT IF" not in at.seen
        assert "finish 178.30 mm" in at.seen
        assert "what if ›" in at.seen
        await at.do("escape")
        assert "what if ›" not in at.seen
    assert files(fitted) == before


async def test_another_screw_is_supposed_of_a_joint(fitted: Path) -> None:
    async with bench(fitted, (120, 40)) as at:
        await at.do("ctrl+b")
        assert "take M4x20" in at.seen
        await at.type("M4x20")
        await at.settle()
        assert "the screw is M4x20" in at.seen
        assert "M4x20 stands through" in at.seen


async def test_what_cannot_be_supposed_is_said_beside_the_line(fitted: Path) -> None:
    async with bench(fitted, (120, 40)) as at:
        await at.do("ctrl+b", "down")
        await at.say("opening wide")
        assert "accepted: 86.42" in at.seen
        assert at.line.value == "opening wide"
        assert at.line.has_focus


async def test_a_reading_that_arrives_is_reckoned_with(fitted: Path) -> None:
    async with bench(fitted, (120, 40)) as at:
        await at.do("ctrl+b", "down")
        assert "finish 178.30 mm" in at.seen
        logged(fitted, "measure", "base", "opening", "178.9")
        at.app.desk.watch()
        await at.settle()
        assert "finish 178.60 mm" in at.seen


async def test_enter_opens_the_record_and_leads_back(fitted: Path) -> None:
    async with bench(fitted) as at:
        await at.do("ctrl+b", "down", "enter")
        assert "base.opening - crossbar.length" in at.seen
        await at.do("escape")
        assert isinstance(at.app.screen, Gaps)


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_gaps_are_to_be_read_at_every_size(
    fitted: Path, size: tuple[int, int]
) -> None:
    async with bench(fitted, size) as at:
        await at.do("ctrl+b")
        await at.type("M4x20")
        await at.settle()
        assert "WHAT IF" in at.seen
        assert at.line.region.bottom < size[1]
        for key in ("Enter open", "PgDn more", "F3 measure", "F1 keys", "Esc back"):
            assert key in at.seen
        await at.press("pagedown", "pagedown", "pageup")
        for width, height in SIZES:
            await at.pilot.resize_terminal(width, height)
            await at.settle()
        assert at.line.value == "M4x20"


@pytest.mark.parametrize("words", HOSTILE)
async def test_hostile_names_are_shown_as_written(fitted: Path, words: str) -> None:
    logged(
        fitted, "joint", words, "M4x16", "--nut", "thin self-locking",
        "--nut-height", "5.0 mm", "--layer", "collar=6.35 mm",
    )  # fmt: skip
    async with bench(fitted, (118, 40)) as at:
        await at.do("ctrl+b")
        assert words in at.seen
        at.line.put(words)
        await at.settle()
        await at.do("enter")
        assert at.line.value == words


async def test_without_gaps_and_joints_the_screen_says_so(shop: Path) -> None:
    async with bench(shop) as at:
        await at.do("ctrl+b")
        assert "no gap and no joint yet" in at.seen
        await at.type("opening 3")
        await at.do("enter", "escape", "escape")
        assert not isinstance(at.app.screen, Gaps)


@pytest.mark.parametrize(
    ("share", "drawn"), [(0, ""), (0.5, "█████"), (1, "██████████"), (2, "██████████")]
)
def test_a_share_is_drawn_as_a_bar(share: float, drawn: str) -> None:
    assert bar(share, 10) == drawn


async def test_a_gap_says_its_verdict_before_its_name(fitted: Path) -> None:
    async with bench(fitted, (80, 24)) as at:
        await at.do("ctrl+b", "down")
        assert "make 178.30 mm  bar in the opening" in at.seen
        assert "check" in at.seen
        assert "remark" not in at.seen


async def test_what_can_be_supposed_is_shown_of_the_row_and_taken_as_it_stands(
    fitted: Path,
) -> None:
    async with bench(fitted, (118, 40)) as at:
        await at.do("ctrl+b")
        assert at.line.placeholder.endswith("M4x16, or collar 6.5")
        await at.type("collar thickness 8")
        await at.settle()
        assert "collar is 8 mm thick" in at.seen
        await at.press("escape")
        await at.type("thickness 8")
        await at.settle()
        assert "that of collar or base" in at.seen
        await at.do("escape", "down")
        example = at.line.placeholder.partition(": ")[2]
        assert example.startswith("base opening ")
        await at.type(example)
        await at.settle()
        assert "base opening is 180" in at.seen


async def test_a_what_if_entered_while_it_is_worked_out_is_answered_by_what_is_so(
    fitted: Path,
) -> None:
    async with bench(fitted, (120, 40)) as at:
        await at.do("ctrl+b", "down")
        screen = at.app.screen
        assert isinstance(screen, Gaps)
        typed = "opening 178.7"
        await at.type(typed)
        await at.settle()
        now = screen._case
        assert now is not None
        half = Supposed(screen.about, typed[:-1], refusal="“178.” is half a number")
        screen._case = half  # Enter came before the last letter was worked out
        screen._enter()
        await at.rest()
        assert "half a number" not in at.words
        screen._supposed(now)
        await at.rest()
        assert "WHAT IF" in at.words
        said = screen.query_one("#message", Row).said
        assert said == "nothing of it is written; Esc drops it"


async def test_a_chance_is_never_certain_in_the_rows_either(shop: Path) -> None:
    formula = ("base.opening - crossbar.length", "--limits", "0.1 to 0.5")
    logged(shop, "measure", "base", "opening", "178.6")
    logged(shop, "measure", "crossbar", "length", "178.3")
    logged(shop, "gap", "bar in the opening", *formula)
    async with bench(shop, (120, 40)) as at:
        await at.do("ctrl+b")
        await at.until(lambda: "as it is" in at.seen)
        assert "more than 99 % as it is" in at.seen
        assert "100 %" not in at.seen
