"""What is missing, bottoms, or was out of shape until something cured it: failures."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Understanding, Verdict
from tests.plain.judge import of_parts

WORDS = of_parts(
    "loom", "fence", "saddle", "crank", "drawer", "roller", "lamp", "seat", "door"
)


def read(says: str) -> Understanding:
    return understand(says, WORDS)


@pytest.mark.parametrize(
    ("says", "part", "cure"),
    [
        (
            "two pegs missing on the loom, cut new ones and glued them",
            "",
            "cut new ones",
        ),
        ("rivet missing in the saddle", "saddle", ""),
        ("a foot missing under the seat, turned another", "seat", "turned another"),
        ("M5x12 bottoms in the crank before it is tight", "crank", ""),
        ("the M3x10 screws bottom in the inserts", "", ""),
        ("screw bottomed in the insert, shorter one fitted", "", "shorter one fitted"),
        (
            "door bowed 1.5 mm at the top when hung, a batten behind it fixed that",
            "door",
            "a batten behind it fixed that",
        ),
        ("seat cupped 2 mm, planed it flat", "seat", "planed it flat"),
        (
            "fence sagged 1.2 mm, a second leg cured it",
            "fence",
            "a second leg cured it",
        ),
        ("lamp flickers, new fuse fitted", "lamp", "new fuse fitted"),
        ("roller rattled, two washers added under it", "roller", "two washers added"),
    ],
)
def test_it_is_a_failure_with_what_was_done_about_it(
    says: str, part: str, cure: str
) -> None:
    line = read(says)
    assert (line.kind, line.verdict) == (Kind.FAILURE, Verdict.TAKEN)
    assert part in (line.facts.part, "")
    assert cure in line.facts.cure
    assert line.facts.cause is None


@pytest.mark.parametrize(
    "says",
    [
        "two screws missing in the bag",
        "hole size is missing in the drawing",
        "drilled the missing hole in the fence",
        "remember the missing washer",
        "2 screws missing from the list",
        "door bowed 0.8",
        "seat bottom in oak",
    ],
)
def test_what_was_never_built_in_or_is_only_measured_did_not_fail(says: str) -> None:
    line = read(says)
    assert line.kind is not Kind.FAILURE or line.verdict is not Verdict.TAKEN


@pytest.mark.parametrize(
    ("says", "cure"),
    [
        ("door split, wrong screws fitted", ""),
        ("door split, screws fitted too close to the edge", ""),
        ("lamp glass cracked, no washers fitted", ""),
        ("saddle slipped, old tape used", ""),
    ],
)
def test_what_was_put_in_wrongly_cured_nothing(says: str, cure: str) -> None:
    line = read(says)
    assert (line.kind, line.facts.cure) == (Kind.FAILURE, cure)


@pytest.mark.parametrize(
    "says",
    [
        "When I drove the second screw, the seat split along the grain from the edge.",
        "the lamp glass broke while I was tightening it, quite a bang",
    ],
)
def test_what_failed_is_not_asked_to_be_why(says: str) -> None:
    line = read(says)
    assert line.kind is Kind.FAILURE
    assert line.question is None or line.question.about != "aside"


@pytest.mark.parametrize(
    "says",
    [
        "the whole thing wobbles when I turn the handle",
        "squeaks when I open the hatch",
        "rattles while I turn the knob",
    ],
)
def test_what_somebody_did_when_it_failed_names_no_new_part(says: str) -> None:
    line = read(says)
    assert line.verdict is not Verdict.TAKEN or not line.facts.part
