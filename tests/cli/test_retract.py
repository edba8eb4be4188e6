"""A failure that was none, and a decision not kept to, stay as notes that say so."""

from __future__ import annotations

import pytest

from logbook.project import Project
from logbook.records.kinds.happenings import Decision, Failure, Note
from logbook.records.kinds.workshop import Piece
from tests.cli.shop import Shop


def test_it_is_found_and_says_why_but_is_in_no_list_of_faults(shop: Shop) -> None:
    shop.logbook("measure", "lid", "length", "120.2")
    shop.logbook(
        "failure",
        "lid",
        "does not lie flat",
        "--cure",
        "bend it",
        "--met-by",
        "drawing",
    )
    assert "does not lie flat" in shop.logbook("verdicts").out
    said = shop.logbook("retract", "does not lie flat", "--because", "a chip was under")
    assert said.code == 0
    assert "retracted: does not lie flat" in said.out
    snapshot = Project.open(shop.folder).snapshot
    assert not snapshot.all(Failure)
    [note] = snapshot.all(Note)
    assert note.prose.startswith(
        "Retracted, because a chip was under; it was logged as a failure."
    )
    assert "- cure: bend it" in note.prose
    assert note.part is not None
    assert note.part.name == "lid"
    assert "does not lie flat" not in shop.logbook("verdicts").out
    assert "does not lie flat" in shop.logbook("search", "chip").out
    assert shop.logbook("check").code == 0
    assert shop.git("status", "--porcelain", "as-built") == ""


def test_undo_makes_it_a_failure_again(shop: Shop) -> None:
    shop.logbook("failure", "lid", "cracked", "--met-by", "piece")
    [before] = Project.open(shop.folder).snapshot.all(Failure)
    shop.logbook("retract", "cracked")
    assert not Project.open(shop.folder).snapshot.all(Piece), "it alone had made it"
    assert shop.logbook("undo").code == 0
    snapshot = Project.open(shop.folder).snapshot
    assert snapshot.all(Failure) == (before,)
    assert len(snapshot.all(Piece)) == 1


def test_a_known_fault_that_came_of_it_is_named(shop: Shop) -> None:
    shop.logbook("measure", "lid", "length", "120.2")
    shop.logbook("failure", "lid", "cracked", "--met-by", "drawing")
    shop.logbook("release", "1.0", "--anyway")
    assert shop.logbook("erratum", "cracked").code == 0
    said = shop.logbook("retract", "cracked", "--because", "it was a scratch")
    assert "still tells it; take it out by: logbook erratum " in said.out
    words = said.out.partition("logbook ")[2].split()[:4]
    assert shop.logbook(*words).code == 0


def test_a_decision_is_not_kept_to(shop: Shop) -> None:
    shop.logbook("decision", "round the corners of the lid", "--because", "they catch")
    assert shop.logbook("retract", "round the corners of the lid").code == 0
    snapshot = Project.open(shop.folder).snapshot
    assert not snapshot.all(Decision)
    [note] = snapshot.all(Note)
    assert note.prose == (
        "Retracted; it was logged as a decision.\n\n- because: they catch"
    )


@pytest.mark.parametrize("name", ["lid", "nothing"])
def test_what_is_neither_is_refused(shop: Shop, name: str) -> None:
    shop.logbook("part", "lid")
    assert shop.logbook("retract", name).code != 0
