"""What helped is what was done and held, not what was written down afterwards.

The scene is the copy stand; all of it is invented.
"""

from __future__ import annotations

import pytest

from tests.publish.stand import Stand, told
from tests.publish.test_amended import by_hand

pytestmark = pytest.mark.xdist_group("publish")

THICK = "diffuser 4.6 thick instead of 4, planed down at the shop"
PLANED, BOUGHT = "planed down at the shop", "buy 4 mm sheet"
HELPED, NOT_TRIED = "What helped", "Cure named, not tried yet"


def thick(stand: Stand) -> None:
    sizes = ("--dimension", "thickness", "--wanted", "4", "--found", "4.6")
    more = ("--met-by", "drawing", "--do", "rework", "--cure", PLANED)
    told(stand, "deviation", "diffuser", THICK, *sizes, *more)


def labelled(stand: Stand, label: str, cure: str) -> bool:
    return f"- **{label}**: {cure}." in stand.run("notes", "--print")[1]


def test_the_work_a_line_tells_of_helped(stand: Stand) -> None:
    thick(stand)
    assert labelled(stand, HELPED, PLANED)


@pytest.mark.parametrize(
    ("cure", "label"),
    [
        ("a rubber strip fixed it", HELPED),
        ("two washers under it, holds now", HELPED),
        ("a rubber strip should have fixed it", "Cure named, not known to hold"),
        ("a rubber strip", "Cure named, not known to hold"),
        ("squeezed it again with the small die and it held", HELPED),
        ("7 mm works", HELPED),
        ("press it in till it holds", "Cure named, not known to hold"),
        ("press it down and hold", "Cure named, not known to hold"),
        ("glued it, and it never held", "Cure named, not known to hold"),
    ],
)
def test_a_cure_that_says_itself_that_it_helped_is_not_called_unknown(
    stand: Stand, cure: str, label: str
) -> None:
    slips = ("failure", "base", "the base slips", "--met-by", "drawing")
    told(stand, *slips, "--cure", cure)
    assert labelled(stand, label, cure)


def test_what_a_line_says_behind_its_cure_is_believed(stand: Stand) -> None:
    for line, cure, label in (
        ("rubber came off, glued it again, it holds", "glued it again", HELPED),
        ("thread stripped, put in an insert, holds", "put in an insert", HELPED),
        ("foot fell off, pinned it, but it holds nothing", "pinned it",
         "Cure named, not known to hold"),
    ):  # fmt: skip
        told(stand, "failure", "base", line, "--met-by", "drawing", "--cure", cure)
        assert labelled(stand, label, cure), line


@pytest.mark.parametrize(
    ("came", "label"),
    [
        ("held for an hour", "What helped"),
        ("held for an hour, then let go", "Cure named, not known to hold"),
    ],
)
def test_a_cure_that_held_for_a_while_is_not_called_untried(
    stand: Stand, came: str, label: str
) -> None:
    cure = f"put 0.3 mm tape under it; {came}"
    scrapped = ("--met-by", "drawing", "--do", "scrap", "--cure", cure)
    told(stand, "failure", "base", "the base slips", *scrapped)
    assert labelled(stand, label, cure)


def test_a_cure_amended_after_the_rework_was_not_tried(stand: Stand) -> None:
    thick(stand)
    by_hand(stand, "deviations", f'cure = "{PLANED}"', f'cure = "{BOUGHT}"')
    assert labelled(stand, NOT_TRIED, BOUGHT)
    assert not labelled(stand, HELPED, BOUGHT)
    # Nor is it where the line was amended with it: what was read stands unchanged.
    by_hand(stand, "deviations", f"# {THICK}", "# diffuser is sold 4.6 thick")
    assert labelled(stand, NOT_TRIED, BOUGHT)


def test_a_cure_is_tried_once_the_work_on_record_is_what_it_names(
    stand: Stand,
) -> None:
    thick(stand)
    by_hand(stand, "deviations", f'cure = "{PLANED}"', 'cure = "sand it flat"')
    assert labelled(stand, NOT_TRIED, "sand it flat")
    told(stand, "dispose", THICK, "rework", "--because", "sanded flat")
    assert labelled(stand, HELPED, "sand it flat")


def test_a_piece_still_good_says_nothing_of_a_cure_it_has_not(stand: Stand) -> None:
    more = ("--met-by", "drawing", "--do", "use as is", "--cure", "round the slot ends")
    told(stand, "failure", "diffuser", "diffuser kinked at the slot", *more)
    told(stand, "status", "diffuser-2", "still good", "--after", "40 h")
    assert labelled(stand, NOT_TRIED, "round the slot ends")


def test_an_instruction_written_later_is_not_said_to_have_helped(stand: Stand) -> None:
    thick(stand)
    told(stand, "erratum", THICK)
    told(stand, "revise", "diffuser", "--changed", "5 mm plate")
    told(stand, "release", "1.2", "--anyway")

    def page() -> str:
        return stand.run("errata", "1.2", "--print")[1]

    assert f"What to do: as was done in build 1: “{PLANED}”." in page()
    told(stand, "erratum", THICK, "--do-this", BOUGHT)
    doubted = f"What to do: {BOUGHT} (nobody has said that it holds)."
    assert doubted in page()
    told(stand, "erratum", THICK, "--status", "way round published")
    assert doubted in page()
    told(stand, "erratum", THICK, "--status", "verified")
    assert f"What to do: {BOUGHT}." in page()


SAG, SPLIT = "diffuser sagged beside the lamp", "diffuser split at a slot"
THICKER, OTHER = "6 mm plate and a stiffener", "keep the lamp away from it"


def sagged(stand: Stand, cure: str) -> None:
    """Make a piece to the revision that cures a sag, named in these words."""
    told(stand, "failure", "diffuser", SAG, "--met-by", "drawing", "--cure", cure)
    told(stand, "revise", "diffuser", "--changed", THICKER, "--because", SAG)
    assert labelled_line(stand).startswith(f"- **{NOT_TRIED}**: {cure}. Corrected in ")
    told(stand, "piece", "diffuser")


def labelled_line(stand: Stand) -> str:
    notes = stand.run("notes", "--print")[1].partition(f"#### {SAG.capitalize()}")[2]
    lines = notes.partition("\n#### ")[0].split("\n")
    return next(x for x in lines if x.startswith(("- **Cure", "- **What", "- **Tried")))


@pytest.mark.parametrize("blame", ["drawing", "unknown", "piece"])
def test_a_cure_that_was_done_and_failed_otherwise_was_tried(
    stand: Stand, blame: str
) -> None:
    sagged(stand, THICKER)
    told(stand, "failure", "diffuser", SPLIT, "--met-by", blame, "--do", "scrap")
    done = "- **Cure done, and its piece failed otherwise**: "
    assert labelled_line(stand).startswith(
        f"{done}{THICKER}. Corrected in diffuser rev"
    )


@pytest.mark.parametrize("failed", [True, False])
def test_a_cure_in_other_words_than_its_revision_is_not_said_to_be_untried(
    stand: Stand, *, failed: bool
) -> None:
    sagged(stand, OTHER)
    if failed:
        told(stand, "failure", "diffuser", SPLIT, "--met-by", "drawing")
    assert labelled_line(stand).startswith(
        f"- **Cure named, not known to hold**: {OTHER}"
    )


def test_a_cure_done_at_a_step_since_is_not_said_to_be_untried(stand: Stand) -> None:
    cure = "M3x12 instead of M3x10; check what is behind it"
    more = ("--met-by", "drawing", "--do", "use as is", "--cure", cure)
    told(stand, "failure", "diffuser", "diffuser sheet came too thick", *more)
    assert labelled(stand, NOT_TRIED, cure)
    told(stand, "say", "fitted the diffuser with M3x10", "--yes")
    assert labelled(stand, NOT_TRIED, cure)
    told(stand, "say", "fitted the diffuser with M3x12", "--yes")
    assert labelled(stand, "Cure named, not known to hold", cure)


@pytest.mark.parametrize(
    ("found", "label"),
    [("178.3", "Cure named, not known to hold"), ("179.4", NOT_TRIED)],
)
def test_a_piece_made_to_suit_that_suits_is_what_its_cure_came_to(
    stand: Stand, found: str, label: str
) -> None:
    cure = "measure the opening, make the bar 0.3 mm shorter"
    gap = ("base.opening - crossbar.length", "--limits", "0.1 to 0.5")
    told(stand, "measure", "base", "opening", "178.60", "--nominal", "180.0")
    told(stand, "measure", "crossbar", "length", found, "--nominal", "179.7")
    told(stand, "gap", "bar in the opening", *gap, "--last", "crossbar.length")
    size = ("--dimension", "length", "--found", found)
    more = ("--met-by", "drawing", "--do", "use as is", "--cure", cure)
    told(stand, "deviation", "crossbar", "bar is not as drawn", *size, *more)
    assert labelled(stand, label, cure)
