"""What is chosen for the next one is a decision where it tells a size."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.fresh import DEMO
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("says", "value"),
    [
        ("next time drill it 4.2", "4.2 mm"),
        ("next build make the bore 8.3", "8.3 mm"),
        ("next time order the plate 4 mm not 3", "4 mm"),
        ("Next time, mill the pocket 12.5 deep.", "12.5 mm"),
        ("for the next one plane the lid down to 18", "18 mm"),
        ("next round sew the seam at 12 mm", "12 mm"),
        ("next time bend the flange at 91", "91 °"),
        ("next time bake it at 160 C", "160 C"),
        ("next time I'd cut the mask 36.5 wide", "36.5 mm"),
        ("next one: bore 8.3 instead of 8", "8.3 mm"),
        ("next time use 4 mm plywood for the bed", "4 mm"),
    ],
)
def test_a_size_for_next_time_is_decided(says: str, value: str) -> None:
    for words in (PROJECT, DEMO):
        line = understand(says, words)
        assert (line.kind, line.verdict) == (Kind.DECISION, Verdict.TAKEN)
        assert [str(one.value) for one in line.facts.readings] == [value]
        assert not line.facts.part_is_new


@pytest.mark.parametrize(
    "says",
    [
        "next time glue before drilling",
        "next time sand to 240 first",
        "next time ask for 4 mm plate",
        "next time we meet at 8",
        "next time glue for 20 min",
        "next time the lid was 240.4",
        "next one measured 178.4, so better",
        "next one cut 240 long",
        "next hole measured 8.3",
        "next to the slot 4.2",
        "next drilled the base 4.2",
    ],
)
def test_what_tells_no_size_for_it_is_no_decision(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.kind is not Kind.DECISION


@pytest.mark.parametrize(
    "says",
    [
        "cut the next mask from 0.5 card",
        "drill the next lid at 3.2",
        "set the next gate 2 mm lower",
        "glue the next bed before drilling",
    ],
)
def test_work_on_the_next_one_is_still_to_be_done(says: str) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.DECISION, Verdict.TAKEN)


def test_the_next_one_sawed_is_done() -> None:
    line = understand("sawed the next crossbar at 178.4", PROJECT)
    assert (line.kind, line.verdict) == (Kind.STEP, Verdict.TAKEN)
