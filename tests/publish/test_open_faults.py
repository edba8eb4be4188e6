"""What nobody has said yet stands on the pages of a release as an open question.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import pytest

from logbook.records.kinds import assembling, happenings
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import Blame
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

ON = "Screw the diffuser on"


def fails(stand: Stand, title: str, step: str = "", cure: str = "") -> None:
    """Log a failure of no part, perhaps at a step, that nobody has answered for."""
    draft = stand.begin()
    at = draft.snapshot.lookup(step, assembling.Step).ref if step else None
    draft.add(
        happenings.Failure(
            id=new_id(),
            title=title,
            when=draft.when,
            step=at,
            cure=cure,
            met_by_others=Blame.UNKNOWN,
        )
    )
    stand.keep(draft, f"failure: {title}")


def opened(stand: Stand, label: str) -> str:
    """Give what guide and page of known faults of a release say is open."""
    guide = told(stand, "guide", label, "--print")
    errata = told(stand, "errata", label, "--print")
    one = guide.partition("## May be wrong too")[2].partition("\n## ")[0]
    two = errata.partition("## Seen on the bench")[2].partition("\n## ")[0]
    for line in two.splitlines():
        assert not line.startswith("- ") or line in one
    return one


def test_nothing_open_says_nothing(stand: Stand) -> None:
    assert opened(stand, "1.1") == ""
    assert "Seen on the bench" not in told(stand, "errata", "1.1", "--print")


def test_a_fault_of_a_step_nobody_has_answered_for_is_in_every_release_that_has_it(
    stand: Stand,
) -> None:
    told(stand, "step", "Oil the bed", "--uses", "base")
    fails(stand, "the screws seize", ON, "a drop of oil")
    fails(stand, "the oil runs out at the side", "Oil the bed")
    told(stand, "release", "1.2", "--anyway")
    seize = (
        f"- **The screws seize.** Found on step “{ON}”. "
        "Cure named, not known to hold: a drop of oil."
    )
    for label in ("1.0", "1.1", "1.2"):
        assert seize in opened(stand, label)
    assert "The oil runs out" not in opened(stand, "1.1")
    assert "The oil runs out at the side." in opened(stand, "1.2")


def test_a_fault_of_the_whole_list_is_open_in_every_release(stand: Stand) -> None:
    fails(stand, "the list has one washer too few")
    for label in ("1.0", "1.1"):
        assert "- **The list has one washer too few.**\n" in opened(stand, label)


def test_a_fault_of_a_part_is_open_in_the_releases_of_its_revision(
    stand: Stand,
) -> None:
    told(stand, "build", "build 2")
    told(stand, "failure", "diffuser", "diffuser yellows", "--met-by", "unknown")
    assert "- **Diffuser yellows.** Found on diffuser rev A." in opened(stand, "1.1")
    assert "yellows" not in opened(stand, "1.0")
    told(stand, "met", "diffuser yellows", "piece")
    assert opened(stand, "1.1") == ""
    told(stand, "met", "diffuser yellows", "drawing")
    assert opened(stand, "1.1") == ""
    assert "Diffuser yellows" in told(stand, "guide", "1.1", "--print")


def test_a_known_fault_that_may_still_be_there_is_told_in_the_guide_too(
    stand: Stand,
) -> None:
    changed = ("--changed", "rounded corners", "--remake", "no")
    told(stand, "build", "build 2")
    told(stand, "failure", "base", "base scratches the desk", "--met-by", "drawing")
    told(stand, "revise", "base", *changed)
    told(stand, "release", "1.2", "--anyway")
    assert "- **Base scratches the desk.** Found on base first issue." in (
        opened(stand, "1.2")
    )


def test_a_size_nobody_knows_of_is_told_with_its_limits_and_the_first_id_is_an_example(
    stand: Stand,
) -> None:
    odd = (
        "deviation",
        "diffuser",
        "--dimension",
        "hole to edge",
        "--met-by",
        "unknown",
    )
    for size in ("4.1", "3.9"):
        done = stand.run(*odd[:2], f"hole at {size} mm", *odd[2:], "--found", size)
        assert done[0] == 0, done
    within = "which is inside the limits that hold: ±0.3 mm (ISO 2768-c)."
    for page in (("errata", "1.1"), ("guide", "1.1")):
        assert within in stand.run(*page, "--print")[1]
    asked = stand.look("check")[1]
    assert "say it of each by its id, of the first with: logbook met " in asked
