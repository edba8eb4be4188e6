"""A fault that comes back after its cure leaves no unqualified cure anywhere."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.advice.faults.helped import NOT_KNOWN, NOT_TRIED, helped
from logbook.advice.faults.verdicts import outcome
from logbook.advice.faults.verdicts_told import told
from logbook.project import Project
from logbook.records.kinds.happenings import Failure
from logbook.records.together.snapshot import Snapshot
from tests.cli.shop import Shop

CAME_OFF = "sole came off again, glue does not stick to it, cure: used contact cement"
THIRD = "sole came off a third time, contact cement gave up in the cold"


@pytest.fixture
def sole(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Shop:
    """A sole that came off, with a cure."""
    shop = Shop(tmp_path, capsys)
    shop.asked("start", "--yes")
    shop.asked("part", "sole")
    shop.asked("part", "foot")
    shop.asked("failure", "sole", CAME_OFF, "--cure", "used contact cement")
    return shop


def first(shop: Shop) -> tuple[Snapshot, Failure]:
    snapshot = Project.open(shop.folder).snapshot
    return snapshot, snapshot.all(Failure)[0]


@pytest.mark.parametrize(
    ("later", "came"),
    [
        (THIRD, "it came back"),
        ("sole came off again", "it came back"),
        ("sole does not stick, once more", "it came back"),
        ("contact cement let go at the heel", "it seems to have come back"),
    ],
)
def test_what_comes_back_says_that_the_cure_did_not_hold(
    sole: Shop, later: str, came: str
) -> None:
    assert helped(*first(sole)) == NOT_KNOWN
    sole.asked("failure", "sole", later)
    snapshot, entry = first(sole)
    assert helped(snapshot, entry) == f"tried, and {came} (“{later}”)"
    said = told(outcome(snapshot, entry)).statement
    assert f"it did not hold; but {came}: {later}" in said
    assert "nobody has said since that it holds" not in said


@pytest.mark.parametrize(
    ("part", "later"),
    [
        ("sole", "0.2 lifted at the corners"),
        ("sole", "the heel cracked in the vice"),
        ("foot", "foot came off the leg again"),
    ],
)
def test_another_fault_or_another_part_says_nothing_of_the_cure(
    sole: Shop, part: str, later: str
) -> None:
    sole.asked("failure", part, later)
    assert helped(*first(sole)) == NOT_KNOWN


SPLIT = "the lamp bracket split along the layers, cure: printed at 215"
BACK = "lamp bracket split again at the same screw, even at 215"
OTHER = "the new lamp bracket cracked again, this time at the belt slot"


@pytest.mark.parametrize("lines", [(BACK, OTHER), (OTHER, BACK), (OTHER,)])
def test_what_came_back_is_the_failure_that_was_cured_and_no_other(
    sole: Shop, lines: tuple[str, ...]
) -> None:
    sole.asked("part", "lamp bracket")
    sole.asked("failure", "lamp bracket", SPLIT, "--cure", "printed at 215")
    for line in lines:
        sole.asked("failure", "lamp bracket", line)
    snapshot = Project.open(sole.folder).snapshot
    entry = next(one for one in snapshot.all(Failure) if one.title == SPLIT)
    back = f"tried, and it came back (“{BACK}”)"
    assert helped(snapshot, entry) == (back if BACK in lines else NOT_KNOWN)


GLUED = "gate window came loose"
LOOSE = "gate window came loose again"


def window(shop: Shop, *more: str) -> tuple[Snapshot, Failure]:
    """Let a window come loose that was to be glued in, then another piece of it."""
    shop.asked("part", "gate")
    shop.asked("piece", "gate")
    shop.asked("failure", "gate", GLUED, "--piece", "1", "--cure", "clamp it for a day")
    shop.asked("piece", "gate")
    for words in more:
        shop.asked("say", words, "--yes")
    shop.asked("failure", "gate", LOOSE, "--piece", "2")
    snapshot = Project.open(shop.folder).snapshot
    return snapshot, next(one for one in snapshot.all(Failure) if one.title == GLUED)


def test_a_piece_made_since_is_not_taken_to_have_the_cure(sole: Shop) -> None:
    assert helped(*window(sole)) == NOT_KNOWN


def test_a_piece_of_which_the_work_is_told_has_the_cure(sole: Shop) -> None:
    found = window(sole, "reworked gate-2, clamped it for a day")
    assert helped(*found) == f"tried, and it came back (“{LOOSE}”)"


def test_the_cured_piece_itself_has_it_unless_it_was_left_as_it_was(
    sole: Shop,
) -> None:
    window(sole)
    sole.asked("failure", "gate", LOOSE, "--piece", "1")
    snapshot = Project.open(sole.folder).snapshot
    entry = next(one for one in snapshot.all(Failure) if one.title == GLUED)
    assert helped(snapshot, entry) == f"tried, and it came back (“{LOOSE}”)"
    sole.asked("dispose", entry.id, "scrap")
    snapshot = Project.open(sole.folder).snapshot
    entry = next(one for one in snapshot.all(Failure) if one.title == GLUED)
    assert helped(snapshot, entry) == NOT_TRIED
