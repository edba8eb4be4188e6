"""A release says before it goes out what its pages will say.

The scene is the copy stand; its bolts and failures are invented.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.records.kinds import assembling
from logbook.records.kinds.design import Part
from tests.publish.stand import Stand, q, told

pytestmark = pytest.mark.xdist_group("publish")


def checked(stand: Stand) -> str:
    return stand.look("release", "1.2", "--check")[1]


def test_known_faults_that_are_only_got_round_are_named_too(stand: Stand) -> None:
    assert "does not cure itself" not in checked(stand)
    cure = ("--cure", "file the corner", "--do", "use as is")
    told(stand, "failure", "base", "base rocks", "--met-by", "drawing", *cure)
    carried = "1.2 carries 1 known fault that it does not cure itself: base rocks"
    assert carried in checked(stand)


def test_a_step_that_uses_what_the_list_has_none_of_is_named(stand: Stand) -> None:
    told(stand, "part", "M5x16", "--source", "bought")
    told(stand, "line", "M5x16", "2")
    draft = stand.begin()
    fit = draft.snapshot.lookup("Fit the crossbar", assembling.Step)
    bolt = draft.snapshot.lookup("M5x16", Part)
    draft.amend(replace(fit, uses=(*fit.uses, bolt.ref)))
    stand.keep(draft, "step: the bolt")
    assert "uses M5x16" not in checked(stand)
    told(stand, "line", "M5x16", "0")
    assert "step “Fit the crossbar” uses M5x16, the list has none" in checked(stand)


def test_a_joint_its_guide_tells_to_check_is_named(stand: Stand) -> None:
    assert "joint diffuser to base: " not in checked(stand)
    draft = stand.begin()
    joint = draft.snapshot.lookup("diffuser to base", assembling.Joint)
    nutted = replace(joint, fastener="M3x8", nut="hexagon", nut_height=q("2.4"))
    draft.amend(nutted)
    stand.keep(draft, "joint: a nut")
    said = checked(stand)
    assert "joint diffuser to base: " in said
    assert "take M3x" in said


def test_a_part_that_came_since_is_new_and_not_a_changed_revision(stand: Stand) -> None:
    assert stand.run("part", "dimmer", "--source", "bought")[0] == 0
    said = stand.run("release", "1.2", "--anyway")[1]
    assert "parts new since 1.1: dimmer\n" in said
    assert "revisions changed since 1.1" not in said
    assert "revisions unchanged since 1.1: 4\n" in said
