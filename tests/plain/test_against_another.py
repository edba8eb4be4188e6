"""A size told against another thing is asked about, not held against the drawing."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    "says",
    [
        "lid 2 mm wider than the base",
        "gate 0.3 thinner than the last one",
        "crossbar 12.4 longer than the old one",
        "collar 0.2 thicker than its washer",
        "bed sits 1.5 lower than the lid",
        "shaft 7.98 / bearing 8.00",
        "shaft 7.98, bearing 8.00",
        "collar 12.9 and bearing 13.0",
    ],
)
def test_what_is_held_against_another_thing_is_asked(says: str) -> None:
    assert understand(says, PROJECT).verdict is Verdict.ASKED


@pytest.mark.parametrize(
    ("says", "off", "sense"),
    [
        ("collar 0.2 thicker than drawn", "0.2 mm", "thicker"),
        ("collar 0.2 thicker than it should be", "0.2 mm", "thicker"),
        ("crossbar 1.2 shorter than the drawing says", "1.2 mm", "shorter"),
        ("bracket 2 mm lower than I drew it", "2 mm", "lower"),
        ("bed out of flat 0.4 over 300", "0.4 mm", "out of flat"),
        ("collar out of round 0.05", "0.05 mm", "out of round"),
    ],
)
def test_how_far_it_is_off_what_was_drawn_is_taken(
    says: str, off: str, sense: str
) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.READING, Verdict.TAKEN)
    assert (str(line.facts.off), line.facts.off_sense) == (off, sense)


@pytest.mark.parametrize(
    ("says", "names"),
    [
        ("shaft 7.98; bore 8.00", ["", "bore"]),
        ("tenon 11.9, mortise 12.1", ["tenon", "mortise"]),
        ("endplay 0.1", ["endplay"]),
        ("ovality 0.03", ["ovality"]),
    ],
)
def test_sizes_of_one_thing_are_read_together(says: str, names: list[str]) -> None:
    line = understand(says, PROJECT)
    assert [one.what for one in line.facts.readings] == names
    assert line.facts.part != "endplay"
