"""Known faults: drafted from entries, saved, and told to who is affected."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from logbook.advice.faults.applies import NOT_KNOWN, faults_in, standing
from logbook.advice.faults.known import known_faults
from logbook.errors import BadInput, NotFound
from logbook.publish.errata.errata import write_errata
from logbook.records.kinds import assembling, design, happenings, workshop
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.words import Blame, ErratumStatus, Severity, WayRound
from logbook.records.states.statements import identity
from logbook.records.states.tried import verdict_of
from tests.conftest import Golden
from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")

Mask = Callable[[str], str]
CRACK = "diffuser cracked at a corner screw"


def release_of(stand: Stand, label: str) -> Release:
    return stand.project.snapshot.lookup(f"release {label}", Release)


def as_data(stand: Stand, *words: str) -> dict[str, Any]:
    code, said = stand.run("errata", *words, "--json")
    assert code == 0
    found: dict[str, Any] = json.loads(said)
    return found


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
        "> **STOP** Do not use the lamp of release 1.0 and 1.1 (lamp first issue) "
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
    assert evidence[1] == "seen in 1 of 1 builds that made an affected revision"


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


# -- saving one ------------------------------------------------------------------


def test_saving_keeps_every_field_the_entry_answers_and_ends_the_draft(
    stand: Stand,
) -> None:
    draft = known_faults(stand.project.snapshot)[0]
    assert stand.run("erratum", CRACK, "--symptom", "a star at the screw")[0] == 0
    saved = stand.project.snapshot.all(Erratum)
    assert [fault.id for fault in known_faults(stand.project.snapshot)] == [saved[0].id]
    assert saved[0].symptom == "a star at the screw"
    assert saved[0].fixed_by == draft.fixed_by
    assert saved[0].revisions == draft.revisions
    assert tuple(map(identity, saved[0].statements)) == draft.statements
    assert saved[0].statements[:2] == (
        f"step: Screw the diffuser on {draft.statements[0]}",
        f"file: drawings/diffuser.dxf {draft.statements[1]}",
    )
    text = stand.read(stand.project.snapshot.path(saved[0]))
    assert f'"step: Screw the diffuser on {draft.statements[0]}"' in text
    assert saved[0].releases == ()
    assert saved[0].severity is Severity.DAMAGE
    assert saved[0].do_this == "oversize holes 9 mm in, pan heads, washers"
    assert saved[0].published is not None


def test_a_saved_fault_is_changed_by_its_name_and_never_doubled(stand: Stand) -> None:
    stand.run("erratum", CRACK)
    words = ("--way-round", "partial", "--status", "confirmed", "--severity", "safety")
    assert stand.run("erratum", CRACK, *words)[0] == 0
    saved = stand.project.snapshot.all(Erratum)
    assert len(saved) == 1
    assert saved[0].way_round is WayRound.PARTIAL
    assert saved[0].status is ErratumStatus.CONFIRMED
    table = as_data(stand, "1.0")["faults"][0]["table"]
    assert table[0]["words"] == "way round in part"


def test_a_rejected_fault_applies_no_more_but_stays_visible(stand: Stand) -> None:
    stand.run("erratum", CRACK, "--status", "rejected")
    data = as_data(stand, "1.0")
    assert data["faults"] == []
    assert [one["title"] for one in data["dropped"]] == [CRACK]
    stand.run("errata", "1.0")
    text = stand.read("as-built/published/1.0/errata.md")
    assert "## Taken back\n\n- Diffuser cracked at a corner screw: rejected." in text
    assert "No fault is known. That is all the record can say" in text


def test_a_fault_of_the_papers_alone_is_saved_from_scratch(stand: Stand) -> None:
    words = ("--part", "lamp", "--severity", "document", "--release", "release 1.0")
    assert stand.run("erratum", "the list forgets the lamp's plug", *words)[0] == 0
    titles = [one["title"] for one in as_data(stand, "1.0")["faults"]]
    assert titles == [CRACK, "the list forgets the lamp's plug"]
    # The list says the same in 1.1; once its line is amended, the next one is free.
    assert len(as_data(stand, "1.1")["faults"]) == 1
    draft = stand.begin()
    line = draft.snapshot.lookup("lamp", assembling.Line)
    draft.amend(replace(line, bought_as="24 V, 6 W, 90 CRI, with its plug"))
    stand.keep(draft, "list: name the plug")
    assert stand.run("release", "1.2")[0] == 0
    assert as_data(stand, "1.2")["faults"] == []


def test_nothing_of_that_name_gives_a_sentence(stand: Stand) -> None:
    code, said = stand.run("erratum", "no such thing")
    assert code == NotFound.exit_code
    assert "or --part for a new fault" in said


def test_all_and_one_release_at_once_is_refused(stand: Stand) -> None:
    code, said = stand.run("errata", "1.0", "--all")
    assert code == BadInput.exit_code
    assert "accepted: one of the two" in said


def test_a_later_build_without_the_fault_is_counted(stand: Stand) -> None:
    draft = stand.begin()
    build = draft.add(workshop.Build(id="b111d002", title="build 2", when=draft.when))
    part = draft.snapshot.lookup("diffuser", design.Part)
    first = draft.snapshot.lookup("diffuser first issue", Revision)
    draft.add(
        workshop.Piece(
            id="p1ece002",
            title="diffuser-2",
            part=part.ref,
            revision=first.ref,
            build=build.ref,
            number=2,
            when=draft.when,
        )
    )
    stand.keep(draft, "build 2")
    evidence = as_data(stand, "1.0")["faults"][0]["evidence"]
    assert evidence[-1] == "seen in 1 of 2 builds that made an affected revision"


def test_an_entry_blamed_on_the_drawing_later_becomes_a_known_fault(
    drawn: Stand,
) -> None:
    drawn.run("failure", "diffuser", CRACK, "--do", "scrap")
    assert known_faults(drawn.project.snapshot) == ()
    draft = drawn.begin()
    entry = draft.snapshot.lookup(CRACK, happenings.Failure)
    draft.amend(replace(entry, met_by_others=Blame.DRAWING))
    drawn.keep(draft, "blame")
    assert [fault.title for fault in known_faults(drawn.project.snapshot)] == [CRACK]


# -- cures that fail -------------------------------------------------------------


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
    assert f"N{none[1:]}" in step
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


# -- faults told in words --------------------------------------------------------


def tell(stand: Stand, title: str, do_this: str) -> None:
    """Note what is wrong, and answer what is offered for it."""
    assert stand.run("note", title)[0] == 0
    code, said = stand.run("offered", "take", title, do_this)
    assert code == 0, said


def stands(stand: Stand, title: str) -> list[str]:
    rows = as_data(stand, "1.0")["matrix"]["rows"]
    found = next(row["stands"] for row in rows if row["title"] == title)
    return [str(words) for words in found]


def test_a_fault_of_a_step_is_not_known_where_the_step_changed(stand: Stand) -> None:
    title = "step 1 names a shim that has no file"
    tell(stand, title, "cut it from card")
    assert stand.run("release", "1.2")[0] == 0
    has = "way round available"
    assert stands(stand, title)[-1] == has
    assert stand.run("step", "Fold the base", "--tool", "shim")[0] == 0
    assert stand.run("release", "1.3", "--anyway")[0] == 0
    assert stands(stand, title)[-1] == "not known"


def test_a_fault_of_a_file_stays_until_the_file_changes(stand: Stand) -> None:
    title = "crossbar.dxf shows nothing when opened"
    tell(stand, title, "scale it by 25.4")
    assert stand.run("release", "1.2")[0] == 0
    has = "way round available"
    assert stands(stand, title) == [has, has, has]
    guide = stand.run("guide", "1.2", "--print")[1]
    assert "crossbar.dxf – **Known fault 1**" in guide
    assert "Each is marked below" in guide
    stand.draw("crossbar", "179.7, in millimetres")
    stand.commit_files("Draw the crossbar in millimetres")
    draft = stand.begin()
    part = draft.snapshot.lookup("crossbar", design.Part)
    draft.new_revision(part, changed="in millimetres", files=stand.file("crossbar"))
    stand.keep(draft, "revision: crossbar rev A")
    assert stand.run("release", "1.3")[0] == 0
    assert stands(stand, title) == [has, has, has, "not affected"]


def test_a_fault_that_names_nothing_is_not_known_of_later_releases(
    stand: Stand,
) -> None:
    title = "the guide lacks a word on levelling it"
    tell(stand, title, "level it")
    assert stand.run("release", "1.2")[0] == 0
    assert stands(stand, title)[-1] == NOT_KNOWN
    guide = stand.run("guide", "1.1", "--print")[1]
    assert "The guide lacks a word on levelling it" in guide
    assert "arked below where" not in guide
