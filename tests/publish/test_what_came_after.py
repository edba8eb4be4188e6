"""What came of pieces and fixes, told alike on every page.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from logbook.records.kinds import assembling, happenings, workshop
from logbook.records.kinds.words import Blame
from logbook.records.states.tried import spoiled
from tests.publish.bowed import BOWED, CRACK, HEAD, bowed, facts, fault
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

SLIP = "it was sawed 2 mm too short"


# -- a heading is what happened -----------------------------------------------------


def test_a_heading_leaves_cause_and_cure_to_their_places(stand: Stand) -> None:
    bowed(stand)
    errata = stand.run("errata", "1.1", "--print")[1]
    assert f"### 1. D{HEAD[1:]}\n" in errata
    assert BOWED not in errata
    notes = stand.run("notes", "--print")[1]
    assert f"#### D{HEAD[1:]}\n" in notes
    assert f"- Went wrong: {BOWED}." in notes
    # Where the rest tells more than cause and cure, it stays in the heading.
    more = "lamp flickers because of the plug; ask the maker for another cable clamp"
    told(stand, "failure", "lamp", more, "--cause", "the plug")
    assert f"#### L{more[1:]}\n" in stand.run("notes", "--print")[1]


# -- pieces that are gone ---------------------------------------------------------


def test_why_a_piece_was_scrapped_is_told_and_a_slip_is_no_failed_cure(
    stand: Stand,
) -> None:
    told(stand, "revise", "crossbar", "--changed", "made to suit", "--remake", "no")
    told(stand, "build", "build 2")
    told(stand, "piece", "crossbar")
    told(stand, "say", "--yes", f"scrapped the crossbar because {SLIP}")
    notes = stand.run("notes", "--print")[1]
    assert f"crossbar-2 (rev A, scrapped: {SLIP})" in notes
    assert f"Rev A, untried (crossbar-2 is scrapped: {SLIP}): made to suit" in notes
    assert "has held):" not in notes.partition("### Crossbar")[2].partition("###")[0]
    told(stand, "dispose", "base-1", "scrap", "--because", "it fell")
    notes = stand.run("notes", "--print")[1]
    assert "What became of it: base-1 was scrapped: it fell." in notes


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("scrapped the diffuser, warped in the sun", "warped in the sun"),
        ("binned the diffuser", ""),
    ],
)
def test_a_reason_that_stands_only_in_the_line_is_told_too(
    stand: Stand, line: str, why: str
) -> None:
    told(stand, "build", "build 2")
    told(stand, "piece", "diffuser")
    told(stand, "say", "--yes", line)
    notes = stand.run("notes", "--print")[1]
    gone = f"diffuser-2 (rev A, scrapped: {why})" if why else "(rev A, scrapped)"
    assert gone in notes


# -- one word for a revision on every page ------------------------------------------


def test_a_revision_is_tried_or_untried_alike_wherever_it_is_told(
    stand: Stand,
) -> None:
    told(stand, "build", "build 2")
    told(stand, "piece", "diffuser")
    # That it was tried says nothing yet of whether it cures.
    yet = (
        "tried, but not yet at “Screw the diffuser on”, which would show that it cures"
    )
    pages = [
        stand.run("guide", "1.1", "--print")[1],
        stand.run("notes", "--print")[1],
        stand.run("errata", "1.0", "--print")[1],
        stand.look("show", "diffuser")[1],
    ]
    assert "diffuser, rev A, tried |" in pages[0]
    assert "**Rev A, tried**" in pages[0]
    assert f"Now diffuser rev A; {yet}." in pages[0]
    assert "Rev A, tried: oversize holes" in pages[1]
    assert f"Corrected in diffuser rev A, {yet}." in pages[1]
    assert f"not affected: fixed, {yet}" in pages[2]
    for page in pages:
        assert not re.search(r"(?i)diffuser rev A\b[^.|;]*untried", page)
        assert not re.search(r"(?i)rev A[,:] untried", page)
    checked = ("--inside", "lamp cable", "--tested", "lamp lights for ten minutes")
    told(stand, "step", "Screw the diffuser on", "--done", *checked)
    assert "Now diffuser rev A; tried." in stand.run("guide", "1.1", "--print")[1]
    assert "rev A: tried" in stand.look("show", "diffuser")[1]


def test_as_built_tells_of_a_build_that_made_this_very_revision(stand: Stand) -> None:
    told(stand, "build", "build 2")
    told(stand, "piece", "diffuser")
    old = stand.run("guide", "1.0", "--print")[1]
    both = "build 1: 1 made, scrapped; build 2: 1 made (to rev A) |"
    assert both in old
    assert "build 2: 1 made |" in stand.run("guide", "1.1", "--print")[1]


# -- what closes --------------------------------------------------------------------


def test_only_what_is_glued_or_riveted_is_said_never_to_come_apart(
    stand: Stand,
) -> None:
    told(stand, "step", "glue the lid on", "--closes")
    told(stand, "step", "screw the cover on", "--closes")
    told(stand, "release", "1.2", "--anyway")
    guide = stand.run("guide", "1.2", "--print")[1]
    glued = guide.partition("Glue the lid on")[2].partition("###")[0]
    assert "**CHECK** This cannot be undone." in glued
    screwed = guide.partition("Screw the cover on")[2]
    assert "**CHECK** This closes over what is inside." in screwed.partition("## ")[0]


# -- how to tell --------------------------------------------------------------------


def test_a_size_the_corrected_revision_has_too_does_not_tell_them_apart(
    stand: Stand,
) -> None:
    thin = "diffuser 3.8 thick should be 4"
    sizes = ("--dimension", "hole to edge", "--found", "3.8", "--met-by", "drawing")
    told(stand, "deviation", "diffuser", thin, *sizes)
    assert (
        "measure the hole to edge: 3.8 mm" in fault(stand, thin, "1.1")["how_to_tell"]
    )
    told(
        stand, "revise", "diffuser", "--changed", "drawn 3.8", "--because", thin,
        "--dimension", "hole to edge=3.8",
    )  # fmt: skip
    said = fault(stand, thin, "1.1")["how_to_tell"]
    assert said.startswith(
        "the hole to edge does not tell: 3.8 mm is also what diffuser rev B has, and "
        "that is without the fault"
    )


def test_a_file_of_another_revision_is_no_sign_that_a_fault_is_there(
    stand: Stand,
) -> None:
    bowed(stand)
    said = stand.look("errata", "--revision", "diffuser first issue")[1]
    line = next(one for one in said.splitlines() if f": {HEAD}: " in one)
    assert "it was found on diffuser rev A, and nobody has said" in line
    assert "SHA-256" not in line
    assert "what was seen: cause: the plate is thin" in line


# -- making it again ------------------------------------------------------------------


def test_who_reworked_his_own_does_not_send_others_to_make_it_again_outright(
    stand: Stand,
) -> None:
    assert fault(stand, CRACK, "1.0")["remake"] == "yes"
    told(stand, "dispose", CRACK, "rework")
    assert fault(stand, CRACK, "1.0")["remake"] == (
        "yes, if yours has it; diffuser-1 itself was reworked"
    )


def test_where_neither_size_nor_file_tells_the_rest_of_the_change_does(
    stand: Stand,
) -> None:
    thin = "crossbar 178.2 long should be 179.7"
    sizes = ("--dimension", "length", "--found", "178.2", "--met-by", "drawing")
    draft = stand.begin()
    gap = draft.snapshot.lookup("bar between the uprights", assembling.Fit)
    draft.amend(replace(gap, made_last=None))
    stand.keep(draft, "gap")
    told(stand, "deviation", "crossbar", thin, *sizes)
    told(
        stand, "revise", "crossbar", "--changed", "178.2 mm; M4x20 screws", "--because",
        thin, "--dimension", "length=178.2", "--file", "drawings/crossbar.dxf",
    )  # fmt: skip
    assert fault(stand, thin, "1.0")["how_to_tell"] == (
        "the length does not tell: 178.2 mm is also what crossbar rev A has, and that "
        "is without the fault; nor does drawings/crossbar.dxf, the same file for both; "
        "yours has it where this was not done: M4x20 screws"
    )


def test_a_size_better_made_to_suit_is_accepted_by_its_gap(stand: Stand) -> None:
    before = stand.run("guide", "1.0", "--print")[1]
    assert "mm to 179.8 mm); made to suit: measured opening of the base" in before
    title = "crossbar is not to be cut before the opening is measured"
    more = ("--dimension", "length", "--found", "178.3", "--met-by", "drawing")
    told(stand, "deviation", "crossbar", title, *more)
    after = stand.run("guide", "1.0", "--print")[1]
    assert (
        "| 179.7 mm (179.6 mm to 179.8 mm); better: measured opening of the base − "
        "0.3 mm; see gap [bar between the uprights](#bar-between-the-uprights) "
        "| gap 0.1 mm to 0.5 mm |"
    ) in after


def test_what_was_said_at_the_release_is_told_as_said_then(stand: Stand) -> None:
    assert (
        "The stand as drawn. That was said on 2026-03-01; what was"
        in (stand.run("guide", "1.0", "--print")[1])
    )


def test_who_did_what_has_not_held_is_sent_on(stand: Stand) -> None:
    told(stand, "build", "build 2")
    again = "diffuser cracked again"
    told(stand, "failure", "diffuser", again, "--met-by", "drawing")
    assert fault(stand, CRACK, "1.0")["do_this"].endswith(f"came back: {again}")
    why = ("--because", again)
    told(stand, "revise", "diffuser", "--changed", "rubber washers", *why)
    told(stand, "release", "1.2", "--anyway")
    found = fault(stand, CRACK, "1.1")
    assert found["instead"] == ""
    first = "make it to diffuser rev B of release 1.2: oversize holes 9 mm in, pan "
    assert found["do_this"].startswith(f"{first}heads, washers; rubber washers. The ")
    for page in ("guide", "errata"):
        words = stand.run(page, "1.0", "--print")[1]
        assert f"made diffuser rev A, which is faulty itself: {again}." in words
    assert CRACK not in [one["title"] for one in facts(stand, "1.2")["faults"]]


def test_a_newer_release_says_of_how_many_faults_nobody_knows(stand: Stand) -> None:
    bowed(stand)
    told(stand, "revise", "diffuser", "--changed", "rounder corners")
    told(stand, "release", "1.2", "--anyway")
    page = stand.run("errata", "1.0", "--print")[1]
    assert (
        "with no known fault so far and 1 of which nobody has said whether it has "
        "it." in page
    )
    fix = fault(stand, CRACK, "1.0")["fix"]
    assert f"nobody has said whether diffuser rev B still has this: {HEAD}" in fix


def test_whose_fault_a_scrapping_was_is_kept_and_counts(stand: Stand) -> None:
    told(stand, "build", "build 2")
    told(stand, "piece", "base")
    told(stand, "say", "--yes", "scrapped the base, only this piece")
    snapshot = stand.project.snapshot
    done = snapshot.all(happenings.Disposal)[-1]
    assert done.met_by_others is Blame.PIECE
    piece = snapshot.all(workshop.Piece)[-1]
    assert snapshot.find(done.piece) is piece
    assert spoiled(snapshot, piece)
    draft = stand.begin()
    draft.amend(replace(done, met_by_others=Blame.DRAWING))
    stand.keep(draft, "met by others")
    assert not spoiled(stand.project.snapshot, piece)
