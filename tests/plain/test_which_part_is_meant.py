"""Names that go on, stand in another order, or slip are of the parts that have them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Understanding, Verdict
from logbook.plain.words.project_words import short_names
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.happenings import Disposal, Failure, Run
from logbook.records.kinds.workshop import Piece
from tests.plain.judge import NOW, of_parts
from tests.plain.records_of import drafted, known, world

TITLES = (
    "B wall", "C wall track", "D wall track", "M top wheel cover",
    "Hood Camera Mount", "1012 Camera Mount", "Camera Mount",
    "1009 Z Motor Lock", "Z-Motor Lock",
)  # fmt: skip
WORDS = Vocabulary(now=NOW, parts=short_names(TITLES))


def choices(line: Understanding) -> tuple[str, ...]:
    """Give what is offered as the part, nothing where it is not asked."""
    doubt = line.question
    return doubt.choices if doubt and doubt.needed and doubt.about == "part" else ()


@pytest.mark.parametrize(
    ("says", "offered"),
    [
        ("wall track is 107.6 long, drawing says 108", "C wall track"),
        ("wall track is 107.6 long, drawing says 108", "D wall track"),
        ("wall trakc is 107.6 long, drawing says 108", "C wall track"),
        ("wall trakc bracket side warped off the bed", "D wall track"),
        ("wal track cracked at the boss", "D wall track"),
        ("wheel covr snapped at the clip", "M top wheel cover"),
        ("camera mount hood wobbles", "Hood Camera Mount"),
        ("camera hood mount wobbles", "Hood Camera Mount"),
    ],
)
def test_the_parts_it_may_be_are_offered(says: str, offered: str) -> None:
    line = understand(says, WORDS)
    assert offered in (choices(line) or (line.facts.part,))


def test_the_wall_is_not_offered_for_a_wall_track() -> None:
    line = understand("wall track is 107.6 long, drawing says 108", WORDS)
    assert "B wall" not in choices(line)


def test_the_name_of_a_size_is_no_wall_where_it_goes_on() -> None:
    sized = replace(WORDS, characteristics={"B wall": ("wall",)})
    line = understand("wall track cracked at the screw boss", sized)
    assert line.facts.part != "B wall"


@pytest.mark.parametrize(
    "says",
    [
        "1009 Z motor lock cracked at the slot",
        "models/1009_Z_Motor_Lock.dxf cracked at the slot",
        "1009_Z_Motor_Lock.dxf is 3.1 thick",
    ],
)
def test_a_part_called_by_its_number_or_its_file_is_not_asked_for(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.verdict, line.facts.part) == (Verdict.TAKEN, "1009 Z Motor Lock")


@pytest.mark.parametrize(
    ("says", "piece"),
    [
        ("C wall track length 107.8 on the second print", "C wall track-2"),
        ("C wall track 107.8 long on the 2nd one", "C wall track-2"),
        ("second C wall track 107.8 long", "C wall track-2"),
        ("C wall track 107.8 long", "C wall track-1"),
    ],
)
def test_the_second_print_is_the_second_piece(says: str, piece: str) -> None:
    records = drafted(understand(says, WORDS), world(known(WORDS)))
    [made] = [one.title for one in records if isinstance(one, Piece)]
    assert made == piece


def test_how_warm_it_was_printed_is_no_size_of_a_wall() -> None:
    says = "printed both wall tracks and the B wall, 6 h each, 215 degrees"
    records = drafted(understand(says, WORDS), world(known(WORDS)))
    assert not any(isinstance(one, Run) for one in records)


def test_work_on_the_other_part_is_no_rework_of_the_first() -> None:
    says = "B wall and C wall track dont line up, filed the track 0.8"
    records = drafted(understand(says, WORDS), world(known(WORDS)))
    [failure] = [one for one in records if isinstance(one, Failure)]
    assert failure.disposition is None
    assert failure.cure == "filed the track 0.8"
    assert not any(isinstance(one, Disposal) for one in records)


def test_what_was_only_thought_at_first_is_no_cause() -> None:
    says = (
        "B wall snapped at the clip, i first thought it was the petg but it was "
        "printed too cold"
    )
    cause = understand(says, WORDS).facts.cause
    assert cause is not None
    assert cause.said == "it was printed too cold"


WALKER = Vocabulary(
    now=NOW,
    parts=short_names(
        ("quadruped foot", "quadruped upper leg left side", "hip shelf", "worm tooth")
    ),
)


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("TPU instead of PETG for the feet, grips better", "quadruped foot"),
        ("wall of the feet only 1.2", "quadruped foot"),
        ("both feet cracked", "quadruped foot"),
        ("printed 4 feet", "quadruped foot"),
        ("quadruped feet cracked", "quadruped foot"),
        ("hip shelves sagged", "hip shelf"),
        ("worm teeth wore off after 3 h", "worm tooth"),
    ],
)
def test_several_of_a_part_are_no_new_part(says: str, part: str) -> None:
    line = understand(says, WALKER)
    assert (line.facts.part, line.facts.part_is_new) == (part, False)
    assert not line.facts.readings or line.facts.readings[0].value.unit != "ft"


@pytest.mark.parametrize(
    "says",
    [
        "left uper leg lenght 198.4, drawing says 198",
        "left uppr leg 198.4 long, should be 198",
        "uper left leg cracked at the bore",
        "left leg uper cracked at the bore",
        "scrapped the left uper leg",
    ],
)
def test_a_slip_in_words_in_another_order_makes_no_part(says: str) -> None:
    line = understand(says, WALKER)
    assert line.facts.part == "quadruped upper leg left side"
    assert not line.facts.part_is_new


def test_another_side_is_no_slip() -> None:
    line = understand("left lower leg 198.4 long, should be 198", WALKER)
    assert line.facts.part_is_new or choices(line)


@pytest.mark.parametrize(
    "says",
    [
        "left lower leg cracked",
        "right leg 198.4 long, should be 198",
        "scrapped the right upper leg",
        "lower leg bent",
    ],
)
def test_what_a_name_says_otherwise_is_asked(says: str) -> None:
    line = understand(says, WALKER)
    assert line.facts.part_is_new or choices(line)


@pytest.mark.parametrize("says", ["maks 36.2 after filing", "maks cracked", "gaet 2.1"])
def test_two_letters_swapped_at_the_end_are_a_slip(says: str) -> None:
    line = understand(says, of_parts("mask", "gate"))
    offered = choices(line) or (line.facts.part,)
    assert {"mask", "gate"} & {*offered}


BOAT = Vocabulary(
    now=NOW,
    parts=short_names(
        ("keel", "thwart", "fibre washer", "mast step", "rudder head", "lamp", "lid",
         "oar socket", "M5x20 screw")
    ),
)  # fmt: skip
"""A boat with its parts."""


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("hood sagged, lamp too close", "hood"),
        ("awning tore because the lamp is too hot", "awning"),
        ("bezel came loose when I took the lid off", "bezel"),
        ("flap tore off, glued it to the lid", "flap"),
        ("hatch rattles, put a fibre washer under it", "hatch"),
        ("tiller cracked, planed the thwart", "tiller"),
        ("handrail came loose, tightened the M5x20 screw", "handrail"),
        ("window cracked, replaced the lamp", "window"),
        ("back cover bowed, screwed down too hard, cure fibre washers under it",
         "back cover"),
    ],
)  # fmt: skip
def test_what_is_told_first_failed_and_no_part_told_behind_it(
    says: str, part: str
) -> None:
    line = understand(says, BOAT)
    assert line.facts.part == part or part in choices(line)
    assert not choices(line) or line.verdict is Verdict.ASKED


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("cracked at the corner, sanded the lid", "lid"),
        ("warped in the sun, planed the thwart", "thwart"),
        ("squeaks, oiled the oar socket", "oar socket"),
        ("keel split, glued it and screwed it to the mast step", "keel"),
        ("glue failed, lid came off", "lid"),
        ("screw sheared, lid came loose", "lid"),
    ],
)
def test_where_nothing_else_failed_it_is_the_part_named_behind(
    says: str, part: str
) -> None:
    assert understand(says, BOAT).facts.part == part


@pytest.mark.parametrize(
    ("says", "first"),
    [
        ("clamp top slid off when I pushed the pipette in", "clamp top"),
        ("clamp top slid off when I pushed the pipette in, tape fixed it", "clamp top"),
    ],
)
def test_what_the_line_begins_with_is_offered_before_what_it_names_by_the_way(
    says: str, first: str
) -> None:
    line = understand(says, of_parts("hook", "lathe stand"))
    assert line.question is not None
    assert line.question.choices[0] == first


def test_a_known_part_whose_name_ends_so_is_offered_first() -> None:
    words = of_parts("hook", "pipette clamp top")
    line = understand("clamp top slid off when I pushed the bung in", words)
    told = line.question.choices[0] if line.question else line.facts.part
    assert "pipette clamp top" in (told, line.facts.part)
