"""Who shops by the list of a release sees a known fault at what it is wrong to buy.

The scene is the copy stand; its hardware and failures are invented.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.records.kinds import assembling
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

TORE = "base tore at the flat rivet"


@pytest.fixture
def riveted(stand: Stand) -> Stand:
    """Give a stand whose 1.2 has rivets and clips, and 1.3 neither of them."""
    for bought in ("flat rivet", "spring clip", "brass pin"):
        told(stand, "part", bought, "--source", "bought")
        told(stand, "line", bought, "4")
    told(stand, "release", "1.2", "--anyway")
    told(stand, "build", "build 2")
    told(stand, "failure", "base", TORE, "--met-by", "drawing", "--do", "scrap")
    told(stand, "line", "flat rivet", "0")
    told(stand, "line", "spring clip", "0")
    told(stand, "revise", "base", "--changed", "screw holes", "--because", TORE,
         "--remake", "yes")  # fmt: skip
    draft = stand.begin()
    joint = draft.snapshot.lookup("diffuser to base", assembling.Joint)
    draft.amend(replace(joint, head="pan"))
    stand.keep(draft, "joint: pan heads")
    told(stand, "release", "1.3", "--anyway")
    return stand


def rows(stand: Stand, release: str) -> dict[str, str]:
    page = stand.run("guide", release, "--print")[1]
    found = (line for line in page.splitlines() if line.startswith("| "))
    return {line[2:].split(" – ")[0].split(" | ")[0]: line for line in found}


def test_what_the_words_of_a_fault_name_and_its_cure_does_without_is_marked(
    riveted: Stand,
) -> None:
    here = rows(riveted, "1.2")
    assert "| flat rivet – **Known fault 1** |" in here["flat rivet"]
    for other in ("spring clip", "brass pin"):
        assert "Known fault" not in here[other], other
    assert "Known fault" not in " ".join(rows(riveted, "1.3").values())


def test_a_joint_is_marked_where_its_fastener_is_what_went_wrong(
    riveted: Stand,
) -> None:
    # The crack is cured in 1.1 already: its joint is marked where it was another then.
    assert "Known fault" not in rows(riveted, "1.2")["diffuser to base"]
    told(riveted, "failure", "diffuser", "diffuser chipped by the countersunk head",
         "--met-by", "drawing", "--do", "scrap")  # fmt: skip
    told(riveted, "revise", "diffuser", "--changed", "pan heads", "--because",
         "diffuser chipped by the countersunk head", "--remake", "yes")  # fmt: skip
    told(riveted, "release", "1.4", "--anyway")
    assert (
        "diffuser to base – **Known fault" in rows(riveted, "1.2")["diffuser to base"]
    )
