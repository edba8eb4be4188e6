"""Faults told in plain words: what they name decides which releases have them."""

from __future__ import annotations

import pytest

from logbook.advice.faults.applies import NOT_KNOWN
from logbook.records.kinds import design
from tests.publish.errata_data import as_data
from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")


def tell(stand: Stand, title: str, do_this: str) -> None:
    """Note what is wrong, and answer what is offered for it."""
    assert stand.run("note", title)[0] == 0
    code, said = stand.run("offered", "take", title, do_this)
    assert code == 0, said


def stands(stand: Stand, title: str) -> list[str]:
    rows = as_data(stand, "1.0")["matrix"]["rows"]
    found = next(row["stands"] for row in rows if row["title"] == title)
    return [str(words) for words in found]


def test_a_fault_of_a_step_is_not_known_where_the_step_changed(stand: Stand) -> None:
    title = "step 1 names a shim that has no file"
    tell(stand, title, "cut it from card")
    assert stand.run("release", "1.2")[0] == 0
    has = "way round available"
    assert stands(stand, title)[-1] == has
    assert stand.run("step", "Fold the base", "--tool", "shim")[0] == 0
    assert stand.run("release", "1.3", "--anyway")[0] == 0
    assert stands(stand, title)[-1] == "not known"


def test_a_fault_of_a_file_stays_until_the_file_changes(stand: Stand) -> None:
    title = "crossbar.dxf shows nothing when opened"
    tell(stand, title, "scale it by 25.4")
    assert stand.run("release", "1.2")[0] == 0
    has = "way round available"
    assert stands(stand, title) == [has, has, has]
    guide = stand.run("guide", "1.2", "--print")[1]
    assert "crossbar.dxf – **Known fault 1**" in guide
    assert "Each is marked below" in guide
    stand.draw("crossbar", "179.7, in millimetres")
    stand.commit_files("Draw the crossbar in millimetres")
    draft = stand.begin()
    part = draft.snapshot.lookup("crossbar", design.Part)
    draft.new_revision(part, changed="in millimetres", files=stand.file("crossbar"))
    stand.keep(draft, "revision: crossbar rev A")
    assert stand.run("release", "1.3")[0] == 0
    assert stands(stand, title) == [has, has, has, "not affected"]


def test_a_fault_that_names_nothing_is_not_known_of_later_releases(
    stand: Stand,
) -> None:
    title = "the guide lacks a word on levelling it"
    tell(stand, title, "level it")
    assert stand.run("release", "1.2")[0] == 0
    assert stands(stand, title)[-1] == NOT_KNOWN
    guide = stand.run("guide", "1.1", "--print")[1]
    assert "The guide lacks a word on levelling it" in guide
    assert "arked below where" not in guide
