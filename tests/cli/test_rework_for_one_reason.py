"""What is done with a piece for one reason leaves what else is wrong with it open."""

from __future__ import annotations

import pytest

from logbook.project import Project
from logbook.publish.parts.fault_story import faults_of
from logbook.records.kinds.happenings import Disposal
from logbook.records.states.dispositions import undisposed
from tests.cli.shop import Shop
from tests.cli.typed import answering

HIGH = "foot height 16.8 should be 16.5"
LET_GO = "the rubber sole of the foot let go at the heel"


@pytest.fixture
def foot(shop: Shop) -> Shop:
    """A foot that is too high."""
    shop.asked("part", "foot", "--dimension", "height=16.5", "--dimension", "bore=8")
    shop.asked("say", HIGH, "--yes")
    return shop


def still_open(shop: Shop) -> set[str]:
    return {one.title for one in undisposed(Project.open(shop.folder).snapshot)}


def test_a_rework_for_another_reason_decides_nothing_and_says_so(foot: Shop) -> None:
    line = "reamed the foot bore out to 8.1 because the 8 mm shaft did not go in"
    said = foot.logbook("say", line, "--yes")
    assert f"still open: {HIGH}" in said.out
    foot.asked("say", LET_GO, "--yes")
    assert still_open(foot) == {HIGH, LET_GO}
    for one in faults_of(Project.open(foot.folder).snapshot):
        assert one.piece.endswith(", nobody has decided on it yet")


def test_a_rework_of_the_size_that_was_off_answers_that_alone(foot: Shop) -> None:
    foot.asked("say", LET_GO, "--yes")
    said = foot.logbook("say", "filed the foot down to height 16.5", "--yes")
    assert f"answers: {HIGH}" in said.out
    assert f"still open: {LET_GO}" in said.out
    assert still_open(foot) == {LET_GO}


@pytest.mark.parametrize(
    ("line", "left"),
    [
        ("filed the foot slots out to 12.2", {HIGH}),
        ("opened the foot holes up to 5.1", {HIGH}),
        ("filed the foot down to 16.6", set()),
        ("filed the foot down to 16,5", set()),
    ],
)
def test_a_size_without_a_name_answers_a_fault_only_where_it_can_be_that_size(
    foot: Shop, line: str, left: set[str]
) -> None:
    said = foot.logbook("say", line, "--yes")
    assert still_open(foot) == left
    assert (f"still open: {HIGH}" in said.out) == bool(left)


def test_how_it_was_done_is_no_reason_and_is_asked_about(
    foot: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    answering(monkeypatch, "1", "", "")
    said = foot.logbook("say", "reworked foot-1, sanded it")
    assert f"which of these does it answer?  1 {HIGH} / 2 none of these" in said.out
    assert still_open(foot) == set()


def test_how_it_was_done_decides_nothing_unasked_and_says_so(foot: Shop) -> None:
    said = foot.logbook("say", "reworked foot-1, sanded it", "--yes")
    assert f"still open: {HIGH}" in said.out
    assert still_open(foot) == {HIGH}


def test_two_faults_of_one_reason_are_both_answered(foot: Shop) -> None:
    again = "the rubber sole of the foot let go at the toes too"
    foot.asked("say", LET_GO, "--yes")
    foot.asked("say", again, "--yes")
    foot.asked("say", "reworked foot-1 because the sole had let go", "--yes")
    assert still_open(foot) == {HIGH}
    [done] = Project.open(foot.folder).snapshot.all(Disposal)
    assert done.answers is not None
    assert len(done.answers_too) == 1


@pytest.mark.parametrize(
    ("answer", "left"),
    [
        ("1", {LET_GO}),
        ("all of them", set()),
        ("none", {HIGH, LET_GO}),
        ("", {HIGH, LET_GO}),
        (HIGH, {LET_GO}),
    ],
)
def test_where_the_line_says_nothing_of_why_it_is_asked(
    foot: Shop, monkeypatch: pytest.MonkeyPatch, answer: str, left: set[str]
) -> None:
    foot.asked("say", LET_GO, "--yes")
    answering(monkeypatch, answer, "", "")
    said = foot.logbook("say", "rework foot-1")
    assert f"which of these does it answer?  1 {HIGH} / 2 {LET_GO}" in said.out
    assert still_open(foot) == left


def test_unasked_several_open_faults_stay_open(foot: Shop) -> None:
    foot.asked("say", LET_GO, "--yes")
    foot.asked("say", "rework foot-1", "--yes")
    assert still_open(foot) == {HIGH, LET_GO}


def test_what_is_scrapped_ends_all_that_was_wrong_with_it(foot: Shop) -> None:
    foot.asked("say", LET_GO, "--yes")
    foot.asked("say", "scrap foot-1", "--yes")
    assert still_open(foot) == set()


def test_the_exact_verb_says_what_it_decides_on(foot: Shop) -> None:
    foot.asked("say", LET_GO, "--yes")
    said = foot.logbook("dispose", "foot-1", "rework")
    assert f"decides on: {HIGH}; {LET_GO}" in said.out
    assert still_open(foot) == set()
