"""A revision can follow two that were opened beside each other, and has what both have.

The scene is the copy stand; what the two clones changed is invented.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.records.kinds.design import Part, Revision
from logbook.records.together.revisions import revisions_of
from tests.publish.stand import Stand, page, told

pytestmark = pytest.mark.xdist_group("publish")


def beside(stand: Stand, *more: str) -> Stand:
    """Open base rev A, and rev B beside it as another clone would."""
    told(stand, "revise", "base", "--changed", "opening 181", "--why", "it bound",
         "--dimension", "opening=181.0 ±1.2", "--remake", "no")  # fmt: skip
    feet = ("--changed", "feet", "--why", "it rocks", "--remake", "no")
    told(stand, "revise", "base", *feet, *more)
    draft = stand.begin()
    part = draft.snapshot.lookup("base", Part)
    first, _, second = revisions_of(draft.snapshot, part)
    draft.amend(replace(second, follows=first.ref))
    stand.keep(draft, "opened in another clone")
    return stand


def newest(stand: Stand) -> Revision:
    snapshot = stand.project.snapshot
    return revisions_of(snapshot, snapshot.lookup("base", Part))[-1]


def test_what_ends_the_two_branches_is_one_line(stand: Stand) -> None:
    check = beside(stand).look("check")[1]
    assert "logbook revise base --joins 'base rev A'" in check
    told(stand, "revise", "base", "--joins", "base rev A", "--remake", "no")
    assert newest(stand).joins[0].name == "base rev A"
    assert "opened beside each other" not in stand.look("check")[1]


def test_the_guide_says_what_came_in_and_whether_older_ones_are_made_again(
    stand: Stand,
) -> None:
    told(beside(stand), "revise", "base", "--joins", "base rev A", "--remake", "no")
    guide = page(stand, "guide", "--draft")
    assert "has what base rev A (opening 181) changed, too" in guide
    assert "| opening (matters) | 181.0 mm |" in guide
    row = next(x for x in guide.splitlines() if x.startswith("| base rev C"))
    assert "rev B or rev A or first issue: no" in row


def test_a_size_both_change_is_asked_for(stand: Stand) -> None:
    beside(stand, "--dimension", "opening=180.5 ±1.2")
    code, said = stand.run("revise", "base", "--joins", "base rev A")
    assert code == 2
    assert "base rev B and base rev A both change opening" in said
    told(stand, "revise", "base", "--joins", "base rev A", "--dimension", "opening=181")
    assert newest(stand).joins


def test_a_material_both_name_is_asked_for(stand: Stand) -> None:
    beside(stand, "--material", "brass")
    draft = stand.begin()
    other = draft.snapshot.lookup("base rev A", Revision)
    draft.amend(replace(other, material="steel"))
    stand.keep(draft, "of steel")
    code, said = stand.run("revise", "base", "--joins", "base rev A")
    assert code == 2
    assert "both name a material; accepted: say which it is to be" in said


def test_one_that_it_has_already_is_refused(stand: Stand) -> None:
    told(stand, "revise", "base", "--changed", "feet", "--why", "it rocks")
    code, said = stand.run("revise", "base", "--joins", "base rev A")
    assert code == 2
    assert "base rev A has what base rev A changed" in said
