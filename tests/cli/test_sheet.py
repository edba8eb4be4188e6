"""A job sheet printed, written on, and typed in again."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from logbook.project import Project
from logbook.records.kinds.happenings import Note, Override, Run, StepDone, Work
from logbook.records.kinds.workshop import Piece
from logbook.store.typed.drafts import drafts
from tests.cli.shop import Said, Shop
from tests.cli.typed import answering

Typing = Callable[..., Said]


@pytest.fixture
def bench(shop: Shop) -> Shop:
    """A base with an opening at two places, a step that makes it, one that closes."""
    for words in (
        ("build", "build 1"),
        ("part", "base", "--dimension", "opening=180.0 ±1.2"),
        ("measure", "base", "opening", "left=180.1", "right=180.2", "--piece", "1"),
        ("dispose", "base-1", "scrap"),
        ("step", "fold the base", "--makes", "base"),
        ("step", "close the lid", "--closes", "--inside", "cable", "--tested", "lamp"),
        ("hold", "fold the base", "the sheet is not here"),
    ):
        said = shop.logbook(*words)
        assert said.code == 0, said.err
    return shop


@pytest.fixture
def typing(bench: Shop, monkeypatch: pytest.MonkeyPatch) -> Typing:
    def typed(mark: str, *lines: str, more: tuple[str, ...] = ()) -> Said:
        answering(monkeypatch, *lines)
        return bench.logbook("sheet", "--enter", mark, *more)

    return typed


def printed(bench: Shop) -> tuple[str, list[dict[str, Any]]]:
    told = bench.asked("sheet")
    return told["sheet"], told["boxes"]


def number(boxes: list[dict[str, Any]], label: str) -> int:
    return int(next(box["number"] for box in boxes if box["label"] == label))


def test_boxes_are_typed_in_as_printed_and_blank_ones_are_no_entry(
    bench: Shop, typing: Typing
) -> None:
    mark, boxes = printed(bench)
    at = number(boxes, "opening at left")
    waits = number(boxes, "went on because")
    said = typing(
        mark, f"{waits}:", "it came at noon",
        f"{at}:", "178.6", "", "x", "1.5 h", "folded twice", ".",
    )  # fmt: skip
    assert said.code == 0, said.err
    snapshot = Project.open(bench.folder).snapshot
    run = next(r for r in snapshot.all(Run) if r.title == "measured base-2")
    assert [(r.place, str(r.value)) for r in run.readings] == [("left", "178.6 mm")]
    assert {piece.title for piece in snapshot.all(Piece)} == {"base-1", "base-2"}
    [done] = snapshot.all(StepDone)
    assert (done.title, str(done.time)) == ("fold the base", "1.5 h")
    assert [note.title for note in snapshot.all(Note)] == ["folded twice"]
    assert [one.because for one in snapshot.all(Override)] == ["it came at noon"]
    assert "off drawing" in said.out
    assert drafts(bench.folder) == ()


def test_all_of_a_sheet_is_one_act_and_undo_takes_it_back(
    bench: Shop, typing: Typing
) -> None:
    mark, boxes = printed(bench)
    before = bench.subjects()
    at = number(boxes, "opening at left")
    typing(mark, f"{at}:", "178.6", "178.7", "x", ".", "1", "it came at noon")
    assert len(bench.subjects()) == len(before) + 1
    assert bench.logbook("undo").code == 0
    assert not Project.open(bench.folder).snapshot.all(StepDone)


def test_what_cannot_be_is_refused_and_asked_again(bench: Shop, typing: Typing) -> None:
    mark, boxes = printed(bench)
    at = number(boxes, "opening at left")
    said = typing(
        mark, f"{at}:", "12,5,5", "1/0", "abc", "5 kg", "-178.6", "178.6",
        f"{number(boxes, 'minutes')}:", "-5", "2 mm", "30 min", "999:", ".",
    )  # fmt: skip
    assert said.code == 0
    for refused in (
        "two decimal marks", "divides by zero", "does not begin with a number",
        "is a mass", "is negative", "no length of time", "there is no box 999",
    ):  # fmt: skip
        assert refused in said.err
    runs = Project.open(bench.folder).snapshot.all(Run)
    assert "178.6 mm" in {str(run.readings[0].value) for run in runs}


def test_a_slip_is_asked_about_and_typed_again_or_put_right(
    bench: Shop, typing: Typing
) -> None:
    mark, boxes = printed(bench)
    at = number(boxes, "opening at left")
    said = typing(mark, f"{at}:", "1786", "", "1787", "1", "1788", "2", ".")
    assert "ten times what is drawn" in said.out
    readings = [
        (str(one.value), one.confirmed)
        for run in Project.open(bench.folder).snapshot.all(Run)
        for one in run.readings
    ]
    assert readings[-2:] == [("178.7 mm", False), ("1788 mm", True)]


def test_going_back_lets_a_box_be_typed_again_and_a_no_empties_it(
    bench: Shop, typing: Typing
) -> None:
    mark, boxes = printed(bench)
    at = number(boxes, "done")
    typing(mark, f"{at}:", "x", "<", "no", f"{at - 1}:", "180.0", ".")
    snapshot = Project.open(bench.folder).snapshot
    assert not snapshot.all(StepDone)
    assert "180.0 mm" in {str(run.readings[0].value) for run in snapshot.all(Run)}


def test_looks_and_minutes_without_a_tick_are_kept_and_close_nothing(
    bench: Shop, typing: Typing
) -> None:
    mark, boxes = printed(bench)
    typing(mark, f"{number(boxes, 'inside: cable')}:", "x", "", "", "12", ".")
    snapshot = Project.open(bench.folder).snapshot
    assert not snapshot.all(StepDone)
    assert [str(one.time) for one in snapshot.all(Work)] == ["12 min"]
    assert "inside: cable" in snapshot.all(Note)[0].title


def test_a_step_ticked_without_its_looks_is_not_saved_and_says_which_are_blank(
    bench: Shop, typing: Typing
) -> None:
    mark, boxes = printed(bench)
    said = typing(mark, f"{number(boxes, 'inside: cable')}:", "x", "", "x", ".")
    assert said.code == 3
    blank = f"{number(boxes, 'tested: lamp')} tested: lamp is blank"
    assert blank in said.out
    assert blank in said.err
    assert f"logbook sheet --enter {mark}" in said.err
    assert not Project.open(bench.folder).snapshot.all(StepDone)
    said = typing(mark, ".", "x", ".")
    assert said.code == 0, said.err
    [done] = Project.open(bench.folder).snapshot.all(StepDone)
    assert (done.inside, done.tested, done.closes) == (("cable",), ("lamp",), True)


@pytest.mark.parametrize("answers", [(), ("2",), ("1", "")])
def test_a_look_that_was_not_taken_is_asked_about_and_nothing_saved_without_a_reason(
    bench: Shop, typing: Typing, answers: tuple[str, ...]
) -> None:
    mark, boxes = printed(bench)
    look = number(boxes, "inside: cable")
    said = typing(mark, f"{look}:", "x", "n", "x", ".", *answers)
    assert said.code == 3
    assert "not ticked: tested: lamp" in said.out
    assert not Project.open(bench.folder).snapshot.all(StepDone)
    assert not Project.open(bench.folder).snapshot.all(Override)
    assert drafts(bench.folder)


def test_a_look_that_was_not_taken_is_kept_as_gone_past_with_its_reason(
    bench: Shop, typing: Typing
) -> None:
    mark, boxes = printed(bench)
    look = number(boxes, "inside: cable")
    said = typing(mark, f"{look}:", "x", "n", "x", ".", "1", "no lamp here today")
    assert said.code == 0, said.err
    snapshot = Project.open(bench.folder).snapshot
    [done] = snapshot.all(StepDone)
    assert (done.inside, done.tested, done.closes) == (("cable",), (), True)
    [override] = snapshot.all(Override)
    assert override.because == "no lamp here today"


def test_read_by_a_program_a_sheet_asks_nothing_and_is_not_saved(
    bench: Shop, typing: Typing
) -> None:
    mark, boxes = printed(bench)
    look = number(boxes, "inside: cable")
    said = typing(mark, f"{look}:", "x", "n", "x", ".", "1", "1", more=("--json",))
    assert said.code == 3
    assert f"{look + 1} “close the lid” is ticked as done" in said.json["error"]
    assert f"logbook sheet --enter {mark}" in said.json["error"]
    assert not Project.open(bench.folder).snapshot.all(StepDone)


def test_what_was_done_on_screen_meanwhile_is_not_logged_a_second_time(
    bench: Shop, typing: Typing
) -> None:
    mark, boxes = printed(bench)
    bench.asked(
        "step", "close the lid", "--done", "--inside", "cable", "--tested", "lamp"
    )
    look = number(boxes, "inside: cable")
    said = typing(mark, f"{look}:", "x", "x", "x", "20 min", "a rivet sat crooked", ".")
    assert said.code == 0, said.err
    assert "“close the lid” is done already and is not logged again" in said.err
    snapshot = Project.open(bench.folder).snapshot
    assert len(snapshot.all(StepDone)) == 1
    assert [str(one.time) for one in snapshot.all(Work)] == ["20 min"]
    assert [note.title for note in snapshot.all(Note)] == ["a rivet sat crooked"]


def test_a_reason_written_beside_a_wait_lets_it_pass(
    bench: Shop, typing: Typing
) -> None:
    mark, boxes = printed(bench)
    typing(mark, f"{number(boxes, 'went on because')}:", "it came at noon", ".")
    [override] = Project.open(bench.folder).snapshot.all(Override)
    assert override.because == "it came at noon"
    assert "the sheet is not here" not in bench.logbook("holds").out


def test_typing_broken_off_is_kept_and_goes_on_where_it_was(
    bench: Shop, typing: Typing, monkeypatch: pytest.MonkeyPatch
) -> None:
    mark, boxes = printed(bench)
    at = number(boxes, "opening at left")
    lines = iter([f"{at}:", "178.6"])

    def broken_off(_: str = "") -> str:
        for line in lines:
            return line
        raise KeyboardInterrupt

    with monkeypatch.context() as hands:
        hands.setattr("builtins.input", broken_off)
        assert bench.logbook("sheet", "--enter", mark).code == 130
    [kept] = drafts(bench.folder)
    assert kept.text == f"{at} 178.6"
    typing(mark, "178.7", ".")
    run = next(
        r
        for r in Project.open(bench.folder).snapshot.all(Run)
        if r.title == "measured base-2"
    )
    assert [str(r.value) for r in run.readings] == ["178.6 mm", "178.7 mm"]
    assert drafts(bench.folder) == ()


def test_a_sheet_still_fits_after_the_records_have_grown(
    bench: Shop, typing: Typing
) -> None:
    mark, boxes = printed(bench)
    bench.logbook("step", "fold the base", "--number", "4")
    bench.logbook("part", "bed", "--dimension", "width=240")
    at = number(boxes, "opening at right")
    typing(mark, f"{at}:", "180.3", ".")
    runs = Project.open(bench.folder).snapshot.all(Run)
    taken = {(r.place, str(r.value)) for run in runs for r in run.readings}
    assert ("right", "180.3 mm") in taken


@pytest.mark.parametrize("mark", ["000000", "../../x", ""])
def test_an_unknown_sheet_is_refused(typing: Typing, mark: str) -> None:
    said = typing(mark or " ", ".")
    assert said.code == 5
    assert "accepted" in said.err


def test_a_sheet_another_clone_printed_is_typed_in_once_its_page_is_here(
    bench: Shop, typing: Typing, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    page = tmp_path / "printed.html"
    mark = bench.asked("sheet", "--out", str(page))["sheet"]
    _, boxes = printed(bench)
    # In another clone nothing is kept of it, and there the records have grown.
    monkeypatch.setenv("LOGBOOK_STATE", str(tmp_path / "elsewhere"))
    bench.asked("measure", "base", "opening", "left=180.15")
    refused = typing(mark)
    here = f"as-built/job-sheets/job-sheet-{mark}.html"
    assert refused.code != 0
    assert "to type it in where it was printed" in refused.err
    assert here in " ".join(refused.err.split())

    place = bench.folder / here
    place.parent.mkdir(exist_ok=True)
    place.write_bytes(page.read_bytes())
    assert Project.open(bench.folder).waiting() == ()
    at = number(boxes, "opening at left")
    said = typing(mark, f"{at}:", "180.4")
    assert said.code == 0, said.err
    run = Project.open(bench.folder).snapshot.all(Run)[-1]
    assert [str(one.value) for one in run.readings] == ["180.4 mm"]
    assert (place.parent / ".gitignore").read_text("utf-8") == "*\n"
    # A page that is not of this mark is no sheet of it.
    other = bench.folder / "as-built/job-sheets/job-sheet-abc123.html"
    other.write_bytes(page.read_bytes())
    assert typing("abc123").code != 0


def test_it_is_written_as_a_page_or_as_text_and_as_nothing_else(
    bench: Shop, tmp_path: Path
) -> None:
    for name, says in (("s.html", "<!DOCTYPE html>"), ("s.txt", "JOB SHEET")):
        out = tmp_path / name
        said = bench.logbook("sheet", "--paper", "Letter", "--out", str(out))
        assert said.code == 0
        assert out.read_text("utf-8").startswith(says)
    assert bench.logbook("sheet", "--out", str(tmp_path / "s.doc")).code == 2
    assert bench.logbook("sheet", "--out", str(tmp_path / "no/s.txt")).code == 2
    assert bench.logbook("sheet", "--pieces", "0").code == 2


def test_the_day_and_hour_in_its_head_is_typed_as_box_nought(
    bench: Shop, typing: Typing
) -> None:
    mark, boxes = printed(bench)
    at = number(boxes, "opening at left")
    said = typing(mark, "0:", "2024-03-08 16:30", f"{at}:", "178.6")
    assert said.code == 0, said.err
    runs = Project.open(bench.folder).snapshot.all(Run)
    [run] = [one for one in runs if one.title == "measured base-2"]
    assert f"{run.when.astimezone():%Y-%m-%d %H:%M}" == "2024-03-08 16:30"


def test_a_sheet_taken_back_in_the_shell_is_filled_in_again(
    bench: Shop, typing: Typing
) -> None:
    mark, boxes = printed(bench)
    at = number(boxes, "opening at left")
    typing(mark, f"{at}:", "178.6", "178.7", "x", ".", "1", "it came at noon")
    saved = [done.title for done in Project.open(bench.folder).snapshot.all(StepDone)]
    assert bench.logbook("undo").code == 0
    assert typing(mark, ".").code == 0
    again = [done.title for done in Project.open(bench.folder).snapshot.all(StepDone)]
    assert again == saved == ["fold the base"]
    [over] = Project.open(bench.folder).snapshot.all(Override)
    assert over.because == "it came at noon"
    typing(mark, ".")
    assert len(Project.open(bench.folder).snapshot.all(StepDone)) == 1


def test_the_sheet_is_of_the_build_one_works_in_and_of_another_where_it_is_named(
    bench: Shop,
) -> None:
    bench.asked("build", "build 2")
    bench.asked("note", "the sheet came", "--build", "build 1")
    assert bench.asked("sheet")["build"] == "build 1"
    assert bench.asked("sheet", "--build", "build 2")["build"] == "build 2"


def test_what_is_made_to_suit_is_held_to_what_was_typed_before_it(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    for words in (
        ("part", "base", "--dimension", "opening=180.0 ±1.2"),
        ("part", "bar", "--dimension", "length=179.7 ±0.1"),
        ("gap", "bar in it", "base.opening - bar.length", "--limits", "0.1 to 0.5",
         "--last", "bar.length"),
    ):  # fmt: skip
        assert shop.logbook(*words).code == 0
    mark, boxes = printed(shop)
    at = number(boxes, "opening"), number(boxes, "length")
    assert at[0] < at[1]
    answering(monkeypatch, f"{at[0]}:", "178.60", f"{at[1]}:", "179.7", ".")
    said = shop.logbook("sheet", "--enter", mark)
    assert said.code == 0, said.err
    assert "does not suit: accept 178." in said.out


def test_what_is_set_for_a_step_stands_on_the_sheet(shop: Shop) -> None:
    shop.asked("part", "base")
    shop.asked("step", "drill the base", "--makes", "base", "--set", "drill 3.3 mm")
    page = shop.folder / "job.html"
    said = shop.logbook("sheet", "--out", str(page))
    assert said.code == 0, said.err
    assert "drill 3.3 mm" in page.read_text("utf-8")
