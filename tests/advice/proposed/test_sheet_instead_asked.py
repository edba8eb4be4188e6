"""Sheet taken in place of the drawn one is asked about: is the part so thick?

Sizes are invented; 0.063 in is a size that sheet is sold in (from memory).
"""

from __future__ import annotations

import pytest

from logbook.project import Project
from logbook.records.kinds.happenings import Deviation, Run
from logbook.records.kinds.words import Blame, Disposition
from logbook.records.kinds.workshop import Piece
from tests.cli.shop import Shop

LINE = "bought 0.063 in aluminium sheet instead of 2.0 mm for the base"


@pytest.fixture
def older(shop: Shop) -> Shop:
    """A build by release 1.0, the base revised since; a joint through it."""
    shop.asked("part", "base", "--thickness", "2.0 mm", "--material", "aluminium")
    shop.asked("part", "collar")
    layers = ("--layer", "collar=6 mm", "--layer", "base=2 mm", "--nut", "plain")
    shop.asked("joint", "collar to base", "M4x16", *layers)
    shop.asked("release", "1.0", "--anyway", "--when", "2026-03-01T10:00")
    slots = ("--changed", "slots", "--why", "it moves", "--when", "2026-03-01T11:00")
    shop.asked("revise", "base", *slots)
    shop.asked("build", "shed-1", "--of", "1.0", "--when", "2026-03-02T10:00")
    return shop


def offers(shop: Shop) -> list[str]:
    return [one["asks"] for one in shop.asked("offered")["offered"]]


@pytest.mark.parametrize(
    ("answer", "blame"),
    [("yes", Blame.PIECE), ("it is what is sold here", Blame.DRAWING)],
)
def test_it_is_the_thickness_of_the_piece_and_joints_count_with_it(
    older: Shop, answer: str, blame: Blame
) -> None:
    assert older.logbook("say", "--yes", LINE).code == 0
    [question] = [one for one in offers(older) if "thick, drawn" in one]
    assert question.endswith("is the base of shed-1 0.063 in thick, drawn 2.0 mm?")
    mark = [one["id"] for one in older.asked("offered")["offered"]
            if one["asks"] == question]  # fmt: skip
    older.asked("offered", "take", mark[0], answer)
    snapshot = Project.open(older.folder).snapshot
    [piece], [off] = snapshot.all(Piece), snapshot.all(Deviation)
    assert piece.revision is not None
    assert piece.revision.name == "base first issue"  # what its build is made by
    assert [str(one) for one in (off.wanted, off.found)] == ["2.0 mm", "0.063 in"]
    assert (off.met_by_others, off.disposition) == (blame, Disposition.USE_AS_IS)
    assert not snapshot.all(Run)  # told, and read by no instrument
    [joint] = older.asked("joints")["advice"]
    assert "base 0.063 in as found" in joint["assumed"]
    assert not [one for one in offers(older) if "thick, drawn" in one]


@pytest.mark.parametrize(
    "line",
    [
        "next time 1.5 mm sheet instead of 2.0 for the base",  # of the design
        "bought 0.063 in sheet instead of 3 mm for the base",  # not what is drawn
        "bought 2 mm sheet instead of 2.0 mm for the base",  # the same
        "bought 5052 sheet instead of 6061 for the base",  # no thickness
        "used 6 mm plate instead of 1/4 in for the collar",  # none is drawn of it
    ],
)
def test_of_other_lines_nothing_is_asked(older: Shop, line: str) -> None:
    assert older.logbook("say", "--yes", "--as-note", line).code == 0
    assert not [one for one in offers(older) if "thick, drawn" in one]


def test_what_was_measured_already_is_not_asked(older: Shop) -> None:
    older.asked("measure", "base", "thickness", "1.6", "--nominal", "2.0")
    assert older.logbook("say", "--yes", "--as-note", LINE).code == 0
    assert not [one for one in offers(older) if "thick, drawn" in one]


@pytest.mark.parametrize(
    ("answer", "counts"), [("yes", False), ("sold, they had no other", True)]
)
def test_in_another_build_it_counts_only_where_others_meet_it(
    older: Shop, answer: str, counts: bool
) -> None:
    assert older.logbook("say", "--yes", LINE).code == 0
    [mark] = [one["id"] for one in older.asked("offered")["offered"]
              if "thick, drawn" in one["asks"]]  # fmt: skip
    older.asked("offered", "take", mark, answer)
    older.asked("build", "build 2")
    [joint] = older.asked("joints")["advice"]
    assert ("base 0.063 in as found" in joint["assumed"]) == counts
