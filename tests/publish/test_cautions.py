"""Which cautions a process, a material and a finished thing call for, and how often."""

from __future__ import annotations

import pytest

from logbook.publish.signals import (
    Reminded,
    Spoken,
    as_one,
    of_instruction,
    of_the_whole,
    reminders,
)
from logbook.publish.work_named import work_named
from logbook.shop.cautions import cautions


def names(*processes: str, material: str = "") -> set[str]:
    return {caution.name for caution in reminders(processes, material)}


@pytest.mark.parametrize(
    ("process", "material", "called"),
    [
        ("bending", "aluminium 5052-H32", {"sheet edges", "brake pinch"}),
        ("laser cutting", "black card", {"laser beam"}),
        ("laser cutting", "acrylic", {"laser beam", "laser flare"}),
        ("sawing", "beech, 240 mm across the grain", {"eyes", "wood dust"}),
        ("sawing", "aluminium bar 20 × 10 mm", {"eyes", "chips"}),
        ("filing", "aluminium bar 20 × 10 mm", {"chips"}),
        ("3D printing", "PLA", {"hot printer"}),
        ("3D printing", "tough resin", {"liquid resin", "alcohol wash"}),
        ("drilling", "opal polystyrene", {"spinning tools", "eyes", "drilled plastic"}),
        ("setting blind rivets", "aluminium 5052-H32", {"eyes", "rivet stems"}),
        ("drilled out", "aluminium 5052-H32", {"drilled-out rivets"}),
        ("line bending", "acrylic", {"strip heater"}),
    ],
)
def test_only_the_hazards_of_the_process_and_the_material_are_said(
    process: str, material: str, called: set[str]
) -> None:
    assert names(process, material=material) == called


def test_a_material_nobody_stated_may_be_any() -> None:
    assert "laser pvc" in names("laser cutting")
    assert "laser pvc" not in names("laser cutting", material="black card")
    unstated = {one.name: one.line for one in reminders(["sawing"])}
    assert unstated["wood dust"].startswith("If it is wood or the like: wood dust")
    assert unstated["eyes"].startswith("Impact-rated")
    stated = {one.name: one.line for one in reminders(["sawing"], "beech")}
    assert stated["wood dust"].startswith("Wood dust")


def test_a_material_word_counts_only_whole() -> None:
    assert "wood dust" not in names("sawing", material="splywoodish")
    assert "lock nuts" in names("screwing", material="thin self-locking nut M4")
    assert "lock nuts" not in names("screwing", material="M4 nut")


def test_what_governs_the_whole_is_not_said_of_making_and_the_reverse() -> None:
    whole = of_the_whole(["photographing film strips", "lamp", "filing"])
    assert {one.name for one in whole} == {"nitrate film", "hot lamp", "low voltage"}
    assert names("film") == set()
    assert of_the_whole(["a shelf"]) == ()


@pytest.mark.parametrize(
    ("part", "warned"),
    [("supply", True), ("24 V power supply", True), ("air supply hose", False)],
)
def test_a_thing_without_a_lamp_is_told_of_its_supply_and_of_no_lamp(
    part: str, *, warned: bool
) -> None:
    told = of_the_whole(["pipetting robot", part])
    assert bool(told) is warned
    assert not any("lamp" in one.says.casefold() for one in told)


def test_sanding_by_hand_is_warned_of_dust_and_of_nothing_that_spins() -> None:
    by_hand = of_instruction(["sanded it by hand"], "beech")
    assert {one.name for one in by_hand} == {"wood dust"}
    on_it = of_instruction(["sanded it on the belt sander"], "beech")
    assert {one.name for one in on_it} == {"wood dust", "spinning sander"}
    unsaid = {one.name: one.line for one in of_instruction(["sand it flat"], "beech")}
    assert unsaid["spinning sander"].startswith("If it is a sander or the like")


def test_every_caution_is_about_the_whole_or_about_work_and_can_be_called() -> None:
    for row in cautions().rows:
        assert row.text("of") in {"whole", "work"}, row.label
        assert 0 < len(row.text("short")) < 45, row.label
        for term in (*row.cells["process"], *row.cells["using"]):
            told = reminders([term]) + of_the_whole([term])
            assert row.label in {one.name for one in told}, (row.label, term)


def test_a_caution_is_said_in_full_once_and_then_in_short() -> None:
    spoken = Spoken()
    first = spoken.before(reminders(["filing"], "steel"), "saw", "the saw")
    assert [one.name for box in first for one in box.cautions] == ["chips"]
    assert first[0].again == ()
    second = spoken.before(reminders(["sawing"], "steel"), "file", "the file")
    assert [box.signal for box in second] == ["WARNING", "CAUTION"]
    assert second[0].cautions
    assert second[1].cautions == ()
    assert second[1].again == (
        Reminded("brush chips, clamp small pieces", "saw", "the saw"),
    )


def test_before_work_each_grade_has_one_box_and_before_a_cure_all_have_one() -> None:
    called = reminders(["drilling", "bending"], "aluminium 5052-H32")
    boxes = Spoken().before(called, "base", "Base")
    assert [box.signal for box in boxes] == ["WARNING", "CAUTION"]
    told = [one.name for box in boxes for one in box.cautions]
    assert told == [one.name for one in called], "none is lost, gravest first"
    spoken = Spoken()
    spoken.before(reminders(["filing"], "steel"), "saw", "the saw")
    cure = spoken.before(of_instruction(["drill it out to 6.1"], "steel"), "cure", "it")
    assert len(cure) == 2
    [one] = as_one(cure)
    assert one.signal == "WARNING", "of several hazards the word of the greatest leads"
    assert {caution.name for caution in one.cautions} == {"spinning tools", "eyes"}
    assert [said.says for said in one.again] == ["brush chips, clamp small pieces"]


def test_what_hurts_nobody_is_not_put_under_a_word_for_people() -> None:
    glued = of_instruction(["glued with acrylic cement"], "acrylic")
    boxes = as_one(Spoken().before(glued, "lid", "Lid"))
    assert [box.signal for box in boxes] == ["WARNING", "NOTICE"]
    assert as_one(()) == ()


@pytest.mark.parametrize(
    ("instruction", "processes"),
    [
        ("drill 4 mm holes 9 mm in", {"drilling"}),
        ("not riveted yet: screw it; riveted: drill the rivets out", {"drilling out"}),
        ("take it off, then file the burr", {"filing"}),
        ("use its own file; the drill is 4 mm", set()),
        ("measure the plate and cut the bar", {"cutting"}),
        ("", set()),
    ],
)
def test_an_instruction_names_its_work_where_a_clause_begins(
    instruction: str, processes: set[str]
) -> None:
    known = {"drilling", "drilling out", "filing", "cutting", "riveting", "sawing"}
    named = known & set(work_named(instruction))
    assert named - {"drilling"} == processes - {"drilling"}
    assert processes <= named


SPIN = {"spinning tools", "eyes"}


@pytest.mark.parametrize(
    ("told", "material", "called"),
    [
        ("glue the corner with solvent cement", "PETG", {"solvent cement"}),
        ("glued with acrylic cement", "acrylic", {"solvent cement", "crazing"}),
        ("glued them in with epoxy", "PETG", {"two-part resin"}),
        ("epoxied them", "beech", {"two-part resin"}),
        ("wicked superglue into it", "PETG", {"instant glue"}),
        ("glue the joint with wood glue", "beech", set()),
        ("used contact cement instead", "leather", {"contact adhesive"}),
        ("hot glued it to the base", "card", {"hot glue"}),
        ("resoldered the joint", "copper", {"flux fume"}),
        ("oiled the spindle with machine oil", "steel", set()),
        ("wipe it with danish oil", "beech", {"oily rags"}),
        ("drilled it out to 6.1", "steel", {*SPIN, "chips"}),
        ("drill the rivets out", "aluminium", {*SPIN, "chips", "drilled-out rivets"}),
        ("opened the other holes to slots", "beech", set()),
        ("took 0.1 off with a file", "brass", {"chips"}),
        ("filed a flat", "PETG", set()),
        ("turned it round", "steel", set()),
        ("printed another at 101 %", "PETG", {"hot printer"}),
        (
            "melted an insert in with a soldering iron",
            "PETG",
            {"hot iron", "flux fume"},
        ),
        ("stop drilled it", "acrylic", {*SPIN, "drilled plastic"}),
    ],
)
def test_a_caution_is_about_what_is_really_used(
    told: str, material: str, called: set[str]
) -> None:
    assert {one.name for one in of_instruction([told], material)} == called


def test_what_nobody_said_is_used_is_told_with_an_if() -> None:
    told = {one.name: one.line for one in of_instruction(["glue it"], "acrylic")}
    assert told["two-part resin"].startswith("If it is epoxy or the like: uncured")
    assert told["solvent cement"].startswith("If it is solvent cement or the like: va")
    assert "instant glue" not in told


def test_what_was_said_for_sure_is_not_said_in_full_again_with_an_if() -> None:
    spoken = Spoken()
    spoken.before(of_instruction(["glue it with epoxy"], "PETG"), "a", "step 1")
    (again,) = spoken.before(of_instruction(["glue it"], "PETG"), "b", "step 2")
    assert again.cautions == ()
    assert again.again[0].anchor == "a"
    first = Spoken()
    first.before(of_instruction(["glue it"], "PETG"), "a", "step 1")
    (sure,) = first.before(of_instruction(["epoxy it"], "PETG"), "b", "step 2")
    assert sure.cautions
