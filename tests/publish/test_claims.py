"""Known faults claim no more than was logged: how bad, who is affected, what is tried.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import pytest

from logbook.advice.faults.applies import NOT_AFFECTED, NOT_KNOWN
from logbook.records.kinds import assembling, happenings
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import Blame
from logbook.records.making.settling import with_other_side
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

CRACK = "diffuser cracked at a corner screw"
THIN = "diffuser 3.8 thick should be 4"
ON = "Screw the diffuser on"
CHECKED = ("--inside", "lamp cable", "--tested", "lamp lights for ten minutes")


def fault(stand: Stand, title: str, release: str = "1.0") -> dict[str, Any]:
    code, said = stand.run("errata", release, "--json")
    assert code == 0
    found: list[dict[str, Any]] = json.loads(said)["faults"]
    return next(one for one in found if one["title"] == title)


def thin(stand: Stand, *more: str) -> None:
    sizes = ("--dimension", "hole to edge", "--found", "3.8", "--met-by", "drawing")
    told(stand, "deviation", "diffuser", THIN, *sizes, *more)


# -- how bad it is, and what goes round it ----------------------------------------


def test_a_piece_used_as_it_is_makes_nobody_say_that_it_cannot_be_put_together(
    stand: Stand,
) -> None:
    thin(stand)
    found = fault(stand, THIN, "1.1")
    assert found["means"] == "nobody said what it does"
    assert found["way_round"] == "way round not known"
    told(stand, "dispose", "diffuser-2", "use as is")
    found = fault(stand, THIN, "1.1")
    assert found["means"] == "diffuser-2 was used as it is; nobody said more of it"
    assert found["do_this"] == (
        "use it as it is, as was done with diffuser-2 "
        "(nothing more says that yours will do)"
    )
    assert found["way_round"] == "way round available"
    page = stand.run("errata", "1.1", "--print")[1]
    assert "cannot be put together" not in page
    assert "no way round" not in page
    assert "goes together" not in page
    # Saved just as it stands, it says the same.
    told(stand, "erratum", THIN)
    assert fault(stand, THIN, "1.1")["means"] == found["means"]


def test_notes_say_of_a_piece_used_as_it_is_that_it_was_reworked_otherwise(
    stand: Stand,
) -> None:
    thin(stand, "--do", "use as is")
    told(stand, "status", "diffuser-2", "reworked", "--because", "the edge was rough")
    notes = stand.run("notes", "--print")[1]
    assert (
        "- **The piece**: diffuser-2 (reworked for another reason), used as it is."
        in notes
    )


@pytest.mark.parametrize("became", ["reworked", "scrapped"])
def test_a_piece_that_was_not_left_as_it_was_is_no_reason_to_use_yours_so(
    stand: Stand, became: str
) -> None:
    thin(stand, "--do", "use as is")
    told(stand, "erratum", THIN)
    told(stand, "status", "diffuser-2", became, "--because", "it rattles")
    found = fault(stand, THIN, "1.1")
    assert "use it as it is" not in found["do_this"]
    assert found["means"] == f"diffuser-2 was {became}; nobody said more of it"
    assert "use it as it is" not in stand.run("guide", "1.1", "--print")[1]


def test_what_was_drawn_and_what_was_found_are_told_apart_with_the_limits_that_hold(
    stand: Stand,
) -> None:
    thin(stand)
    sizes = (
        "The drawing has hole to edge 4 mm, found was 3.8 mm, which is inside the "
        "limits that hold: ±0.3 mm (ISO 2768-c)."
    )
    assert (
        sizes.replace("The", "the", 1).rstrip(".") == fault(stand, THIN, "1.1")["sizes"]
    )
    assert sizes in stand.run("errata", "1.1", "--print")[1]
    guide = stand.run("guide", "1.1", "--print")[1]
    assert sizes in guide
    assert "| ±0.3 mm (ISO 2768-c) | 3.8 mm" in guide


# -- who is affected ---------------------------------------------------------------


def test_an_earlier_revision_that_draws_the_same_size_is_affected_too(
    stand: Stand,
) -> None:
    thin(stand)
    assert fault(stand, THIN, "1.0")["affected"] == [
        "diffuser first issue",
        "diffuser rev A",
    ]


def test_an_earlier_revision_is_free_only_where_its_size_is_another(
    stand: Stand,
) -> None:
    told(
        stand, "revise", "diffuser", "--dimension", "hole to edge=9", "--changed", "in"
    )
    thin(stand, "--do", "use as is")
    assert table(stand, THIN, "1.0") == {}
    told(stand, "release", "1.2", "--anyway")
    assert table(stand, THIN, "1.2")["diffuser rev A"] == NOT_AFFECTED
    words = ("--met-by", "drawing", "--do", "scrap")
    told(stand, "failure", "diffuser", "diffuser bowed in the heat", *words)
    found = table(stand, "diffuser bowed in the heat", "1.2")
    assert found["diffuser first issue"] == NOT_KNOWN


def table(stand: Stand, title: str, release: str) -> dict[str, str]:
    code, said = stand.run("errata", release, "--json")
    assert code == 0
    rows = (f["table"] for f in json.loads(said)["faults"] if f["title"] == title)
    return {row["revision"]: row["words"] for row in next(rows, [])}


# -- what is tried -----------------------------------------------------------------


def test_a_cure_is_shown_to_cure_once_the_step_it_went_wrong_at_was_done(
    stand: Stand,
) -> None:
    told(stand, "build", "build 2")
    told(stand, "piece", "diffuser")
    why = f"tried, but not yet at “{ON}”, which would show that it cures"
    assert fault(stand, CRACK)["fix"].endswith(why)
    assert fault(stand, CRACK)["status"] == "fixed"
    told(stand, "step", ON, "--done")
    assert fault(stand, CRACK)["fix"].endswith(why)
    told(stand, "step", ON, "--done", *CHECKED)
    assert fault(stand, CRACK)["fix"].endswith("; tried")
    assert fault(stand, CRACK)["status"] == "fixed, the fix is tried"
    told(stand, "step", ON, "--undone")
    assert fault(stand, CRACK)["fix"].endswith(why)


def test_a_piece_that_failed_as_before_makes_no_cure_tried_whoevers_fault_it_was(
    stand: Stand,
) -> None:
    told(stand, "build", "build 2")
    told(stand, "piece", "diffuser")
    told(stand, "step", ON, "--done", *CHECKED)
    again = "diffuser cracked at the corner: drilled too fast"
    told(stand, "failure", "diffuser", again, "--met-by", "piece", "--do", "rework")
    assert fault(stand, CRACK)["fix"].endswith(
        f"untried: its only piece so far failed too: {again}"
    )
    stands = fault(stand, CRACK)["table"][-1]["words"]
    assert (
        stands
        == f"not affected: fixed, untried: its only piece so far failed too: {again}"
    )


def test_another_failure_of_a_piece_by_its_own_fault_leaves_the_cure_tried(
    stand: Stand,
) -> None:
    told(stand, "build", "build 2")
    told(stand, "piece", "diffuser")
    told(stand, "step", ON, "--done", *CHECKED)
    words = ("--met-by", "piece", "--do", "rework")
    told(stand, "failure", "diffuser", "diffuser scratched by a rag", *words)
    assert fault(stand, CRACK)["fix"].endswith("; tried")


def test_the_stop_carries_what_stands_against_its_remedy(stand: Stand) -> None:
    told(stand, "erratum", CRACK, "--stop-using-until", "rev A is in its place")
    again = ("failure", "diffuser", "diffuser cracked again")
    told(stand, *again, "--met-by", "drawing", "--do", "scrap")
    stop = (
        "until rev A is in its place. Why: the piece was scrapped. That has not "
        "held: it came back in diffuser rev A: diffuser cracked again (no cure yet)."
    )
    assert stop in stand.run("guide", "1.0", "--print")[1]
    assert stop in stand.run("errata", "1.0", "--print")[1]


# -- faults that name no part ------------------------------------------------------


def fails(stand: Stand, title: str, where: str = "") -> None:
    draft = stand.begin()
    draft.add(
        happenings.Failure(
            id=new_id(),
            title=title,
            when=draft.when,
            where=where,
            met_by_others=Blame.DRAWING,
        )
    )
    stand.keep(draft, f"failure: {title}")


def test_a_fault_of_the_drawing_without_a_part_is_said_wherever_it_would_be_missed(
    stand: Stand,
) -> None:
    cold = "the room was cold, the glue did not take"
    fails(stand, cold)
    nowhere = f"{cold}: a fault of the drawing names no part: it is in no errata"
    for words in (("check",), ("release", "1.2", "--check"), ("errata", "1.1")):
        said = stand.look(*words)[1]
        assert nowhere in said, words
    page = stand.run("errata", "1.1", "--print")[1]
    assert "- **The room was cold, the glue did not take.**" in page
    assert nowhere in stand.run("release", "1.2", "--anyway")[1]
    command = next(one for one in said.splitlines() if nowhere in one)
    asked = command.partition("logbook ")[2].replace("PART", "base").split()
    told(stand, *asked)
    assert nowhere not in stand.look("check")[1]
    assert fault(stand, cold, "1.1")["affected"] == ["base first issue"]
    assert "no part in particular" not in stand.run("notes", "--print")[1]


def test_a_place_that_names_one_part_gives_a_fault_its_part(stand: Stand) -> None:
    cold = "the glue did not take"
    fails(stand, cold, "base, right face")
    assert fault(stand, cold, "1.1")["part"] == "base"
    fails(stand, "the gap is uneven", "between base and crossbar")
    assert (
        "the gap is uneven: a fault of the drawing names no part"
        in (stand.look("check")[1])
    )


# -- what to take instead, and what is no part of the thing ------------------------


def test_who_holds_an_older_release_reads_first_that_there_is_a_newer_one(
    stand: Stand,
) -> None:
    page = stand.run("errata", "1.0", "--print")[1]
    newer = (
        "> **NEWER RELEASE** [Release 1.1](../1.1/guide.md) of 2026-04-10 exists, with "
        "no known fault so far. Untried as a whole: build 1 made 2 of its 3 parts, "
        "all but diffuser rev A. If you have built this one, its guide says ["
    )
    assert page.index(newer) < page.index("- Release **1.0**")
    assert newer in stand.run("guide", "1.0", "--print")[1]
    assert "NEWER" not in stand.run("errata", "1.1", "--print")[1]
    assert "NEWER" not in stand.run("errata", "--all", "--print")[1]


def test_a_newer_release_that_is_worse_is_not_recommended(stand: Stand) -> None:
    told(stand, "failure", "diffuser", "diffuser bowed", "--met-by", "drawing")
    told(stand, "erratum", "diffuser bowed", "--stop-using-until", "it is flat")
    page = stand.run("errata", "1.0", "--print")[1]
    assert "with 1 known fault of its own, 1 with STOP." in page
    assert "Take [release" not in page
    weigh = "Weigh [release 1.1](../1.1/guide.md) against this one: more is known ag"
    assert f"**Nothing begun yet?** {weigh}" in page


def test_a_test_piece_is_no_part_of_the_thing(stand: Stand) -> None:
    made = ("--process", "folding", "--material", "aluminium 5052-H32")
    told(stand, "part", "bend trial strip", *made, "--dimension", "leg=30.0")
    told(stand, "measure", "bend trial strip", "leg", "29.30")
    told(stand, "release", "1.2", "--anyway")
    guide = stand.run("guide", "1.2", "--print")[1]
    listed, _, making = guide.partition("## Making the parts")
    assert "bend trial strip" not in listed
    assert "of its 3 parts" in listed
    making, _, steps = making.partition("## Steps")
    assert "### Bend trial strip, optional: a test piece" in making
    assert making.index("### Diffuser") < making.index("### Bend trial strip")
    assert "(see [Base](#base))" in making.partition("### Bend")[2]
    assert (
        "| leg | 30.0 mm | ±0.5 mm (ISO 2768-c) | 29.30 mm, outside the limits"
        in making
    )
    assert "trial strip" not in steps.partition("## What changed")[0]
    notes = stand.run("notes", "--print")[1]
    held = "30.0 mm ±0.5 mm by ISO 2768-c"
    assert f"| leg | {held} | 29.30 mm | off drawing |" in notes
    # How far it is off is what it was made to tell: nobody is asked what to do with it.
    faults = stand.project.snapshot.all(happenings.Deviation)
    assert not [one for one in faults if "strip" in one.title]


# -- a record two clones changed ---------------------------------------------------


def test_the_side_that_was_not_taken_is_not_published(stand: Stand) -> None:
    draft = stand.begin()
    entry = draft.snapshot.lookup(CRACK, happenings.Failure)
    left = replace(entry, where="the other corner", prose="A # heading of theirs.")
    draft.amend(with_other_side(replace(entry, prose="It cracked."), left))
    step = draft.snapshot.lookup(ON, assembling.Step)
    draft.amend(with_other_side(step, replace(step, prose="Rivet it.")))
    stand.keep(draft, "settle: the crack and the step")
    stand.run("release", "1.2", "--anyway")
    for words in (("notes",), ("guide", "1.2"), ("errata", "1.0")):
        page = stand.run(*words, "--print")[1]
        for unsaid in ("not taken", "the other corner", "id =", "Rivet it"):
            assert unsaid not in page, words
    assert "> It cracked." in stand.run("notes", "--print")[1]
    assert "Go round the screws twice" in stand.run("guide", "1.2", "--print")[1]


def test_the_parts_list_says_what_was_made_to_an_earlier_revision(stand: Stand) -> None:
    guide = stand.run("guide", "1.1", "--print")[1]
    assert "build 1: 1 made (to first issue), scrapped |" in guide
    told(stand, "build", "build 2")
    told(stand, "piece", "diffuser")
    assert "; build 2: 1 made |" in stand.run("guide", "1.1", "--print")[1]
