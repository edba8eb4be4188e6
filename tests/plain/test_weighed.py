"""What was weighed is a weight, whatever the line says of the thing on the scale."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("says", "part", "value"),
    [
        ("weighed the finished lid at 186 g", "lid", "186 g"),
        ("weighed the lid dry, 186 g", "lid", "186 g"),
        ("weighed the lid without screws, 186 g", "lid", "186 g"),
        ("weighed the collar on the kitchen scale, 42 g", "collar", "42 g"),
        ("weighed the assembled gate before paint: 212 g", "gate", "212 g"),
        ("I weighed the cracked lid, 186 g", "lid", "186 g"),
        ("re-weighed the lamp, now 412 g", "lamp", "412 g"),
        ("weighed the cushion with its cover on, 640 g", "cushion", "640 g"),
        ("weighed the sanded bowl at last: 412 g", "bowl", "412 g"),
        ("the whole thing weighs 1.86 kg", "", "1.86 kg"),
    ],
)
def test_what_was_weighed_is_a_weight(says: str, part: str, value: str) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.READING, Verdict.TAKEN)
    assert (line.facts.part, line.facts.what) == (part, "weight")
    assert [str(one.value) for one in line.facts.readings] == [value]


@pytest.mark.parametrize(
    "says",
    [
        "weighed the lid",
        "weighed out 186 g of resin",
        "weighed the lid down with 5 kg",
        "weighed 186 g",
        "weighed the lid and the base, 186 g and 420 g",
        "lid held down with a 2 kg weight",
    ],
)
def test_what_weighs_no_part_of_ours_is_not_taken_as_one(says: str) -> None:
    assert understand(says, PROJECT).verdict is not Verdict.TAKEN


def test_a_size_beside_the_weight_keeps_its_name() -> None:
    line = understand("the lid weighs 412 g, 3 mm thick", PROJECT)
    told = [(one.what, str(one.value)) for one in line.facts.readings]
    assert told == [("weight", "412 g"), ("thickness", "3 mm")]
