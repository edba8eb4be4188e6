"""A cure with a fault of its own, and the revision that takes its place.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import re
import shlex

import pytest

from tests.publish.bowed import BOWED, CRACK, HEAD, bowed, facts, fault, thicker
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")


# -- a cure with another fault ----------------------------------------------------


def test_a_cure_that_fails_in_another_way_is_not_said_to_have_the_old_fault(
    stand: Stand,
) -> None:
    bowed(stand)
    found = fault(stand, CRACK, "1.0")
    assert found["way_round"] == "way round available"
    row = {one["revision"]: one["words"] for one in found["table"]}["diffuser rev A"]
    assert row == f"not affected: fixed, but faulty otherwise: {HEAD}"
    rows = facts(stand, "1.0")["matrix"]["rows"]
    assert rows[0]["stands"][1] == row
    assert [(one["number"], one["title"]) for one in rows] == [(1, CRACK), (0, HEAD)]
    assert rows[1]["stands"] == ["not known", "way round available"]
    assert found["fix"].endswith(
        f"; but it has another fault: {HEAD} "
        "(cure named, not known to hold: take 5 mm plate)"
    )
    assert (
        "**affected**: way round in part"
        not in stand.run("errata", "1.0", "--print")[1]
    )


def test_a_fault_is_fixed_by_the_revision_that_cures_its_cure(stand: Stand) -> None:
    bowed(stand)
    assert fault(stand, CRACK, "1.0")["fix"].startswith("diffuser rev A (")
    thicker(stand)
    found = fault(stand, CRACK, "1.0")
    assert found["fix"].startswith("diffuser rev B (")
    assert ", in release 1.2; untried: nobody has made it yet; " in found["fix"]
    assert found["fix"].endswith(
        f"not by diffuser rev A (release 1.1), which has a fault of its own: {HEAD}"
    )
    assert (
        "Fixed by diffuser rev B, in release 1.2"
        in (stand.run("guide", "1.0", "--print")[1])
    )
    held = stand.look("errata", "--revision", "diffuser first issue")[1]
    assert "fixed in diffuser rev B, release 1.2" in held


def test_a_later_release_goes_on_saying_what_was_wrong_in_the_first(
    stand: Stand,
) -> None:
    bowed(stand)
    thicker(stand)
    guide = stand.run("guide", "1.2", "--print")[1]
    corrected = guide.partition("corrected here")[2].partition("## ")[0]
    assert f"**D{CRACK[1:]}.** Now diffuser rev B" in corrected
    assert f"**D{HEAD[1:]}.** Now diffuser rev B" in corrected


def test_an_instruction_that_makes_a_faulty_fix_is_never_given_alone(
    stand: Stand,
) -> None:
    bowed(stand)
    old = fault(stand, CRACK, "1.0")["do_this"]
    thicker(stand)
    lead = (
        "make it to diffuser rev B of release 1.2: oversize holes 9 mm in, pan heads, "
        "washers; 5 mm plate. The older instruction "
    )
    made = f"(“{old}”) made diffuser rev A, which is faulty itself: {HEAD}"
    errata = stand.run("errata", "1.0", "--print")[1]
    assert f"screw)): {lead}{made}.\n  - Make it again?" in errata
    assert f"- **Do this now**: {lead}{made}.\n" in errata
    guide = stand.run("guide", "1.0", "--print")[1]
    told_there = guide.count(f"Do this: {lead}{made}.")
    assert told_there == guide.count("Do this: ") > 1
    held = stand.look("errata", "--revision", "diffuser first issue")[1]
    assert f"do this now: {lead}{made}; fixed in" in held


def test_the_cases_of_an_older_instruction_in_which_nothing_is_made_are_not_lost(
    stand: Stand,
) -> None:
    cases = "not drilled yet: drill 9 mm in; drilled and whole: leave it"
    assert stand.run("erratum", CRACK, "--do-this", cases)[0] == 0
    bowed(stand)
    thicker(stand)
    do = fault(stand, CRACK, "1.0")["do_this"]
    assert do.endswith(
        f"The older instruction (“{cases}”) was written for diffuser rev A, which is "
        f"faulty itself: {HEAD}; of the cases in it where nothing is made anew nobody "
        "has said otherwise"
    )


def test_a_fault_is_as_new_as_what_came_of_its_fix(stand: Stand) -> None:
    later = ("--when", "2026-05-02T10:00")
    assert fault(stand, CRACK, "1.0")["newest_entry"] < "2026-05-02"
    assert stand.look("build", "build 2", *later)[0] == 0
    failed = ("failure", "diffuser", BOWED, "--met-by", "drawing")
    assert stand.look(*failed, *later)[0] == 0
    errata = stand.run("errata", "1.0", "--print")[1]
    assert "; the newest entry it is told from is of 2026-05-02; its words " in errata


def test_a_cure_helped_only_where_it_was_tried_and_held(stand: Stand) -> None:
    told(stand, "build", "build 2")
    rubs = ("failure", "base", "base rubs", "--cure", "sand it", "--met-by", "unknown")
    told(stand, *rubs, "--do", "scrap")

    def said() -> str:
        page = stand.run("errata", "1.1", "--print")[1]
        found = re.search(r"Base rubs\.\*\*.*?\. ([^.]*): sand it\.", page)
        return found[1] if found else page

    assert said() == "Cure named, not tried yet"
    told(stand, "dispose", "base rubs", "rework", "--because", "sanded")
    assert said() == "What helped"
    assert "- **What helped**: sand it." in stand.run("notes", "--print")[1]
    after = ("base rubs after all", "--met-by", "unknown")
    assert stand.look("failure", "base", *after, "--when", "2026-05-02T10:00")[0] == 0
    assert said() == "Tried, and it seems to have come back (“base rubs after all”)"


def test_a_fault_not_known_of_a_release_is_counted_and_its_author_asked(
    stand: Stand,
) -> None:
    bowed(stand)
    page = stand.run("errata", "1.0", "--print")[1]
    link = "(#not-known-whether-this-release-still-has-them)"
    more = f"and 1 more of which [nobody has said whether it has it]{link}. "
    assert f": 1 known fault, {more}" in page
    todo = page.partition("## What to do")[2].partition("\n## ")[0]
    look = f"[Not known whether this release has it]{link}, look yourself: {HEAD}."
    assert look in todo
    assert "\n## Not known whether this release still has them\n" in page
    assert link not in stand.run("errata", "--all", "--print")[1]
    asks = (
        f"{HEAD}: nobody has said whether diffuser first issue (release 1.0) has it; "
        "if it has: "
    )
    said = stand.look("check")[1]
    assert asks in said
    command = said.partition(asks)[2].partition("; if it has not: ")[0]
    assert (
        f"\n{asks}{command}; if it has not: "
        in stand.run("release", "1.2", "--anyway")[1]
    )
    told(stand, *shlex.split(command)[1:])
    assert asks not in stand.look("check")[1]
    assert {one["title"] for one in facts(stand, "1.0")["faults"]} == {HEAD, CRACK}


def test_an_instruction_that_names_the_newer_fix_stands_as_written(
    stand: Stand,
) -> None:
    bowed(stand)
    thicker(stand)
    words = "Take Diffuser rev B: 5 mm plate, holes 9 mm in"
    told(stand, "erratum", CRACK, "--do-this", words)
    assert fault(stand, CRACK, "1.0")["do_this"] == words


# -- which revision to take -----------------------------------------------------------


def test_a_later_revision_without_a_fault_counts_as_a_fix_too(stand: Stand) -> None:
    told(stand, "revise", "diffuser", "--changed", "rounder corners")
    told(stand, "release", "1.2", "--anyway")
    found = fault(stand, CRACK, "1.0")
    assert found["fix"].startswith(
        "diffuser rev B (oversize holes 9 mm in, pan heads, washers; rounder corners), "
        "in release 1.2; untried"
    )
    guide = stand.run("guide", "1.2", "--print")[1]
    assert f"**D{CRACK[1:]}.** Now diffuser rev B; untried" in guide


def test_no_revision_with_a_fault_of_its_own_is_the_one_to_take(stand: Stand) -> None:
    told(stand, "revise", "diffuser", "--changed", "thinner plate")
    told(stand, "release", "1.2", "--anyway")
    told(stand, "build", "build 2")
    told(stand, "failure", "diffuser", "diffuser bowed", "--met-by", "drawing")
    found = fault(stand, CRACK, "1.0")
    assert found["fix"].startswith("diffuser rev A (oversize")
    assert found["fix"].endswith(
        "not by diffuser rev B (release 1.2), which has a fault of its own: diffuser "
        "bowed (no cure yet)"
    )
    guide = stand.run("guide", "1.2", "--print")[1]
    assert "take diffuser rev A, in release 1.1" in guide


def test_of_three_cures_in_a_row_the_last_is_told_with_what_was_wrong(
    stand: Stand,
) -> None:
    bowed(stand)
    thicker(stand)
    told(stand, "build", "build 3")
    told(stand, "failure", "diffuser", "diffuser rattles", "--met-by", "drawing")
    told(
        stand, "revise", "diffuser", "--changed", "felt below it", "--because",
        "diffuser rattles",
    )  # fmt: skip
    told(stand, "release", "1.3", "--anyway")
    found = fault(stand, CRACK, "1.0")
    assert found["fix"].startswith("diffuser rev C (")
    assert "in release 1.3; untried: nobody has made it yet; not by" in found["fix"]
    assert f"(release 1.1), which has a fault of its own: {HEAD}" in found["fix"]
    assert found["fix"].endswith("has a fault of its own: diffuser rattles")
    held = stand.look("errata", "--revision", "diffuser first issue")[1]
    line = next(one for one in held.splitlines() if f": {CRACK}: " in one)
    assert "fixed in diffuser rev C, release 1.3, remake: yes" in line
    rows = facts(stand, "1.0")["matrix"]["rows"]
    assert [one["title"] for one in rows] == [CRACK, "diffuser rattles", HEAD] or [
        one["title"] for one in rows
    ] == [CRACK, HEAD, "diffuser rattles"]
    for row in rows:
        for words in row["stands"]:
            assert not words.startswith("way round") or "fixed" not in words


# -- whether it is the same fault -----------------------------------------------------


def test_what_its_author_says_is_the_same_is_the_same(stand: Stand) -> None:
    bowed(stand)
    entry = fault(stand, HEAD, "1.1")["entries"][0].rpartition(" ")[2]
    told(stand, "erratum", CRACK, "--entry", entry)
    found = fault(stand, CRACK, "1.0")
    rows = {one["revision"]: one["words"] for one in found["table"]}
    assert rows["diffuser rev A"].startswith(f"not fixed: it came back: {HEAD}")
    assert fault(stand, CRACK, "1.1")


def test_what_its_author_keeps_as_a_fault_of_its_own_is_another(stand: Stand) -> None:
    told(stand, "build", "build 2")
    again = "diffuser cracked along the edge"
    told(stand, "failure", "diffuser", again, "--met-by", "drawing")
    assert fault(stand, CRACK, "1.0")["again"]
    told(stand, "erratum", again, "--severity", "fit")
    assert not fault(stand, CRACK, "1.0")["again"]
    assert [one["title"] for one in facts(stand, "1.1")["faults"]] == [again]


def test_the_same_for_no_known_reason_is_not_known_to_be_fixed(stand: Stand) -> None:
    told(stand, "build", "build 2")
    told(stand, "failure", "diffuser", "diffuser cracked again", "--met-by", "unknown")
    assert facts(stand, "1.0")["matrix"]["rows"][0]["stands"][1] == "not known"
    assert [one["title"] for one in facts(stand, "1.1")["not_known"]] == [CRACK]
