"""What a part goes on being is decided; only what is kept as it came out is a piece."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.records.kinds.happenings import Decision, Disposal
from logbook.records.kinds.words import Disposition
from tests.plain.judge import of_parts
from tests.plain.records_of import drafted, known, world

WORDS = of_parts("gate", "lamp", "mask", "crossbar", "lid")


@pytest.mark.parametrize(
    "line",
    [
        "changed my mind, the gate stays PLA because the lamp is now LED",
        "gate stays in PLA after all",
        "the lid stays unvarnished",
        "crossbar stays at 178.3",
    ],
)
def test_what_a_part_stays_is_a_decision_and_makes_no_piece(line: str) -> None:
    [decision] = drafted(understand(line, WORDS), world(known(WORDS)))
    assert isinstance(decision, Decision)


def test_its_reason_is_kept() -> None:
    line = "changed my mind, the gate stays PLA because the lamp is now LED"
    [decision] = drafted(understand(line, WORDS), world(known(WORDS)))
    assert isinstance(decision, Decision)
    assert decision.because == "the lamp is now LED"


@pytest.mark.parametrize(
    "line", ["mask 2 stays, the burn is on the back", "the chipped mask stays as it is"]
)
def test_a_piece_that_stays_is_used_as_it_is(line: str) -> None:
    made = drafted(understand(line, WORDS), world(known(WORDS)))
    [disposal] = [one for one in made if isinstance(one, Disposal)]
    assert disposal.disposition is Disposition.USE_AS_IS


@pytest.mark.parametrize(
    "line",
    [
        "crooked lid stays, wont show",
        "that lid can stay crooked, it's behind the lamp",
        "lid 1 can stay the way it is, the scratch goes underneath",
        "the tear-out on the crossbar can stay, it faces down",
        "the dent in the lid can stay",
        "the lid with the drip mark can go on as is",
    ],
)
def test_what_is_amiss_and_may_stay_is_used_as_it_is(line: str) -> None:
    told = understand(line, WORDS)
    assert told.verdict is Verdict.TAKEN
    [disposal] = (
        one for one in drafted(told, world(known(WORDS))) if isinstance(one, Disposal)
    )
    assert disposal.disposition is Disposition.USE_AS_IS


def test_what_befell_it_is_told_as_a_failure_though_it_may_stay() -> None:
    told = understand("lid scratched but it can stay", WORDS)
    assert (told.kind, told.facts.disposition) == (Kind.FAILURE, "use as is")


@pytest.mark.parametrize(
    "line", ["the gate can stay PLA", "lid can stay in the lamp", "the lid stay broke"]
)
def test_what_stays_otherwise_is_no_word_of_a_piece(line: str) -> None:
    made = drafted(understand(line, WORDS), world(known(WORDS)))
    assert not any(isinstance(one, Disposal) for one in made)
