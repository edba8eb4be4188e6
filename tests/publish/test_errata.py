"""Known faults: drafted from entries, saved, and told to who is affected."""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest

from logbook.advice.faults.applies import NOT_KNOWN, faults_in, standing
from logbook.advice.faults.known import known_faults
from logbook.errors import BadInput
from logbook.publish.errata.errata import write_errata
from logbook.records.kinds import design
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.words import Severity
from tests.conftest import Golden
from tests.publish.errata_data import CRACK, as_data
from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")

Mask = Callable[[str], str]


def test_the_page_of_one_release(
    published: Stand, golden: Golden, masked: Mask
) -> None:
    snapshot = published.project.snapshot
    release = snapshot.lookup("release 1.0", Release)
    golden("errata-1.0.md", masked(write_errata(snapshot, (release,))))


def test_the_page_of_all_releases(
    published: Stand, golden: Golden, masked: Mask
) -> None:
    snapshot = published.project.snapshot
    text = write_errata(snapshot, snapshot.all(Release), every=True)
    golden("errata-all.md", masked(text))


def test_the_same_as_data(published: Stand, golden: Golden, masked: Mask) -> None:
    data = as_data(published, "1.0")
    for fault in data["faults"]:
        fault["statements"] = len(fault["statements"])
    golden("errata-1.0.json", masked(json.dumps(data, indent=1, ensure_ascii=False)))


# -- who is affected -------------------------------------------------------------


def test_a_holder_of_1_0_learns_of_the_crack_and_a_holder_of_1_1_does_not(
    published: Stand,
) -> None:
    snapshot = published.project.snapshot
    first, second = (snapshot.lookup(f"release {n}", Release) for n in ("1.0", "1.1"))
    assert [fault.title for fault in faults_in(snapshot, first)] == [CRACK]
    assert faults_in(snapshot, second) == ()


def test_each_revision_stands_to_a_fault_in_words(published: Stand) -> None:
    data = as_data(published, "1.0")
    table = [(row["revision"], row["words"]) for row in data["faults"][0]["table"]]
    assert table == [
        ("diffuser first issue", "way round available"),
        ("diffuser rev A", "not affected: fixed, untried"),
    ]


def test_a_later_revision_that_names_no_cause_may_still_have_the_fault(
    drawn: Stand,
) -> None:
    drawn.run("failure", "diffuser", CRACK, "--met-by", "drawing", "--do", "scrap")
    drawn.run("revise", "diffuser", "--changed", "rounder corners")
    drawn.run("release", "1.0", "--anyway")
    snapshot = drawn.project.snapshot
    fault = known_faults(snapshot)[0]
    revision = snapshot.lookup("diffuser rev A", Revision)
    assert standing(snapshot, fault, revision) == NOT_KNOWN
    data = as_data(drawn, "1.0")
    assert data["faults"] == []
    assert [one["title"] for one in data["not_known"]] == [CRACK]


@pytest.mark.parametrize("blame", ["piece", "machine", "unknown"])
def test_what_is_not_the_drawings_fault_is_no_known_fault(
    drawn: Stand, blame: str
) -> None:
    drawn.run("failure", "diffuser", CRACK, "--met-by", blame, "--do", "scrap")
    assert known_faults(drawn.project.snapshot) == ()
    code, said = drawn.run("erratum", CRACK)
    assert code == BadInput.exit_code
    assert "accepted: an entry whose fault is the drawing's" in said


def test_what_must_not_be_used_and_safety_come_first(stand: Stand) -> None:
    for number, (severity, stop) in enumerate(
        [(Severity.DOCUMENT, ""), (Severity.SAFETY, ""), (Severity.FIT, "rewired")]
    ):
        draft = stand.begin()
        part = draft.snapshot.lookup("lamp", design.Part)
        revision = draft.revision(part)
        draft.add(
            Erratum(
                id=f"fa11t00{number}",
                title=f"fault {number}",
                part=part.ref,
                revisions=(revision.ref,),
                severity=severity,
                stop_using_until=stop,
                when=draft.when,
            )
        )
        stand.keep(draft, "known fault")
    titles = [one["title"] for one in as_data(stand, "1.0")["faults"]]
    assert titles == ["fault 1", "fault 2", CRACK, "fault 0"]
    stand.run("errata", "1.0")
    text = stand.read("as-built/published/1.0/errata.md")
    stop = (
        "> **STOP** Do not use the lamp of releases 1.0 and 1.1 (lamp first issue) "
        "until rewired."
    )
    assert text.index(stop) < text.index("## What to do if you hold release 1.0")
    assert stop in guide_text(stand)


def guide_text(stand: Stand) -> str:
    assert stand.run("guide", "1.0")[0] == 0
    return stand.read("as-built/published/1.0/guide.md")


def test_untried_fixes_are_said_to_be_untried(stand: Stand) -> None:
    fault = as_data(stand, "1.0")["faults"][0]
    assert fault["fix"].endswith("in release 1.1; untried: nobody has made it yet")
    assert (fault["remake"], fault["fits_with"]) == ("yes", "base first issue")


def test_evidence_names_entry_build_and_how_many_builds_saw_it(
    published: Stand,
) -> None:
    evidence = as_data(published, "1.0")["faults"][0]["evidence"]
    assert evidence[0] == "found on 2026-03-07, build 1"
    assert evidence[1] == "seen in the only build that made an affected revision"


# -- what a holder reads ---------------------------------------------------------


def test_a_holder_reads_first_what_to_do_then_which_release_is_affected(
    published: Stand,
) -> None:
    snapshot = published.project.snapshot
    text = write_errata(snapshot, (snapshot.lookup("release 1.0", Release),))
    do = (
        "- **Diffuser** (fault [1](#1-diffuser-cracked-at-a-corner-screw)): oversize "
        "holes 9 mm in, pan heads, washers.\n  - Make it again? **Yes.** Take diffuser "
        "rev A (release 1.1; untried: nobody has made it yet)."
    )
    row = (
        "| 1. Diffuser cracked at a corner screw | **affected**: way round available "
        "| not affected: fixed, untried |"
    )
    places = [text.index(words) for words in (do, row, "## Each fault", "- **State**")]
    assert places == sorted(places)
    assert "![Crack from the corner hole to the edge](../../../as-built/" in text


def test_a_holder_told_to_drill_is_told_what_to_mind_first(stand: Stand) -> None:
    do = ("--do-this", "drill four 4 mm holes 9 mm in")
    assert stand.run("erratum", "diffuser cracked at a corner screw", *do)[0] == 0
    page = stand.run("errata", "1.0", "--print")[1]
    detail = page.partition("## Each fault")[2]
    warned, told = detail.index("> **WARNING** Nothing loose"), detail.index("Do this")
    assert warned < told


def test_a_size_made_to_suit_is_not_what_another_builder_tells_by(
    stand: Stand,
) -> None:
    words = ("--dimension", "length", "--found", "178.3", "--met-by", "drawing")
    title = "crossbar is not to be cut before the opening is measured"
    assert (
        stand.run("deviation", "crossbar", title, *words, "--do", "use as is")[0] == 0
    )
    fault = next(f for f in as_data(stand, "1.0")["faults"] if f["title"] == title)
    assert "178.3" not in fault["how_to_tell"]
    assert "the length was made to the 179.7 mm drawn" in fault["how_to_tell"]
    assert "gap “bar between the uprights”" in fault["how_to_tell"]
    assert fault["consequence"] == ""


def test_a_fault_of_a_part_is_marked_at_the_steps_that_make_or_take_it(
    stand: Stand,
) -> None:
    words = ("--met-by", "drawing", "--do", "rework")
    assert stand.run("failure", "lamp", "lamp flickers", *words)[0] == 0
    text = guide_text(stand)
    step = text[text.index("### 3. Screw the diffuser on") :]
    assert "Lamp flickers." in step[: step.index("- **Parts**")]


def test_screws_it_names_and_sizes_its_cure_changes_are_marked(stand: Stand) -> None:
    stand.run("line", "M4x16 screw", "4")
    stand.run("joint", "foot", "M4x16", "--layer", "base=2 mm", "--layer", "lamp=3 mm")
    stand.run("joint", "other foot", "M4x16", "--layer", "crossbar=2 mm")
    words = ("--met-by", "drawing", "--do", "use as is", "--cure", "M4×20, not M4×16")
    stand.run("failure", "base", "screw too short", *words)
    because = ("--because", "screw too short", "--dimension", "opening=181.0")
    stand.run("revise", "base", *because, "--changed", "wider")
    # what the fault was found in is what a release of the first issue says
    issue = ("--revision", "base first issue")
    assert stand.run("release", "1.2", "--anyway", *issue)[0] == 0
    stand.run("guide", "1.2")
    text = stand.read("as-built/published/1.2/guide.md")
    mark = "**Known fault 1**"
    assert f"| M4x16 screw – {mark} |" in text
    assert f"| foot – {mark} |" in text
    assert "| other foot | " in text
    assert f"| opening (matters) – {mark} |" in text
    assert "| length | 179.7 mm" in text


def test_the_line_for_the_readme_leads_to_the_page_and_counts(stand: Stand) -> None:
    said = stand.run("errata", "1.0")[1]
    assert (
        "**Release 1.0 has 1 known fault**: "
        "[what to do](as-built/published/1.0/errata.md)." in said
    )
    stand.run("erratum", CRACK, "--stop-using-until", "it is replaced")
    said = stand.run("errata", "1.0")[1]
    assert "has 1 known fault**, a reason to stop using a part: [what to do](" in said
