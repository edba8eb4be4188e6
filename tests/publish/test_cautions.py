"""Which cautions a process, a material and a finished thing call for, and how often."""

from __future__ import annotations

import pytest

from logbook.publish.errata.work_named import work_named
from logbook.publish.signals import Reminded, Spoken, of_the_whole, reminders
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
    assert unstated["wood dust"].startswith("If it is wood or the like: Wood dust")
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


def test_every_caution_is_about_the_whole_or_about_work_and_can_be_called() -> None:
    for row in cautions().rows:
        assert row.text("of") in {"whole", "work"}, row.label
        assert 0 < len(row.text("short")) < 45, row.label
        for term in row.cells["process"]:
            told = reminders([term]) + of_the_whole([term])
            assert row.label in {one.name for one in told}, (row.label, term)


def test_a_caution_is_said_in_full_once_and_then_in_short() -> None:
    spoken = Spoken()
    first = spoken.before(reminders(["filing"], "steel"), "saw", "the saw")
    assert [box.caution.name for box in first if box.caution] == ["chips"]
    assert first[0].again == ()
    second = spoken.before(reminders(["sawing"], "steel"), "file", "the file")
    assert [box.signal for box in second] == ["WARNING", "CAUTION"]
    assert second[0].caution
    assert second[1].caution is None
    assert second[1].again == (
        Reminded("brush chips, clamp small pieces", "saw", "the saw"),
    )


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
