"""Choices told plainly: what is left out of this one, or needed in the next."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from tests.plain.judge import NOW, PROJECT, of_parts

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


@pytest.mark.parametrize(
    "says",
    [
        "used up the last of the 2.5 mm acrylic, order a sheet",
        "that was the last of the birch ply, buy two sheets",
        "out of 4 mm dowels, get some",
        "last of the felt is gone, order 2 m",
        "no more M3 washers, order 50",
        "used the last of the 1.5 mm alu, buy more",
    ],
)
def test_what_is_to_be_bought_because_none_is_left_is_decided(says: str) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.DECISION, Verdict.TAKEN)


@pytest.mark.parametrize(
    "says",
    [
        "do not bend the base before the holes are drilled",
        "don't glue the lid until the cable is in",
        "never drill the bed after it is oiled",
        "dont close the lid while the glue is wet",
        "don't rivet the lid on before the lamp was tried, no way back",
    ],
)
def test_what_must_come_first_is_a_note_and_nothing_done(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.kind is Kind.NOTE
    assert line.verdict is not Verdict.ASKED


@pytest.mark.parametrize(
    ("says", "why"),
    [
        ("dont glue the lid, might need to get in again", "get in again"),
        (
            "don't rivet the lid, the lamp may need changing",
            "the lamp may need changing",
        ),
        ("no glue on the lid, ever", ""),
    ],
)
def test_what_will_not_be_done_is_decided_with_its_reason(says: str, why: str) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.facts.part) == (Kind.DECISION, "lid")
    assert why in (line.facts.cause.said if line.facts.cause else "")
    assert why or line.facts.cause is None
