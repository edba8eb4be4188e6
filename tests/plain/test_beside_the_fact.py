"""Numbers and names that stand beside a fact and are no facts of a part themselves."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.records.kinds.happenings import Run, StepDone
from logbook.records.kinds.workshop import Piece
from tests.plain.fresh import DEMO, PROJECTS
from tests.plain.judge import PROJECT
from tests.plain.records_of import drafted, known, world


@pytest.mark.parametrize(
    "says",
    [
        "the 126.6 on the lid is wrong, it is 126.8",
        "the 178.4 was a typo, crossbar is 178.3",
    ],
)
def test_a_figure_that_is_put_right_is_no_second_reading(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.question is not None
    assert "puts right an entry" in line.question.question


@pytest.mark.parametrize(
    "says",
    [
        "set the printer to 230 nozzle, bed 80, fan off",
        "printer set to 215, bed at 60",
        "laser set to 40 %, speed 20",
    ],
)
@pytest.mark.parametrize("project", ["empty", "demo"])
def test_what_a_machine_is_set_to_is_no_size_and_makes_no_part(
    says: str, project: str
) -> None:
    facts = understand(says, PROJECTS[project]).facts
    assert (facts.part, facts.readings) == ("", ())


def test_what_was_measured_of_what_was_made_is_the_reading() -> None:
    line = understand("sawed the bed and it measures 239.6", PROJECT)
    assert (line.kind, line.facts.part) == (Kind.READING, "bed")
    assert [str(one.value) for one in line.facts.readings] == ["239.6 mm"]


def test_holes_opened_are_no_other_size_of_the_part() -> None:
    line = understand("drilled the collar holes out to 4.4", DEMO)
    made = drafted(line, world(known(DEMO)))
    [run] = [one for one in made if isinstance(one, Run)]
    assert [one.what.name for one in run.readings] == ["holes"]


@pytest.mark.parametrize(
    ("says", "pieces"),
    [
        ("turned a new collar", 1),
        ("soldered a new cable", 1),
        ("bent another base", 1),
        ("milled a new pocket in the base", 0),
        ("soldered a new lead on the lamp", 0),
        ("cut another window into the gate", 0),
    ],
)
def test_only_the_part_itself_made_anew_is_one_more(says: str, pieces: int) -> None:
    made = drafted(understand(says, DEMO), world(known(DEMO)))
    assert sum(isinstance(one, Piece) for one in made) == pieces


def test_a_part_made_anew_is_one_more_piece() -> None:
    line = understand("reprinted the gate, 6 walls", DEMO)
    assert line.verdict is Verdict.TAKEN
    records = known(DEMO)
    first = drafted(line, world(records))
    second = drafted(line, world((*records, *first)))
    made = [one for one in (*first, *second) if isinstance(one, Piece)]
    assert [one.number for one in made] == [1, 2]
    [step] = [one for one in second if isinstance(one, StepDone)]
    assert step.piece == made[1].ref
