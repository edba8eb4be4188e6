"""Of a reading and a deviation called alike, what can be a reason is the deviation."""

from __future__ import annotations

import pytest

from logbook.project import Project
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Decision, Deviation
from logbook.records.kinds.words import Blame
from tests.cli.shop import Shop

LINE = "base opening 178.6 should be 180"


@pytest.fixture
def said(shop: Shop) -> Shop:
    """A line that made a run and a deviation of one title."""
    shop.asked("say", LINE, "--yes")
    return shop


def test_whose_fault_it_is_is_said_by_its_line(said: Shop) -> None:
    said.asked("met", LINE, "drawing")
    [deviation] = Project.open(said.folder).snapshot.all(Deviation)
    assert deviation.met_by_others is Blame.DRAWING


def test_a_revision_and_a_decision_have_it_as_their_reason(said: Shop) -> None:
    said.asked("revise", "base", "--changed", "wider", "--because", LINE)
    said.asked("decision", "base", "fold it wider", "--answers", LINE)
    snapshot = Project.open(said.folder).snapshot
    [deviation] = snapshot.all(Deviation)
    assert snapshot.all(Revision)[-1].because == (deviation.ref,)
    assert snapshot.all(Decision)[-1].about == (deviation.ref,)
