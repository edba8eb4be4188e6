"""A fix that failed: what its makers and those before them read, from every page.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import pytest

from tests.publish.bowed import CRACK, fault, told
from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")

AGAIN = "diffuser cracked again"


def failed(stand: Stand, *more: str) -> None:
    """Let what was to cure it fail in the same way, in the second build."""
    told(stand, "build", "build 2")
    blame = ("--met-by", "drawing", "--do", "scrap")
    told(stand, "failure", "diffuser", AGAIN, *blame, *more)


def test_what_was_named_since_is_told_with_the_instruction_as_untried(
    stand: Stand,
) -> None:
    failed(stand, "--cure", "clamp it with a bar")
    named = f"and it came back: {AGAIN}. Cure named, not tried yet: clamp it with a bar"
    assert fault(stand, CRACK, "1.0")["do_this"].endswith(named)
    for label in ("1.0", "1.1"):
        guide = stand.run("guide", label, "--print")[1]
        boxes = [one for one in guide.splitlines() if one.startswith("> **KNOWN FAULT")]
        assert boxes
        assert all(named in one for one in boxes)


def test_the_file_of_the_fix_is_marked_where_the_part_is_made(stand: Stand) -> None:
    told(stand, "erratum", CRACK)
    failed(stand)
    making = stand.run("guide", "1.1", "--print")[1].partition("### Diffuser\n")[2]
    making = making.partition("\n### ")[0]
    assert making.lstrip().startswith("> **KNOWN FAULT 1** Diffuser cracked")
    assert "- **File**: drawings/diffuser.dxf – **Known fault 1**" in making


def test_a_revision_said_to_have_it_too_tells_how_to_know_it(stand: Stand) -> None:
    told(stand, "build", "build 2")
    told(stand, "failure", "diffuser", "diffuser rattles", "--met-by", "drawing")
    told(stand, "erratum", "diffuser rattles", "--revision", "diffuser first issue")
    found = fault(stand, "diffuser rattles", "1.0")["how_to_tell"]
    assert found.startswith("it was made from diffuser rev A (drawings/diffuser.dxf, ")
    assert "; or it was made from diffuser first issue (drawings/" in found


def test_what_a_line_says_besides_cause_and_cure_is_not_lost(stand: Stand) -> None:
    line = "diffuser split at the left screw, the hole is drawn 5 mm from the edge"
    cure = ("--cure", "drill 5 mm holes 12 mm from the edge", "--met-by", "drawing")
    told(stand, "build", "build 2")
    told(stand, "failure", "diffuser", line, *cure)
    found = fault(stand, "diffuser split at the left screw", "1.1")
    assert found["symptom"] == "the hole is drawn 5 mm from the edge"
    notes = stand.run("notes", "--print")[1]
    assert "- **Said with it**: the hole is drawn 5 mm from the edge." in notes


def test_each_thing_to_make_again_names_the_revision_to_take(stand: Stand) -> None:
    words = ("--do-this", "take diffuser rev A with pan heads")
    told(stand, "erratum", CRACK, *words)
    page = stand.run("errata", "1.0", "--print")[1]
    assert "Make it again? **Yes.** Take diffuser rev A (release 1.1; untried:" in page


# -- a way round that the revision did not take ------------------------------------

SPLIT = "diffuser split at the left edge"
GLUE = "glue the split with solvent cement and hold it for an hour"
FILLET = "3 mm fillet at the left edge"


def filleted(stand: Stand) -> None:
    """Let a revision that did something else than the way round fail too."""
    told(stand, "build", "build 2")
    blame = ("--met-by", "drawing", "--do", "scrap")
    told(stand, "failure", "diffuser", SPLIT, "--cure", GLUE, *blame)
    because = ("--because", SPLIT, "--why", "it split at the edge", "--remake", "yes")
    told(stand, "revise", "diffuser", "--changed", FILLET, *because)
    told(stand, "release", "1.2", "--anyway")
    told(
        stand, "failure", "diffuser", f"{SPLIT} again, the fillet did not help", *blame
    )


@pytest.mark.parametrize("saved", [False, True])
def test_a_way_round_is_not_said_to_be_done_in_a_revision_that_did_something_else(
    stand: Stand, *, saved: bool
) -> None:
    filleted(stand)
    if saved:
        told(stand, "erratum", SPLIT)
    found = fault(stand, SPLIT, "1.1")
    do = found["do_this"]
    assert f"diffuser rev B ({FILLET}; release 1.2) was to, and it came back: " in do
    assert do.endswith(f"Meanwhile: {GLUE} (cure named, not tried yet)")
    assert found["way_round"] == "way round available"
    notes = stand.run("notes", "--print")[1]
    assert f"Cure named, not tried yet**: {GLUE}." in notes
    pages = [stand.run("guide", label, "--print")[1] for label in ("1.1", "1.2")]
    pages += [stand.run("errata", label, "--print")[1] for label in ("1.1", "1.2")]
    assert all(GLUE in page and "was done in" not in page for page in pages)


def test_a_way_round_that_was_done_on_a_piece_of_the_revision_was_tried(
    stand: Stand,
) -> None:
    filleted(stand)
    work = ("rework", "--because", "glued the split with solvent cement")
    told(stand, "dispose", "diffuser-3", *work)
    told(stand, "failure", "diffuser", f"{SPLIT} again", "--met-by", "drawing")
    found = fault(stand, SPLIT, "1.1")
    assert f"“{GLUE}” was done in diffuser rev B" in found["do_this"]
    assert found["way_round"] == "no way round that has held"
