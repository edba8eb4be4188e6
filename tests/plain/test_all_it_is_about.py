"""Work on something nobody has named yet, which the whole line is about.

All lines are invented.
"""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("says", "kind", "part"),
    [
        ("oiled the yoke twice", Kind.STEP, "yoke"),
        ("waxed the treadle", Kind.STEP, "treadle"),
        ("I strung the harp, 50 min", Kind.STEP, "harp"),
        ("planed the lintel", Kind.STEP, "lintel"),
        ("varnished the oar with the last tin", Kind.STEP, "oar"),
        ("sharpened the sickle", Kind.STEP, "sickle"),
        ("glazed the sundial", Kind.STEP, "sundial"),
        ("repaired the hayrake with a new tooth", Kind.DISPOSITION, "hayrake"),
        ("tiller rope wore through", Kind.FAILURE, "tiller rope"),
        ("mainspring snapped overnight", Kind.FAILURE, "mainspring"),
    ],
)
def test_what_was_worked_on_or_broke_is_a_new_part(
    says: str, kind: Kind, part: str
) -> None:
    line = understand(says, PROJECT)
    assert (line.verdict, line.kind, line.facts.part) == (Verdict.TAKEN, kind, part)
    assert line.facts.part_is_new


@pytest.mark.parametrize(
    "says",
    [
        "bored the peg holes 8.2",
        "pressed the bearing in for good",
        "made the jig first",
        "uprights split",
        "cut the hoop, then trimmed the lid",
        "switch the feeder to plywood",
        "next roof gets a 30 mm overhang",
        "next hull gets a second coat",
        "ordered 3 drums from the barrel dealer, 75.00",
        "got 2 hides from the saddle shop, 40.00",
    ],
)
def test_what_may_be_none_is_not_made_one_unasked(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.verdict is not Verdict.TAKEN or not line.facts.part_is_new
