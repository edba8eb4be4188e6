"""An order of work that went out though it cannot be followed: said where it is read.

The scene is the copy stand; its later steps are invented.
"""

from __future__ import annotations

import json

import pytest

from tests.publish.stand import Stand, page, told

pytestmark = pytest.mark.xdist_group("publish")

TOO_LATE = "lamp cable would still be outside when it closes"
CLOSING = "step 3 (Screw the diffuser on)"
SAID = f"step 4 (Lay the cable) has to come before {CLOSING}: {TOO_LATE}"
NUMBERED = "The steps of this release cannot all be done as they are numbered"


@pytest.fixture
def gone_past(stand: Stand) -> Stand:
    """Give a stand whose 1.2 closes over the cable before that is laid."""
    told(stand, "step", "Lay the cable", "--number", "9", "--uses", "lamp cable")
    told(stand, "override", "Lay the cable", "--because", "it goes in from the side")
    told(stand, "release", "1.2")
    return stand


def test_the_guide_says_it_before_the_steps_and_at_both_of_them(
    gone_past: Stand,
) -> None:
    steps = page(gone_past, "guide", "1.2").partition("## Steps")[2]
    before, close, lay = (
        steps.partition("### 1. ")[0],
        steps.partition("### 3. ")[2].partition("### 4. ")[0],
        steps.partition("### 4. ")[2],
    )
    assert f"{NUMBERED}: {SAID}." in before
    assert f"> **ORDER** First do step 4 (Lay the cable): {TOO_LATE}." in close
    assert f"> **ORDER** Do this before {CLOSING}: {TOO_LATE}." in lay


def test_the_known_faults_of_that_release_say_it_and_so_does_the_readme_line(
    gone_past: Stand,
) -> None:
    text = page(gone_past, "errata", "1.2")
    assert f"> **ORDER** {NUMBERED}: {SAID}." in text
    facts = json.loads(gone_past.run("errata", "1.2", "--json")[1])
    assert facts["releases"][0]["too_soon"] == [SAID]
    line = told(gone_past, "errata", "1.2")
    assert "its steps cannot all be done as numbered" in line
    every = page(gone_past, "errata", "--all")
    assert every.count(SAID) == 1


def test_releases_in_which_it_can_be_followed_say_nothing(gone_past: Stand) -> None:
    told(gone_past, "step", "Lay the cable", "--number", "2")
    told(gone_past, "release", "1.3")
    for label in ("1.1", "1.3"):
        for kind in ("guide", "errata"):
            assert "ORDER" not in page(gone_past, kind, label)
    assert "**ORDER** First do step 4" in page(gone_past, "guide", "1.2")


def test_what_was_released_decides_though_its_steps_were_put_right_since(
    gone_past: Stand,
) -> None:
    told(gone_past, "step", "Lay the cable", "--number", "9", "--uses", "lamp")
    assert TOO_LATE in page(gone_past, "errata", "1.2")


def test_steps_that_wait_for_each_other_are_not_told_to_go_one_before_the_other(
    stand: Stand,
) -> None:
    told(stand, "step", "Lay the cable", "--number", "9", "--uses", "lamp cable",
         "--after", "Screw the diffuser on")  # fmt: skip
    told(stand, "release", "1.2", "--anyway")
    text = page(stand, "guide", "1.2").partition("### 4. ")[2]
    assert "wait for each other" in text
    assert "Do this before" not in text
