"""Verbs no list has: work by what they are made of, or by where they stand."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

WORDS = of_parts("stool", "apron", "seat", "shelf bracket", "flue", "dial")


@pytest.mark.parametrize(
    "says",
    [
        "limewashed the stool",
        "fettled the apron",
        "whitewashed the seat underside",
        "case-hardened the flue",
        "then i guillocheed the dial",
        "hydrodipped both dials",
        "wire-brushed the flue",
        "match-drilled the seat and the apron",
        "centre-punched the shelf bracket, 4 holes",
        "hand-stitched the seat, 2 h",
        "french-polished the stool",
        "rubbed the stool down with wire wool",
        "gave the seat a coat of shellac",
        "scuffed the apron up before the second coat",
        "blew the flue clean",
    ],
)
def test_an_unlisted_verb_before_a_known_part_is_work_done(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.STEP), line


@pytest.mark.parametrize(
    "says",
    [
        "misdrilled the apron",
        "overfilled the flue joint",
        "overcut the seat by one kerf",
        "mis-glued the stool",
        "underfilled the dial mould",
    ],
)
def test_what_was_done_amiss_is_never_taken_for_work(says: str) -> None:
    line = understand(says, WORDS)
    assert line.kind is Kind.FAILURE, line


@pytest.mark.parametrize(
    "says",
    [
        "borrowed the stool from next door",
        "admired the seat",
        "spotted the dial on the shelf",
        "photocopied the seat drawing",
        "rubbed the seat raw",
        "gave the seat a dent",
        "feared the apron too thin",
        "bumped the stool",
    ],
)
def test_what_nobody_does_to_a_part_is_no_work(says: str) -> None:
    line = understand(says, WORDS)
    assert not (line.verdict is Verdict.TAKEN and line.kind is Kind.STEP), line
