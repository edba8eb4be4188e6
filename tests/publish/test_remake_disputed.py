"""Where a revision and a known fault say opposite of making it again: one answer.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import pytest

from tests.publish.bowed import CRACK
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

SOFT = "crossbar too soft"


def soft(stand: Stand, again: str) -> None:
    told(stand, "build", "build 2")
    blame = ("--met-by", "drawing", "--do", "scrap")
    told(stand, "failure", "crossbar", SOFT, *blame)
    told(stand, "erratum", SOFT, "--remake", again)


def stiffer(stand: Stand, again: str) -> None:
    words = ("--changed", "of steel", "--why", "it was soft", "--remake", again)
    told(stand, "revise", "crossbar", *words)
    told(stand, "release", "1.2", "--anyway")


def half_way(stand: Stand, *words: str) -> str:
    page = stand.run(*words, "--print")[1]
    return page.partition("**Begun, not finished?** ")[2].partition("\n## ")[0]


def checked(stand: Stand) -> list[str]:
    said = stand.look("check")[1]
    return [line for line in said.splitlines() if ": make it again? " in line]


@pytest.mark.parametrize("page", ["errata", "guide"])
def test_an_unchanged_part_that_is_made_again_is_not_to_be_kept(
    stand: Stand, page: str
) -> None:
    soft(stand, "yes")
    said = half_way(stand, page, "1.0")
    assert "made again all the same, against a known fault that it has there" in said
    assert "too: crossbar. Read first what is said against that." in said
    assert "Keep it" not in said


def test_an_unchanged_part_that_is_not_made_again_is_kept(stand: Stand) -> None:
    soft(stand, "no")
    said = half_way(stand, "errata", "1.0")
    assert "known fault there too: crossbar. Keep it, and do what is" in said
    assert "all the same" not in said


def test_the_yes_of_a_fault_decides_over_the_no_of_a_revision(stand: Stand) -> None:
    soft(stand, "yes")
    stiffer(stand, "no")
    yes = f"yes, against “{SOFT}”"
    assert f"  - Crossbar: {yes}." in half_way(stand, "errata", "1.1")
    assert f"first issue: {yes}" in stand.run("guide", "1.2", "--print")[1]
    assert "Make it again? **Yes.**" in stand.run("errata", "1.1", "--print")[1]


def test_the_yes_of_a_fault_decides_over_a_revision_that_says_only_if(
    stand: Stand,
) -> None:
    soft(stand, "yes")
    stiffer(stand, "only if it bends")
    yes = f"yes, against “{SOFT}”"
    assert f"  - Crossbar: {yes}." in half_way(stand, "errata", "1.1")
    assert f"first issue: {yes}" in stand.run("guide", "1.2", "--print")[1]
    (line,) = checked(stand)
    assert "crossbar rev A says only if it bends; the pages say yes." in line
    assert '--remake "only if it bends", or write remake = "yes"' in line


def test_a_fault_that_says_no_leaves_the_only_if_to_the_revision(stand: Stand) -> None:
    soft(stand, "no")
    stiffer(stand, "only if it bends")
    said = "only if it bends; against its known faults not needed"
    assert f"  - Crossbar: {said}." in half_way(stand, "errata", "1.1")
    assert "the pages say both" in checked(stand)[0]


def test_check_names_who_says_the_opposite_and_how_to_say_one(stand: Stand) -> None:
    soft(stand, "yes")
    assert not checked(stand)
    stiffer(stand, "no")
    (line,) = checked(stand)
    assert line.startswith(
        f"{SOFT}: make it again? This known fault says yes, crossbar rev A says no; "
        "the pages say yes."
    )
    told(stand, "erratum", SOFT, "--remake", "no")
    assert not checked(stand)


def test_a_revision_that_says_yes_and_all_its_faults_no_is_told_so(
    stand: Stand,
) -> None:
    assert "  - Diffuser: yes." in half_way(stand, "errata", "1.0")
    told(stand, "erratum", CRACK, "--remake", "no")
    yes = "yes, as diffuser rev A says; against its known faults not needed"
    assert f"  - Diffuser: {yes}." in half_way(stand, "errata", "1.0")
    (line,) = checked(stand)
    assert "This known fault says no, diffuser rev A says yes; the pages say" in line
