"""What stands right beside a value decides whose it is, or whether it is one."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.records.kinds.workshop import Piece
from tests.plain.fresh import PROJECTS
from tests.plain.records_of import drafted, known, world


def _read(line: str, project: str = "lines") -> Understanding:
    return understand(line, PROJECTS[project])


@pytest.mark.parametrize(
    ("project", "line"),
    [
        # So far it went; a count beside a value with its unit; half a name.
        ("lines", "bed moved 0.8 across the grain since Monday"),
        ("demo", "base shifted 1.5 while clamping"),
        ("lines", "lamp draws 12 V, 2 open"),
        ("lines", "gate 51 C, 3 spots"),
        ("lines", "60 W iron, tip 350 C"),
        # Of another piece; which of two was read so.
        ("lines", "first mask 24.2 high second 24.1"),
        ("empty", "first leg 402.1 long second 401.8"),
        ("empty", "regulator 3.31 V under load 3.28"),
        ("lines", "lamp 24.1 V idle 23.6"),
        # What is told lies elsewhere than the part it would be put to.
        ("lines", "channel 0.5 too shallow for the cable"),
        ("empty", "mortise 2 mm too long at the haunch"),
        ("empty", "door hangs 4 mm low at the latch"),
        ("lines", "rebate 0.3 too narrow for the diffuser"),
        # A wanted size of none that was read; a number in no fact.
        ("lines", "dispensed 100 ul weighs 97.4 mg should be 99.8"),
        ("lines", "bed 0.6 over at the far end, 0.2 at the near"),
        ("lines", "collar 40 OD x 20 ID x 6.35"),
        ("lines", "base weighs 40 g less than drawn"),
        ("lines", "film sits 0.2 low in the gate"),
        ("lines", "3 h at 24 V, 58 on the lamp face"),
        ("lines", "base bends 1 and 2 at 90.2, 3 at 89.5"),
        ("lines", "ran the lamp 2 h in the closed base: 61 C"),
        ("demo", "lamp without diffuser 0.44 A, with 0.43"),
        ("demo", "opening before paint 178.66, after 178.45"),
        ("lines", "fuse 1 A too small, 1.6 A now"),
        ("demo", "the base that was scrapped is now a jig"),
        ("demo", "collar glued to the base because the screws were too short"),
        ("lines", "base leg 40.2, other 39.8"),
        ("lines", "old base 178.6, new base 180.1"),
        ("lines", "cut 10 strips 12 wide, 2 wasted"),
        ("lines", "lamp at 50 % 0.21 A, 100 % 0.42"),
        ("lines", "PETG at 235, 60 fan"),
        ("empty", "pocket 18 by 22, flap 2 short"),
        ("empty", "zip 60 cm, bag 58"),
        ("files", "right upright 300.2, left 299.8"),
        ("files", "bend of the left upright 90.5, right 89.8, should be 90"),
        ("files", "upright flange 12.4 instead of 12"),
        ("files", "x rail 349.2, drawn 350, spacer takes it up"),
        ("files", "rail 0.8 short, spacer 0.8 thicker"),
        ("files", "cable clip 2 of 6 snapped"),
        ("lines", "lamp 3 of 8 dead"),
        ("files", "felt strip in the mirror box lid, no more leak"),
        ("lines", "gap under 0.05 everywhere"),
        ("lines", "R 47 ohm measured 46.2"),
        ("lines", "opening 178.6 on friday, 178.4 now"),
        ("lines", "from 9 to 11 soldering the lamp"),
        ("empty", "balance arm 0.3 heavy on the left"),
        ("empty", "greenhouse hinge 60 x 40 too small"),
        # A failure by a noun that was measured.
        ("lines", "lamp flicker 100 Hz"),
        # Work with a size of something nobody read.
        ("empty", "cylinder bored 22.03 tapered 0.02"),
        ("empty", "bushing pressed in, 0.02 interference"),
        ("lines", "base scrapped, made a new one 180.1"),
        # A list is no count; stock that is out is no choice.
        ("lines", "cut list: 2 uprights 300, 1 base 240"),
        ("lines", "to saw: 4 legs 702, 2 rails 388"),
        ("demo", "no more M3 pan heads"),
        ("lines", "no more M4x20 screws"),
        ("lines", "no room for a washer under the collar nut"),
        ("lines", "no clearance for the driver under the lamp"),
        ("lines", "no gap between lid and base any more"),
        ("demo", "got 3 lids out of the sheet"),
        # A part that would be new by a slip of the keys.
        ("lines", "flashed the driver baord"),
    ],
)
def test_a_value_that_may_be_of_something_else_is_not_taken(
    project: str, line: str
) -> None:
    assert _read(line, project).verdict is not Verdict.TAKEN


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("lamp pulls 0.47 A", Kind.READING),
        ("tank holds 4 bar, want 6", Kind.READING),
        ("gate 0.3 too wide for the rail", Kind.READING),
        ("lid 59.5, 0.5 too narrow", Kind.READING),
        ("mask window 36.2 wide", Kind.READING),
        ("lamp flickers at 100 Hz", Kind.FAILURE),
        ("collar wobbles 0.3", Kind.FAILURE),
        ("lid rubs at the back by 0.2", Kind.FAILURE),
        ("drilled 2.5 pilot holes in the lid", Kind.STEP),
        ("milled the slot 6 wide 12 long in the bracket", Kind.STEP),
        ("got 5 m of cable", Kind.ORDER),
        ("no more glue on the lid, screws only", Kind.DECISION),
        ("no paint on the base", Kind.DECISION),
        ("base left 100.2, right 99.8", Kind.READING),
        ("lamp 3 dead", Kind.FAILURE),
    ],
)
def test_a_plain_neighbour_asks_nothing(line: str, kind: Kind) -> None:
    read = _read(line)
    assert (read.verdict, read.kind) == (Verdict.TAKEN, kind)


@pytest.mark.parametrize(
    ("line", "value", "wanted"),
    [
        ("lid 12 in, plan says 10", "12 in", "10 in"),
        ("lid 3 in, should be 76", "3 in", "76 mm"),
        ("bed 24 cm should be 239", "24 cm", "239 mm"),
        ("cable 2 m, should be 2.5", "2 m", "2.5 m"),
        ("lid 59.8 should be 60", "59.8 mm", "60 mm"),
        ("bracket slot 4.1, needs 4.4", "4.1 mm", "4.4 mm"),
        ("lamp 0.9 A, needs 1.2", "0.9 A", "1.2 A"),
        ("gate spring 40 g, needs 25 for thin film", "40 g", "25 g"),
    ],
)
def test_a_bare_wanted_figure_is_in_the_unit_it_is_nearer_in(
    line: str, value: str, wanted: str
) -> None:
    facts = _read(line).facts
    assert [str(one.value) for one in facts.readings] == [value]
    assert [str(one) for one in facts.wanted] == [wanted]


@pytest.mark.parametrize(
    "line", ["lamp draws 0.9 A, needs a 2 A fuse", "collar 40.2, needs 0.3 off"]
)
def test_what_is_needed_beside_a_value_is_not_measured(line: str) -> None:
    facts = _read(line).facts
    assert len(facts.readings) == 1
    assert not facts.wanted


@pytest.mark.parametrize(
    ("line", "places"),
    [
        ("hinge side 1981, latch side 1978", ["hinge side", "latch side"]),
        ("wall side 18.2, room side 18.4", ["wall side", "room side"]),
        ("door hinge side 981, latch side 978", ["hinge side", "latch side"]),
    ],
)
def test_two_sides_named_beside_each_other_are_places(
    line: str, places: list[str]
) -> None:
    facts = _read(line, "empty").facts
    assert [one.place for one in facts.readings] == places
    assert facts.part in ("", "door")


@pytest.mark.parametrize(
    ("line", "first"),
    [
        ("lamp melted the gate", "gate"),
        ("lamp scorched the bed", "bed"),
        ("crossbar scratched the base going in", "base"),
        ("lamp hole in the base 12.2", "base"),
        ("cable slot in the lid 8.2", "lid"),
        ("lid off: 41 C on the lamp", "lamp"),
        ("film sits 0.2 low in the gate", "film"),
        ("clock case door binds at the top", "case door"),
        ("chuck key sheared the pin", "pin"),
    ],
)
def test_whose_it_is_is_asked_with_the_likelier_first(line: str, first: str) -> None:
    doubt = _read(line).question
    assert doubt is not None
    assert (doubt.about, doubt.choices[0]) == ("part", first)


@pytest.mark.parametrize(
    "line",
    [
        "mask fouls the gate",
        "lid rubbed the base",
        "lamp face in the base 51 C",
        "lid hinge side 12.2",
    ],
)
def test_what_fails_at_another_is_its_own(line: str) -> None:
    read = _read(line)
    assert read.facts.part == line.split(maxsplit=1)[0]
    assert read.question is None or read.question.about != "part"


@pytest.mark.parametrize(
    "line",
    ["moved the holes 5 mm in", "moved the bracket 5 mm to the left, clears the cable"],
)
def test_how_far_a_thing_was_moved_is_no_size_of_it(line: str) -> None:
    read = _read(line)
    assert (read.kind, read.facts.readings) == (Kind.STEP, ())


@pytest.mark.parametrize(
    "line", ["left the bed 0.5 over for planing", "crossbar left long, 181"]
)
def test_what_was_left_is_not_on_the_left(line: str) -> None:
    assert _read(line).facts.place == ""


@pytest.mark.parametrize(
    ("line", "values"),
    [
        ("tack welded the bracket, 2 tacks per side", []),
        ("lid riveted at 6 points", []),
        ("crimped 4 ferrules on the lamp leads, 15 min", []),
        ("spring 0.4 thick, 8 turns", ["0.4 mm"]),
        ("collar 6 thick", ["6 mm"]),
        ("cable 4 x 0.5 mm2, 620 long", ["0.5 mm²", "620 mm"]),
        ("flange was 11.9 now 11.6", ["11.6 mm"]),
        ("bed was 18.4, now 18.1", ["18.1 mm"]),
        ("glued 3 of 8 feet on", []),
        ("bed scarf 8:1, 12 mm long", ["12 mm"]),
        ("flashed firmware 1.2 on the lamp", []),
        ("bed moisture 8 %, shop 45 % rh", ["8 %"]),
    ],
)
def test_so_many_things_are_no_size(line: str, values: list[str]) -> None:
    assert [str(one.value) for one in _read(line).facts.readings] == values


@pytest.mark.parametrize(
    ("line", "closes"),
    [
        ("tested the lamp in the closed base", False),
        ("drilled a vent in the riveted lid", False),
        ("closed the base", True),
        ("riveted the lid on", True),
    ],
)
def test_a_part_that_was_closed_before_closes_nothing(
    line: str, *, closes: bool
) -> None:
    assert _read(line).facts.closes is closes


def test_the_angle_of_a_chamfer_is_no_side_of_it() -> None:
    facts = _read("gate chamfer 0.5 x 45").facts
    assert [str(one.value) for one in facts.readings] == ["0.5 mm"]
    assert len(_read("mask aperture 36.1 x 24.0").facts.readings) == 2


@pytest.mark.parametrize(
    "line", ["dropped in a 0.5 shim under the lamp", "packed the bed with a 1.2 shim"]
)
def test_the_size_of_a_shim_is_none_of_what_it_lies_under(line: str) -> None:
    read = _read(line)
    assert (read.kind, read.facts.readings) == (Kind.DISPOSITION, ())


def test_a_new_piece_with_its_size_is_one_piece_where_the_newest_is_scrapped() -> None:
    project = PROJECTS["lines"]
    snapshot = world(known(project))
    for line in ("lid 60.2 wide", "scrap the lid"):
        snapshot = world([*snapshot, *drafted(understand(line, project), snapshot)])
    new = drafted(understand("sawed a new lid 63.02 wide", project), snapshot)
    assert len([one for one in new if isinstance(one, Piece)]) == 1


@pytest.mark.parametrize(
    ("line", "first"),
    [
        ("glass 1.9 thick at one edge, 2.05 at the other", "glass"),
        ("plywood 18.2 thick", "plywood"),
    ],
)
def test_a_material_alone_is_asked_which_part_it_is(line: str, first: str) -> None:
    asked = _read(line).question
    assert asked is not None
    assert (asked.question, asked.choices) == ("which part?", (first, "no part"))


@pytest.mark.parametrize(
    "line",
    [
        "brass collar 6.02 thick",
        "the glass of the lamp is 58 C",
        "sheet is really 1.14 thick",
        "beech moisture 9 %",
        "the boards are going back, wet",
    ],
)
def test_stock_and_the_material_of_a_part_are_not_asked_about(line: str) -> None:
    assert _read(line).question is None
