"""What a part goes on being is decided; only what is kept as it came out is a piece."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.happenings import Decision, Disposal
from logbook.records.kinds.words import Disposition
from tests.plain.judge import NOW
from tests.plain.records_of import drafted, known, world

WORDS = Vocabulary(
    now=NOW, parts={"gate": (), "lamp": (), "mask": (), "crossbar": (), "lid": ()}
)


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
