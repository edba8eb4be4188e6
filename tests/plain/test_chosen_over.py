"""What is chosen for a part, told without a verb and over what it is not."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

WORDS = of_parts("stool", "seat", "drawer", "handle", "shade", "flex", "top cover")


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("beech for the seat, pine dents", "seat"),
        ("felt under the stool, rubber marks the floor", "stool"),
        ("brass screws in the handle, steel ones rust", "handle"),
        ("drawer in birch ply, mdf swells", "drawer"),
        ("shade in white, the black one got too hot", "shade"),
        ("powder coat for the handle, paint chips", "handle"),
        ("thicker wire to the shade, 1 mm2", "shade"),
        ("longer screws for the seat, M5x40", "seat"),
        ("a grommet on the flex, tape won't do", "flex"),
        ("wax finish on the drawer, no varnish", "drawer"),
        ("swap leather for cork on the seat, leather stretches", "seat"),
        ("drawer in 1.5 sheet, 1 mm flutters", "drawer"),
        ("shade from 0.8 ply, 0.6 splits", "shade"),
        ("make the handle 2 mm shorter", "handle"),
        ("top cover: slots at the back, not the front", "top cover"),
    ],
)
def test_stuff_for_a_part_and_what_speaks_against_another_is_decided(
    says: str, part: str
) -> None:
    line = understand(says, WORDS)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.DECISION), line
    assert line.facts.part == part


@pytest.mark.parametrize(
    "says",
    [
        "glue on the seat, glue won't come off",
        "paint on the thread of the handle, nut binds",
        "screws in the drawer, nuts still missing",
        "screws in the seat, nuts won't turn",
        "nuts on the handle, bolts strip",
        "thicker wire to the shade, 0.2 ohm now",
        "rubber under the stool, steel plate above it",
        "drawer in birch, seat in pine",
        "longer side of the drawer 401.2",
        "drawer in 1.5 sheet, 1 mm to trim",
        "made the handle 2 mm shorter",
        "thicker end of the seat, 18.4",
        "bigger gap on the left of the drawer, 1.2",
        "handle: scratched, not cracked",
        "drawer: runners not in yet",
        "swap the shade for the other one",
        "beech for the seat, pine dents?",
    ],
)
def test_what_only_is_there_or_was_measured_is_not_decided(says: str) -> None:
    line = understand(says, WORDS)
    assert not (line.verdict is Verdict.TAKEN and line.kind is Kind.DECISION), line


def test_no_paint_there_ever_is_decided_of_no_part() -> None:
    line = understand("no wax on the glue faces, ever", WORDS)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.DECISION)
    assert line.facts.part == ""
