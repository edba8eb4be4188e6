"""A limit, what cured it and what came of it are never kept as why something failed."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

PARTS = "base lid gate collar hinge drum crank rail handle pump"
WORDS = of_parts(*PARTS.split())


@pytest.mark.parametrize(
    ("says", "limit", "held"),
    [
        ("handle screw sheared off at 4 Nm, spec was 3.5", "3.5 N·m", "4 Nm"),
        ("hinge pin broke at 60 N, limit was 50", "50 N", "60 N"),
        ("crank snapped at 12 kg, rated for 20", "20 kg", "12 kg"),
        ("collar split at 4 Nm, allowed 3", "3 N·m", "4 Nm"),
    ],
)
def test_a_limit_is_what_it_had_to_stand(says: str, limit: str, held: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.FAILURE, Verdict.TAKEN)
    assert line.facts.cause is None
    assert [one.text for one in line.facts.wanted] == [limit]
    assert [one.text for one in line.facts.conditions] == [held]


@pytest.mark.parametrize(
    ("says", "why"),
    [
        ("hinge cracked because the limit was 4", "the limit was 4"),
        ("lid cracked, the screw was 2 mm too long", "the screw was 2 mm too long"),
        ("handle broke, the glue was too dry", "the glue was too dry"),
    ],
)
def test_what_tells_why_is_kept_as_why(says: str, why: str) -> None:
    line = understand(says, WORDS)
    assert line.facts.cause is not None
    assert line.facts.cause.said == why


@pytest.mark.parametrize(
    "says",
    [
        "lid rattled, a strip of felt fixed that",
        "pump stalled, a bigger fuse solved that",
        "drum slipped on the shaft, rosin cured that",
        "hinge squeaked, a drop of oil stopped that",
    ],
)
def test_what_fixed_that_is_the_cure(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.facts.cause) == (Kind.FAILURE, None)
    assert says.endswith(line.facts.cure)
    assert line.facts.cure


@pytest.mark.parametrize(
    ("says", "why"),
    [
        (
            "the screw was too long and bottomed in the rail, the lid stayed loose",
            "the screw was too long",
        ),
        (
            "the pin was too short and dropped out, the crank wobbled",
            "the pin was too short",
        ),
        ("drum was too tight and split the collar, the lid cracked too",
         "drum was too tight"),
    ],
)  # fmt: skip
def test_what_is_told_last_came_of_it(says: str, why: str) -> None:
    line = understand(says, WORDS)
    assert line.kind is Kind.FAILURE
    assert line.facts.cause is not None
    assert line.facts.cause.said == why
    assert not line.facts.cure
