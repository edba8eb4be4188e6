"""Harm that nobody meant is a failure, whatever the verb says. All invented."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("bent the bracket tapping it out", "bracket"),
        ("i cut the cable trimming the sleeve", "cable"),
        ("marked the lid clamping it", "lid"),
        ("twisted the crossbar tightening the nut", "crossbar"),
        ("we bent the base carrying it over", "base"),
        ("sliced the diffuser opening the parcel", "diffuser"),
        ("glued the collar on by accident", "collar"),
        ("sawed the crossbar twice by mistake", "crossbar"),
        ("accidentally sanded the diffuser", "diffuser"),
        ("collar turned by itself", "collar"),
        ("crossbar moved on its own", "crossbar"),
        ("bracket folded mirror image", "bracket"),
        ("collar glued on the wrong way round", "collar"),
        ("one nut is loose on the bracket", "bracket"),
        ("a rivet is loose at the back of the lid", "lid"),
        ("screw still loose on the collar", "collar"),
    ],
)
def test_it_is_a_failure(says: str, part: str) -> None:
    line = understand(says, PROJECT)
    told = line.verdict, line.kind, line.facts.part
    assert told == (Verdict.TAKEN, Kind.FAILURE, part)


@pytest.mark.parametrize(
    "says",
    [
        "bent the bracket using the vise",
        "bent the base following the scribe line",
        "cut the mask leaving 2 mm spare",
        "cut the cable",
        "bent the base, opening 178.7 at the back",
        "put the lid on the bin",
        "printed the lid by itself",
        "leave the screws loose until the lid is on",
        "left the nut loose for now on the bracket",
    ],
)
def test_what_was_meant_is_none(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.kind is not Kind.FAILURE
