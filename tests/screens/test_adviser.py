"""Advice from a child process is the advice worked out here."""

from __future__ import annotations

import pickle
from datetime import UTC, datetime
from pathlib import Path

import pytest

from logbook.advice.advisor import Advisor, advise
from logbook.errors import BadInput, ChangedMeanwhile
from logbook.project import Project
from logbook.quantity import parse_quantity
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.happenings import Reading, Run
from logbook.records.kinds.ids import new_id
from logbook.screens.desk import adviser
from logbook.screens.desk.advice_sent import NOTHING, as_sent, as_told
from logbook.screens.desk.adviser import Adviser
from tests.screens.conftest import logged
from tests.screens.test_gaps import fitted

__all__ = ["fitted"]


@pytest.fixture
def in_a_child(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(adviser, "IN_A_CHILD", 0)


@pytest.mark.usefixtures("in_a_child")
def test_a_child_follows_the_records_and_supposes(fitted: Path) -> None:
    here = Adviser(fitted)
    project = Project.open(fitted)
    assert here.told(project.snapshot) == advise(project.snapshot)
    logged(fitted, "measure", "base", "opening", "178.9")
    logged(fitted, "joint", "lid to base", "M3x10")
    project.reload()
    told = here.told(project.snapshot)
    assert told == advise(project.snapshot)
    [gap] = project.snapshot.all(Fit)
    words, [said] = here.suppose(project.snapshot, gap.id, "opening 178.5")
    assert words == "base opening is 178.5 mm"
    assert "finish 178.20 mm" in said.statement
    with pytest.raises(BadInput, match="accepted: "):
        here.suppose(project.snapshot, gap.id, "nothing")
    with pytest.raises(ChangedMeanwhile):
        here.suppose(project.snapshot, "00000000", "opening 3")
    assert here.told(project.snapshot) == told


@pytest.mark.parametrize("least", [0, 1000], ids=["in a child", "here"])
def test_what_is_typed_so_far_is_advised_on_and_forgotten_again(
    fitted: Path, monkeypatch: pytest.MonkeyPatch, least: int
) -> None:
    monkeypatch.setattr(adviser, "IN_A_CHILD", least)
    here, project = Adviser(fitted), Project.open(fitted)
    told = here.told(project.snapshot)
    draft = project.draft(datetime.now(UTC))
    base = draft.part("base")
    opening = draft.characteristic(base, "opening")
    value = parse_quantity("178.5 mm")
    reading = Reading(id=new_id(), at=draft.when, what=opening.ref, value=value)
    draft.add(
        Run(
            id=new_id(),
            title="measured base",
            when=draft.when,
            build=draft.build().ref,
            piece=draft.piece(base).ref,
            readings=(reading,),
        )
    )
    [said] = here.so_far(project.snapshot, draft.records, draft.build())
    assert "178.5" in " ".join(one.shown for one in said.numbers)
    assert here.told(project.snapshot) == told


@pytest.mark.usefixtures("in_a_child")
def test_a_child_reads_the_records_and_goes_on_from_them(
    fitted: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(adviser, "READ_IN_A_CHILD", 0)
    here = Adviser(fitted)
    project = Project.open(fitted, here.read)
    assert project.snapshot == Project.open(fitted).snapshot
    assert project.snapshot.problems == Project.open(fitted).snapshot.problems
    child = here._child
    logged(fitted, "measure", "base", "opening", "178.9")
    project.reload()
    assert here.told(project.snapshot) == advise(project.snapshot)
    assert here._child is child is not None


@pytest.mark.parametrize("least", [0, 1000], ids=["in a child", "here"])
def test_what_an_entry_brings_up_is_said_once(
    shop: Path, monkeypatch: pytest.MonkeyPatch, least: int
) -> None:
    monkeypatch.setattr(adviser, "IN_A_CHILD", least)
    here = Adviser(shop)
    project = Project.open(shop)
    assert here.brought_up(project.snapshot) is None
    logged(shop, "say", "--yes", "crossbar 179.7")
    project.reload()
    found = here.brought_up(project.snapshot)
    assert found is not None
    assert "does the crossbar go into" in found.question
    draft = project.draft(project.snapshot.entries[-1].when)
    found.take(draft, "0.1 to 0.5, made last")
    assert [type(one) for one in draft.new] == [Fit]
    assert here.brought_up(project.snapshot) is None


@pytest.mark.usefixtures("in_a_child")
def test_figures_wait_until_they_are_asked_for(fitted: Path) -> None:
    logged(fitted, "part", "base", "--process", "folding")
    here = Adviser(fitted)
    project = Project.open(fitted)
    before = here.told(project.snapshot)
    for size in ("179.1", "179.4"):
        logged(fitted, "measure", "base", "opening", size)
        project.reload()
        told = here.told(project.snapshot, fold=False)
        assert told.of("figures") == before.of("figures")
        assert told.of("gaps") != before.of("gaps")
    assert here.told(project.snapshot) == advise(project.snapshot)
    assert here.told(project.snapshot).of("figures") != before.of("figures")


def test_what_was_sent_before_is_not_sent_again(fitted: Path) -> None:
    project = Project.open(fitted)
    advisor = Advisor()
    first = advisor.update(project.snapshot)
    sent = as_sent(NOTHING, first)
    assert sent.advice == first.advice
    held = as_told(NOTHING, pickle.loads(pickle.dumps(sent)))
    logged(fitted, "measure", "base", "opening", "179.1")
    project.reload()
    second = advisor.update(project.snapshot)
    sent = as_sent(first, second)
    assert any(isinstance(one, int) for one in sent.advice)
    assert as_told(held, pickle.loads(pickle.dumps(sent))) == second


@pytest.mark.usefixtures("in_a_child")
def test_a_child_that_was_ended_is_done_without(fitted: Path) -> None:
    here = Adviser(fitted)
    snapshot = Project.open(fitted).snapshot
    expected = here.told(snapshot)
    assert here._child is not None
    here._child._process.kill()
    here._child._process.wait()
    assert here.told(snapshot) == expected
    assert here.told(snapshot) == expected
