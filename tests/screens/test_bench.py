"""The bench: a line understood, asked about, taken, taken back, committed."""

from __future__ import annotations

from pathlib import Path
from time import monotonic

import pytest

from logbook.records.kinds.happenings import Deviation, Failure, Note, Run
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import Blame
from logbook.screens.record.record import RecordSheet
from tests.screens.bench_keys import bench, project


async def test_the_bench_says_where_you_were_and_what_is_open(shop: Path) -> None:
    async with bench(shop) as at:
        assert "Stand" in at.seen
        assert "build 1" in at.seen
        assert "base opening 178.6 should be 180  " in at.seen
        assert "all in git" in at.seen
        assert "wanted 180 mm, not drawn" in at.seen


async def test_a_line_is_understood_while_it_is_typed(shop: Path) -> None:
    async with bench(shop, (120, 40)) as at:
        await at.type("base opening 178.62")
        await at.pilot.pause()
        assert "measured · part base · size opening 178.62 mm" in at.seen


async def test_enter_takes_the_line_and_the_next_can_be_typed_at_once(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await at.type("base opening 178.62")
        await at.press("enter")
        assert at.line.value == ""
        assert at.line.has_focus
        await at.type("next")
        await at.settle()
        assert at.line.value == "next"
    runs = project(shop).snapshot.all(Run)
    assert [str(run.readings[0].value) for run in runs] == ["178.6 mm", "178.62 mm"]


async def test_git_takes_what_was_typed_by_itself(shop: Path) -> None:
    async with bench(shop) as at:
        await at.say("sanded the bed")
        await at.until(lambda: "all in git" in at.seen)
    assert project(shop).waiting() == ()


async def test_git_takes_it_though_its_moment_has_come_already(shop: Path) -> None:
    async with bench(shop) as at:
        at.app._git.by = monotonic() - 1.0
        await at.say("sanded the bed")
        await at.until(lambda: "all in git" in at.seen)
    assert project(shop).waiting() == ()


@pytest.mark.parametrize(
    ("key", "blame"),
    [
        ("1", Blame.DRAWING),
        ("2", Blame.PIECE),
        ("3", Blame.MACHINE),
        ("enter", Blame.UNKNOWN),
    ],
)
async def test_whose_fault_it_is_takes_one_key(
    shop: Path, key: str, blame: Blame
) -> None:
    async with bench(shop) as at:
        await at.type("diffuser cracked at a corner screw")
        await at.press("enter")
        await at.pilot.pause()
        assert "would another builder meet this?" in at.seen
        assert at.line.value == "diffuser cracked at a corner screw"
        await at.do(key)
    [failure] = project(shop).snapshot.all(Failure)
    assert failure.met_by_others is blame


async def test_escape_drops_the_question_and_keeps_the_words(shop: Path) -> None:
    async with bench(shop) as at:
        await at.type("diffuser cracked at a corner screw")
        await at.press("enter", "escape")
        await at.type("s")
        assert at.line.value == "diffuser cracked at a corner screws"
    assert not project(shop).snapshot.all(Failure)


async def test_a_doubtful_number_is_asked_about_and_one_figure_answers(
    shop: Path,
) -> None:
    async with bench(shop, (120, 40)) as at:
        await at.type("lamp reach 1,234")
        await at.press("enter")
        await at.pilot.pause()
        assert "can be two numbers" in at.seen
        await at.do("2")
        if at.app.screen.query_one("#understood").has_class("-asks"):
            await at.do("enter")
    run = project(shop).snapshot.all(Run)[-1]
    assert str(run.readings[0].value) == "1234 mm"


async def test_a_doubtful_line_left_unanswered_is_kept_as_a_note(shop: Path) -> None:
    async with bench(shop) as at:
        await at.type("base opening 1,234")
        await at.do("enter", "enter")
    [note] = project(shop).snapshot.all(Note)
    assert note.title == "base opening 1,234"


async def test_undo_takes_the_last_line_back_with_one_key_and_says_so(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await at.say("sanded the bed")
        await at.do("f8")
        assert "taken back" in at.seen
        assert "sanded the bed" in at.seen
    titles = [entry.title for entry in project(shop).snapshot.entries]
    assert "sanded the bed" not in titles


async def test_an_arrow_and_enter_open_an_entry(shop: Path) -> None:
    async with bench(shop, (80, 30)) as at:
        await at.do("up", "enter")
        assert isinstance(at.app.screen, RecordSheet)
        # The line made a reading and a deviation of one instant; either is newest.
        assert "as-built/deviations" in at.seen or "as-built/runs" in at.seen
        history = at.seen.partition("history │ ")[2].splitlines()[0]
        assert (
            "measuring run" in history or "deviation" in history or "reading" in history
        )
        await at.press("escape")
        assert at.line.has_focus


async def test_what_a_pull_or_an_editor_brings_appears_by_itself(shop: Path) -> None:
    async with bench(shop) as at:
        other = project(shop)
        draft = other.draft(at.app.desk.now())
        draft.add(Note(id=new_id(), title="came by a pull", when=draft.when))
        other.save(draft, "note", draft.when)
        at.app.desk.watch()
        await at.settle()
        assert "came by a pull" in at.seen


async def test_deviation_of_the_sample_is_undecided(shop: Path) -> None:
    assert len(project(shop).snapshot.all(Deviation)) == 1
    async with bench(shop) as at:
        assert "Tab lists: base opening 178.6 should be 180" in at.words


async def test_what_is_done_with_a_piece_names_the_faults_it_decides_on(
    shop: Path,
) -> None:
    async with bench(shop, (120, 40)) as at:
        await at.say("reworked base-1 because the edge was sharp")
        assert "still open: base opening 178.6 should be 180" in at.words
        await at.say("use base-1 as is")
        assert "decides on: base opening 178.6 should be 180" in at.words
        await at.say("use base-1 as is")
        assert "decides on" not in at.words
