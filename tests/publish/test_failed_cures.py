"""Cures that fail themselves, and what is told of them and of those after."""

from __future__ import annotations

import pytest

from logbook.records.kinds import design, happenings, workshop
from logbook.records.kinds.design import Revision
from logbook.records.states.tried import verdict_of
from tests.publish.errata_data import CRACK, as_data
from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")


def test_a_cure_that_failed_itself_is_never_told_without_that(stand: Stand) -> None:
    assert stand.run("build", "build 2")[0] == 0
    again = ("failure", "diffuser", "diffuser cracked again")
    assert stand.run(*again, "--met-by", "drawing", "--do", "scrap")[0] == 0
    word = "but: diffuser cracked again (no cure yet)"
    [fault] = as_data(stand, "1.0")["faults"]
    assert fault["title"] == CRACK
    none = "no cure on record has held yet: “oversize holes 9 mm in, pan heads, washers"
    back = "and it came back: diffuser cracked again"
    assert fault["do_this"] == (
        f"{none}” was done in diffuser rev A (release 1.1), {back}"
    )
    assert fault["fix"].startswith("nothing that has held: diffuser rev A (oversize ")
    assert fault["fix"].endswith(back)
    assert not fault["fixed_in"] + fault["take"] + fault["fits_with"]
    assert fault["remake"] == "not yet: nothing on record has held"
    assert "; or it was made from diffuser rev A (drawings/" in fault["how_to_tell"]
    assert any(one.startswith("found again on") for one in fault["evidence"])
    assert fault["way_round"] == "no way round that has held"
    table = {row["revision"]: row["words"] for row in fault["table"]}
    back = "not fixed: it came back: diffuser cracked again (no cure yet)"
    assert table["diffuser rev A"] == back
    assert fault["status"] == f"confirmed, {back}"
    assert fault["affected"] == ["diffuser first issue", "diffuser rev A"]
    assert fault["releases"] == ["1.0", "1.1"]
    row = as_data(stand, "1.0")["matrix"]["rows"][0]
    assert row["stands"] == ["no way round that has held", back]
    assert CRACK in [one["title"] for one in as_data(stand, "1.1")["faults"]]
    held = stand.look("errata", "--revision", "diffuser rev A")[1]
    assert f"check: {CRACK}: diffuser rev A has it" in held
    page = stand.run("errata", "1.0", "--print")[1]
    assert page.count("N" + none[1:]) + page.count(none) == 2
    assert "Take diffuser" not in page
    assert word in stand.look("verdicts")[1]
    guide = stand.run("guide", "1.1", "--print")[1]
    step = guide.partition("## Steps")[2]
    assert "No cure on record has held yet. See [Known faults](" in step
    assert f"N{none[1:]}" in guide.partition("## Before you start")[0]
    assert "Do this: oversize" not in guide
    assert "Fixed by" not in guide.partition("## Before you start")[0]


def test_a_piece_that_failed_or_was_scrapped_does_not_make_its_revision_tried(
    stand: Stand,
) -> None:
    def verdict() -> str:
        snapshot = stand.project.snapshot
        return verdict_of(snapshot, snapshot.lookup("diffuser rev A", Revision))

    assert verdict() == "untried"
    again = ("failure", "diffuser", "diffuser cracked again")
    assert stand.run(*again, "--met-by", "unknown")[0] == 0
    assert verdict() == "untried"
    assert stand.run("piece", "diffuser")[0] == 0
    assert verdict() == "tried"
    piece = stand.project.snapshot.all(workshop.Piece)[-1].title
    assert stand.run("status", piece, "scrapped")[0] == 0
    assert verdict() == "untried"


def test_a_second_cure_ends_what_stood_against_the_first(stand: Stand) -> None:
    again = ("failure", "diffuser", "diffuser cracked again")
    assert stand.run(*again, "--met-by", "drawing")[0] == 0
    told = as_data(stand, "1.0")["faults"][0]["do_this"]
    assert told.startswith("no cure on record has held yet")
    draft = stand.begin()
    entry = draft.snapshot.lookup("diffuser cracked again", happenings.Failure)
    part = draft.snapshot.lookup("diffuser", design.Part)
    draft.new_revision(part, changed="rubber washers", because=(entry.ref,))
    stand.keep(draft, "revision: diffuser rev B")
    [fault] = as_data(stand, "1.0")["faults"]
    assert fault["do_this"].startswith("make it to diffuser rev B (not released)")
    assert not fault["but"]


def test_a_file_that_two_revisions_share_is_nothing_to_tell_by(stand: Stand) -> None:
    said = ("failure", "crossbar", "crossbar too soft", "--met-by", "drawing")
    assert stand.run(*said, "--do", "scrap")[0] == 0

    def told() -> str:
        faults = as_data(stand, "1.0")["faults"]
        found = next(one for one in faults if one["title"] == "crossbar too soft")
        return str(found["how_to_tell"])

    assert "drawings/crossbar.dxf, SHA-256 begins" in told()
    draft = stand.begin()
    entry = draft.snapshot.lookup("crossbar too soft", happenings.Failure)
    part = draft.snapshot.lookup("crossbar", design.Part)
    same = stand.file("crossbar")
    draft.new_revision(part, changed="steel", because=(entry.ref,), files=same)
    stand.keep(draft, "revision: crossbar rev A")
    assert told() == (
        "it was made from crossbar first issue; drawings/crossbar.dxf does not tell "
        "them apart, crossbar rev A has the same file; what tells: crossbar rev A has "
        "steel"
    )


def test_a_later_change_does_not_make_a_fault_vanish_that_came_back(
    stand: Stand,
) -> None:
    again = ("failure", "diffuser", "diffuser cracked again")
    assert stand.run(*again, "--met-by", "drawing", "--do", "scrap")[0] == 0
    snapshot = stand.project.snapshot
    entry = snapshot.lookup("diffuser cracked again", happenings.Failure)
    fault = as_data(stand, "1.0")["faults"][0]["id"]
    stop = ("--stop-using-until", "the diffuser has pan heads")
    assert stand.run("erratum", fault, "--entry", entry.id, *stop)[0] == 0
    fault = as_data(stand, "1.0")["faults"][0]["id"]
    change = ("--changed", "corner rounded", "--why", "it caught the sleeve")
    assert stand.run("revise", "diffuser", *change, "--remake", "no")[0] == 0
    asked = stand.look("release", "1.2", "--check")[1]
    assert "1.2 carries 1 known fault without a cure" in asked
    which = 'nobody has said whether diffuser rev B (release 1.2) has it; if it has: "'
    assert which[:-1] in asked
    assert stand.run("release", "1.2")[0] == 0
    page = stand.run("errata", "1.2", "--print")[1]
    assert "1 known fault, 1 with **STOP**" in page
    open_ = "it came back in diffuser rev A, and nobody has said that diffuser rev B"
    assert f"| not known: {open_} cures it |" in page
    assert "perhaps diffuser rev B) at all for now; it was to be until" in page
    assert "Make it again? **Not yet: nothing on record has held.**" in page
    guide = stand.run("guide", "1.2", "--print")[1]
    assert "Wrong in earlier drawings" not in guide
    held = stand.look("errata", "--revision", "diffuser rev B")[1]
    assert held.startswith("wait: ")
    assert open_ in held
    older = stand.look("errata", "--revision", "diffuser first issue")[1]
    assert "; but: nobody has said that diffuser rev B cures “" in older

    assert stand.run("erratum", fault, "--fixed-by", "diffuser rev B")[0] == 0
    [told] = as_data(stand, "1.1")["faults"]
    table = {row["revision"]: row["words"] for row in told["table"]}
    assert table["diffuser rev A"].startswith("not fixed: it came back")
    assert table["diffuser rev B"].startswith("not affected: fixed, untried")
    assert not as_data(stand, "1.2")["faults"]


def test_saying_that_it_came_back_leaves_no_instruction_that_failed(
    stand: Stand,
) -> None:
    fault = as_data(stand, "1.0")["faults"][0]["id"]
    do = ("--do-this", "make the diffuser to diffuser rev A")
    assert stand.run("erratum", fault, *do)[0] == 0
    again = ("failure", "diffuser", "diffuser cracked again")
    assert stand.run(*again, "--met-by", "drawing", "--do", "scrap")[0] == 0
    snapshot = stand.project.snapshot
    entry = snapshot.lookup("diffuser cracked again", happenings.Failure)
    for more in ((), ("--severity", "damage")):
        assert stand.run("erratum", fault, "--entry", entry.id, *more)[0] == 0
        told = as_data(stand, "1.0")["faults"][0]
        assert told["do_this"].startswith("no cure on record has held yet")
        assert told["way_round"] == "no way round that has held"
