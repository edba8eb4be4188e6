"""A line typed at a question is never its answer, and is never lost."""

from __future__ import annotations

import pytest

from logbook.project import Project
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import Deviation, Failure, Note, StepDone
from tests.cli.shop import Shop
from tests.cli.typed import answering

SANDED = "sanded the rails smooth, took 10 minutes"
UNSURE = "base opening 1,234"
"""A line that is asked about: its number has two meanings."""


def test_a_line_typed_at_a_question_comes_next_as_itself(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    answering(monkeypatch, SANDED, "", "", "", "", "")
    said = shop.logbook("say", UNSURE)
    assert f"“{SANDED}” does not answer this; accepted: " in said.out
    assert f"next: {SANDED}" in said.out
    snapshot = Project.open(shop.folder).snapshot
    [step] = snapshot.all(StepDone)
    assert step.title == SANDED
    [note] = snapshot.all(Note)
    assert (note.title, note.prose) == (UNSURE, "")
    assert shop.asked("drafts")["drafts"] == []


def test_a_line_that_waits_and_is_not_taken_stays_among_the_drafts(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    answering(monkeypatch, SANDED, "", "n")
    said = shop.logbook("say", UNSURE)
    assert "kept in logbook drafts" in said.out
    assert [one["text"] for one in shop.asked("drafts")["drafts"]] == [SANDED]


def test_a_line_asked_about_is_noted_by_one_key_and_left_by_another(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    answering(monkeypatch, "")
    assert "kept: note" in shop.logbook("say", UNSURE).out
    answering(monkeypatch, "n")
    said = shop.logbook("say", UNSURE)
    assert "n: do not take the line" in said.out
    assert len(Project.open(shop.folder).snapshot.all(Note)) == 1
    assert [one["text"] for one in shop.asked("drafts")["drafts"]] == [UNSURE]


@pytest.mark.parametrize("says", ["rear hood rattles", "wired the lamp tomorrow"])
def test_n_takes_no_line_whatever_a_choice_begins_with(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, says: str
) -> None:
    shop.logbook("part", "hood latch")
    answering(monkeypatch, "n")
    said = shop.logbook("say", says)
    assert "n: do not take the line" in said.out
    assert [one["text"] for one in shop.asked("drafts")["drafts"]] == [says]


def test_what_can_only_be_a_note_is_not_asked_twice(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    answering(monkeypatch, "")
    said = shop.logbook("say", "no wait the base was 178.5 not 178.45")
    assert "that puts right an entry" in said.out
    assert said.out.count("Enter:") == 1
    assert "kept: note" in said.out


def test_a_line_that_waits_when_nobody_answers_any_more_is_kept(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    answering(monkeypatch, SANDED)
    assert shop.logbook("say", UNSURE).code == 3
    kept = [one["text"] for one in shop.asked("drafts")["drafts"]]
    assert SANDED in kept
    assert any(UNSURE in one for one in kept)


def test_a_command_pasted_at_a_question_is_the_line_it_says(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    answering(monkeypatch, f'logbook say "{SANDED}"', "", "", "", "", "")
    shop.logbook("say", UNSURE)
    assert [one.title for one in Project.open(shop.folder).snapshot.all(StepDone)] == [
        SANDED
    ]
    answering(monkeypatch, "logbook undo", "", "", "", "")
    shop.logbook("say", UNSURE)
    assert [one["text"] for one in shop.asked("drafts")["drafts"]] == ["logbook undo"]


def test_a_line_at_whose_fault_it_is_leaves_that_open(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    answering(monkeypatch, SANDED, "1", "", "", "", "")
    said = shop.logbook("say", "base cracked at the left bend")
    assert (
        f"“{SANDED}” does not answer this; accepted: 1, 2, 3, n, or Enter. It is kept"
        in said.out
    )
    snapshot = Project.open(shop.folder).snapshot
    [failure] = snapshot.all(Failure)
    assert failure.met_by_others == "the drawing"
    assert [one.title for one in snapshot.all(StepDone)] == [SANDED]


@pytest.mark.parametrize("answers", [[""], ["2"], ["not done yet", ""]])
def test_what_waits_and_is_not_done_yet_keeps_the_line(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, answers: list[str]
) -> None:
    shop.asked("part", "lid")
    shop.asked("step", "close the lid", "--uses", "lid", "--closes")
    shop.asked("hold", "close the lid", "the cable lies outside")
    answering(monkeypatch, *answers)
    said = shop.logbook("say", "riveted the lid on")
    assert "kept in logbook drafts" in said.out
    kept = [one["text"] for one in shop.asked("drafts")["drafts"]]
    assert "riveted the lid on" in kept
    assert not Project.open(shop.folder).snapshot.all(StepDone)


def test_a_stray_figure_is_no_name_of_a_part(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop.asked("part", "upper rail")
    shop.asked("part", "lower rail")
    answering(monkeypatch, "9", "1 2", "1", "", "", "")
    said = shop.logbook("say", "rail 40.2 should be 40")
    assert said.out.count("does not answer this; accepted: ") == 2
    [off] = Project.open(shop.folder).snapshot.all(Deviation)
    assert off.part is not None
    assert off.part.name in {"upper rail", "lower rail"}


def test_stopping_at_a_line_that_waited_does_not_keep_the_one_that_was_taken(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    said = iter([SANDED, ""])

    def hand(_: str) -> str:
        for one in said:
            return one
        raise KeyboardInterrupt

    monkeypatch.setattr("builtins.input", hand)
    assert shop.logbook("say", UNSURE).code == 130
    assert [one["text"] for one in shop.asked("drafts")["drafts"]] == [SANDED]


def test_a_line_typed_at_what_is_offered_is_no_answer_either(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop.asked("part", "lid")
    line = "sanded the rails of the bed until they were smooth, took 10 minutes"
    answering(monkeypatch, "", line, "", "", "")
    said = shop.logbook("say", "glued the lid shut")
    assert "what must be inside before it?" in said.out
    assert f"next: {line}" in said.out
    snapshot = Project.open(shop.folder).snapshot
    assert next(one.title for one in snapshot.all(StepDone)) == "glued the lid shut"
    assert not snapshot.all(Step)
    assert line in {one.title for one in snapshot.entries}
