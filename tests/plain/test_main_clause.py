"""The thing of the clause in which a value stands is what was measured."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("the lamp ran for 2 h and after that the face of the gate was 51 C", "gate"),
        ("the lamp ran for two hours and after that the gate measured 51 C", "gate"),
        ("the lamp ran for two hours and then the gate face was 51 C", "gate"),
        ("the lid was off and the opening of the base read 178.6", "base"),
        ("filed the crossbar and the base opening is 178.6", "base"),
        ("sanded the lid and the bed is 17.9 thick", "bed"),
        ("the face of the gate measured 51 C after the lamp ran for two hours", "gate"),
        ("the lid and the base are 240 wide", "lid"),
        ("drilled the base and the lid to 4.5", "base"),
        ("printed the gate and the mask, 20.4 thick", "gate"),
    ],
)
def test_it_is_measured_what_the_clause_of_the_value_names(
    says: str, part: str
) -> None:
    assert understand(says, PROJECT).facts.part == part


def test_no_size_is_called_by_where_a_thing_stands() -> None:
    line = understand("measured the gate beside the lamp, 51 C", PROJECT)
    [read] = line.facts.readings
    assert (line.facts.part, read.what) == ("gate", "temperature")
