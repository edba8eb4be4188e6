"""A step told by its title with the size that came of it; a reading that was denied."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.plain.answers.answering import answered
from logbook.plain.answers.held import held_to_records
from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from logbook.quantity import parse_quantity
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import Note, Run, StepDone
from logbook.records.making.drafts import Draft
from tests.plain.judge import NOW, PROJECT
from tests.plain.records_of import drafted, known, world

WORDS = Vocabulary(
    now=NOW,
    parts={"base": (), "crossbar": ()},
    characteristics={"base": ("opening",), "crossbar": ("length",)},
    steps=("fold the base", "cut the crossbar"),
)


@pytest.mark.parametrize(
    ("says", "size", "read"),
    [
        ("cut the crossbar to 179.74", "179.74 mm", True),
        ("cut the crossbar for base 2 at 178.7, fits with 0.2 play", "178.7 mm", False),
    ],
)
def test_it_is_the_step_with_its_part_and_its_size(
    says: str, size: str, *, read: bool
) -> None:
    line = understand(says, WORDS)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.STEP)
    drawn = (
        replace(one, nominal=parse_quantity("179.7 mm"))
        if isinstance(one, Characteristic) and one.title == "length"
        else one
        for one in known(WORDS)
    )
    records = drafted(line, world(drawn))
    [done] = [one for one in records if isinstance(one, StepDone)]
    assert done.step is not None
    assert done.step.name == "cut the crossbar"
    assert done.part is not None
    assert done.part.name == "crossbar"
    runs = [one for one in records if isinstance(one, Run)]
    assert [str(one.readings[0].value) for one in runs] == ([size] if read else [])
    assert [str(one) for one in done.set_to] == [size]
    assert done.piece is not None
    assert done.piece.name == "crossbar-1"


@pytest.mark.parametrize("says", ["bent the base at 90.5°", "folded the base to 89°"])
def test_the_angle_it_was_bent_to_is_never_held_to_a_length(says: str) -> None:
    drawn = (
        replace(one, nominal=parse_quantity("180 mm"))
        if isinstance(one, Characteristic) and one.title == "opening"
        else one
        for one in known(WORDS)
    )
    before = world(drawn)
    line = held_to_records(understand(says, replace(WORDS, steps=())), before)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.STEP)
    records = drafted(line, before)
    [done] = [one for one in records if isinstance(one, StepDone)]
    [angle] = done.set_to
    assert angle.dimension == "angle"
    assert not [one for one in records if isinstance(one, Run)]


def test_a_step_that_is_still_to_do_is_not_done() -> None:
    line = understand("cut the crossbar to 179.74 tomorrow", WORDS)
    assert line.facts.step != "cut the crossbar" or line.verdict is not Verdict.TAKEN


@pytest.mark.parametrize(
    "says", ["oops base opening was 178.6 not 178.9", "base opening 178.6 not 178.9"]
)
def test_a_reading_on_record_that_is_denied_is_asked_about(says: str) -> None:
    before = known(WORDS)
    first = understand("base opening 178.9", WORDS)
    snapshot = world((*before, *drafted(first, world(before))))
    line = held_to_records(understand(says, WORDS), snapshot)
    assert line.verdict is Verdict.ASKED
    doubt = line.question
    assert doubt is not None
    kept = answered(line, doubt, "only a note", WORDS)
    [note] = draft_line(Draft(snapshot, NOW), kept).new
    assert isinstance(note, Note)


def test_what_nobody_read_is_what_is_wanted() -> None:
    line = understand("base opening 178.6 not 180", WORDS)
    held = held_to_records(line, world(known(WORDS)))
    assert held.verdict is Verdict.TAKEN


def test_what_was_read_may_be_wanted_all_the_same() -> None:
    before = known(WORDS)
    first = understand("base opening 178.9", WORDS)
    snapshot = world((*before, *drafted(first, world(before))))
    line = held_to_records(understand("base opening 178.6 not 178.9", WORDS), snapshot)
    doubt = line.question
    assert doubt is not None
    told = answered(line, doubt, "log it so", WORDS)
    assert held_to_records(told, snapshot, {doubt.question}).verdict is Verdict.TAKEN


@pytest.mark.parametrize(
    ("says", "names"),
    [
        ("printed the gate, spigot 5.91", ["spigot"]),
        ("sewed the pouch, flap 118", ["flap"]),
        ("bent the bracket, tang 31.5", ["tang"]),
        ("turned the collar, spigot 12.02, shoulder 18.1", ["spigot", "shoulder"]),
        ("cut the lid, plywood 4", [""]),
        ("drilled the gate, bit 3.2", [""]),
    ],
)
def test_what_was_made_to_a_size_may_have_a_name_nobody_used(
    says: str, names: list[str]
) -> None:
    line = understand(says, PROJECT)
    assert line.kind is Kind.STEP
    assert [one.what for one in line.facts.readings] == names


@pytest.mark.parametrize(
    "says",
    [
        "cut the lid, blade 2.2",
        "milled the gate, cutter 6",
        "milled the bed, end mill 6.0",
        "bent the bracket, punch 0.8",
        "routed the bed with the 6.35 cutter",
        "ground the lid, disc 1.0",
        "sewed the cover, needle 90",
    ],
)
def test_how_the_tool_is_is_no_size_of_what_was_made(says: str) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.STEP, Verdict.TAKEN)
    assert line.facts.readings == ()


@pytest.mark.parametrize(
    ("says", "told"),
    [
        ("torqued the lid screws to 0.4", [("", "0.4 N·m")]),
        ("tightened the collar to 1.2", [("", "1.2 N·m")]),
        ("soldered the leads, 200 long", [("lead length", "200 mm")]),
        ("drilled 3.2 holes 24 apart", [("", "3.2 mm"), ("hole spacing", "24 mm")]),
        ("milled a 6 slot 4 deep in the collar",
         [("", "6 mm"), ("slot depth", "4 mm")]),
        ("tapped four M4 holes 10 deep", [("hole depth", "10 mm")]),
        ("bent the flange to 90", [("flange", "90°")]),
        ("dried the bed at 60", [("", "60 °C")]),
        ("cut the lid to 40", [("", "40 mm")]),
        ("turned the collar down 0.1", []),
    ],
)  # fmt: skip
def test_what_work_was_done_to_has_its_unit_and_its_side(
    says: str, told: list[tuple[str, str]]
) -> None:
    readings = understand(says, PROJECT).facts.readings
    assert [(one.what, str(one.value)) for one in readings] == told


@pytest.mark.parametrize(
    ("says", "price"),
    [
        ("ordered 1 collar 6.35 thick, 38.50", "38.50"),
        ("bought 12.75 plywood for the lid, 22.00", "22.00"),
        ("ordered the plates, 38.50", "38.50"),
    ],
)
def test_a_size_is_no_price(says: str, price: str) -> None:
    assert understand(says, PROJECT).facts.price_text == price
