"""How a thing is to be from a release on: what it becomes, how it is published."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

WORDS = of_parts("shelf", "hinge", "seat", "hook", "leg", "washer")


@pytest.mark.parametrize(
    ("says", "part"),
    [
        (
            "Release 1.2 will use dowels in the shelf, no screws and no brackets.",
            "shelf",
        ),
        ("For the next release the hinge becomes brass, because steel rusts.", "hinge"),
        ("In the next version the leg is turned from ash.", "leg"),
        ("from 2.0 on the seat is glued and not screwed", "seat"),
        ("release 3 gets washers on the hook", "hook"),
        ("the hook becomes a peg", "hook"),
        ("hinge becomes stainless", "hinge"),
        ("Next shelf from plywood.", "shelf"),
        ("the next seat in oak", "seat"),
        ("We publish the shelf as made to suit: measure the gap, take off 2.", "shelf"),
        ("we publish the leg as 430 long, cut to fit your floor", "leg"),
        ("leg in 24 not 20 next time", "leg"),
    ],
)
def test_what_is_to_be_from_a_release_on_is_decided(says: str, part: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.DECISION, Verdict.TAKEN)
    assert line.facts.part == part
    assert (line.facts.disposition, line.facts.cause is None) == (
        "", "because" not in says,
    )  # fmt: skip


@pytest.mark.parametrize(
    "says",
    [
        "Release 1.2 will be late",
        "release 1.0 drew the leg as 430",
        "In release 1.0 the seat is 440",
        "the hinge becomes loose after a week",
        "the seat becomes a nuisance",
        "the hook becomes 48 C after 2 h",
        "we publish the shelf as soon as it is dry",
        "leg in 24 not 20",
    ],
)
def test_what_a_release_says_or_a_thing_comes_to_by_itself_is_not(says: str) -> None:
    line = understand(says, WORDS)
    assert not (line.verdict is Verdict.TAKEN and line.kind is Kind.DECISION)


def test_a_release_by_its_number_is_no_size() -> None:
    assert understand("Release 1.2 gets a shelf in oak", WORDS).facts.readings == ()
