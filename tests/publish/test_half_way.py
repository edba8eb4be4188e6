"""Who has begun by an older release reads what to keep, and by what to go on.

The scene is the copy stand; all of it is invented.
"""

from __future__ import annotations

import pytest

from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

LEAD = "**Begun, not finished?** "


def begun(stand: Stand, *words: str) -> list[str]:
    page = stand.run(*words, "--print")[1]
    if LEAD not in page:
        return []
    return page.partition(LEAD)[2].partition("\n## ")[0].strip().splitlines()


@pytest.mark.parametrize("page", ["errata", "guide"])
def test_what_is_made_is_kept_or_made_anew_and_the_rest_by_the_newer(
    stand: Stand, page: str
) -> None:
    lines = begun(stand, page, "1.0")
    assert lines[0].startswith("Go on by [release 1.1](../1.1/guide.md): what is left")
    assert "- Keep what you have made of base, crossbar: unchanged." in lines
    stop = "- Stop making by this release: diffuser. Have you made one already, make it"
    at = lines.index(f"{stop} again?")
    assert lines[at + 1] == "  - Diffuser: yes."
    assert not begun(stand, page, "1.1")


def test_what_the_newer_has_new_and_needs_no_more_is_said(stand: Stand) -> None:
    told(stand, "part", "peg", "--process", "sawing", "--material", "beech")
    told(stand, "line", "peg", "1")
    told(stand, "release", "1.2", "--anyway")
    told(stand, "part", "shim", "--process", "sawing", "--material", "beech")
    told(stand, "line", "peg", "0")
    told(stand, "failure", "base", "base tore", "--met-by", "drawing")
    told(stand, "release", "1.3", "--anyway")
    lines = begun(stand, "errata", "1.2")
    assert "- To make that this release has not: shim." in lines
    assert "- Not needed there, stop making or buying it: peg." in lines
    faulty = "- Unchanged, and with a known fault there too: base."
    assert any(line.startswith(faulty) for line in lines)


def test_a_change_that_no_known_fault_tells_of_is_told_with_its_reason(
    stand: Stand,
) -> None:
    words = ("--changed", "slots but for one", "--why", "beech moves")
    told(stand, "revise", "crossbar", *words, "--remake", "only if it binds")
    told(stand, "release", "1.2", "--anyway")
    lines = begun(stand, "errata", "1.0")
    bar = next(one for one in lines if one.startswith("  - Crossbar: "))
    changed = "changed is: slots but for one, because beech moves."
    assert bar.endswith(f" Not for a known fault; {changed}")
    assert "  - Diffuser: yes." in lines, "a known fault tells of it below"


def test_nobody_is_sent_on_to_a_newer_release_that_is_worse(stand: Stand) -> None:
    told(stand, "failure", "diffuser", "diffuser bowed", "--met-by", "drawing")
    told(stand, "erratum", "diffuser bowed", "--stop-using-until", "it is flat")
    assert not begun(stand, "errata", "1.0")
    assert not begun(stand, "guide", "1.0")
