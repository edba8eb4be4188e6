"""Choices told plainly: what is left out of this one, or needed in the next."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from tests.plain.judge import NOW, of_parts

WORDS = of_parts("shelf", "hinge", "seat", "hook", "leg")


@pytest.mark.parametrize(
    "says",
    [
        "no hook on this one, it catches sleeves",
        "no varnish on the seat this time, oil only",
        "no screws in this one, dowels hold the leg",
        "no countersunk screws near the hinge again",
        "the seat does not need a cushion, leave it out",
        "for 1.3 the shelf needs a lip",
        "in 1.3 the hinge gets a stop",
        "leg stays round, no need for a flat",
        "hinge holes stay where they are",
    ],
)
def test_what_is_left_out_or_to_come_is_decided(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.DECISION, Verdict.TAKEN)


@pytest.mark.parametrize(
    "says",
    [
        "no crack in this one",
        "no light in this one again",
        "no wobble this time",
        "the seat needs a lip",
        "in 1.5 the seat is too stiff",
        "no way to get the hinge off any more",
        "swept the floor and sorted the screws",
    ],
)
def test_what_is_only_so_or_wished_is_not(says: str) -> None:
    line = understand(says, WORDS)
    assert not (line.verdict is Verdict.TAKEN and line.kind is Kind.DECISION)


def test_what_frees_a_bolt_is_no_layer_of_a_joint() -> None:
    words = Vocabulary(now=NOW)
    line = understand("soaked the hub in penetrating oil and freed the bolt", words)
    assert "freed" not in line.facts.layers
    assert "penetrating" not in line.facts.layers


def test_parts_with_a_hyphen_in_their_name_may_be_several() -> None:
    words = of_parts("t-hinge")
    line = understand("the T-hinges are due on the 3rd", words)
    assert (line.kind, line.facts.part) == (Kind.ORDER, "t-hinge")
