"""Known faults that are saved, changed, rejected or refused."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.advice.faults.known import known_faults
from logbook.errors import BadInput, NotFound
from logbook.records.kinds import assembling, design, happenings, workshop
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import Blame, ErratumStatus, Severity, WayRound
from logbook.records.states.statements import identity
from tests.publish.errata_data import CRACK, as_data
from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")


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
