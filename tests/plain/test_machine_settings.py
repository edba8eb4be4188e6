"""How a machine was set is a setting of what it made, and no size of it."""

from __future__ import annotations

import pytest

from logbook.advice.proposed.settings import settings
from logbook.plain.answers.answering import answered
from logbook.plain.answers.held import held_to_records
from logbook.plain.lines import understand
from logbook.plain.understanding import NO_PART, Kind
from logbook.records.kinds.happenings import Run
from logbook.records.making.told_settings import settings_in
from tests.plain.judge import PROJECT, of_parts
from tests.plain.records_of import drafted, known, world


@pytest.mark.parametrize(
    ("says", "told"),
    [
        (
            "mask laser at 18 mm/s 70% power, kerf 0.22",
            {"speed": "18 mm/s", "power": "70%", "kerf": "0.22"},
        ),
        ("mask cut at 60 % power, 12 mm/s", {"speed": "12 mm/s", "power": "60 %"}),
        ("mask: laser power 60 %, feed 800 mm/min",
         {"power": "60 %", "feed": "800 mm/min"}),
        ("printed the gate with 0.2 layers, 215 degrees",
         {"layers": "0.2", "nozzle temperature": "215 degrees"}),
        ("set the extruder to 235 and fan 30 % for the gate",
         {"nozzle temperature": "235", "fan": "30 %"}),
        ("gate printed at 230 °C nozzle", {"nozzle temperature": "230 °C"}),
        ("layer height 0.2 for the gate", {"layers": "0.2"}),
        ("z offset -1.05 for the gate", {"z offset": "-1.05"}),
        ("gate printed face down, 3 walls", {"lying on": "face", "walls": "3"}),
        ("gate rubbed down and given two coats", {"coats": "two"}),
        ("gate cut down on the saw, then 240 grit", {"grit": "240"}),
    ],
)  # fmt: skip
def test_settings_are_offered_to_the_piece_and_are_no_sizes(
    says: str, told: dict[str, str]
) -> None:
    assert dict(settings_in(says)) == told
    line = understand(says, PROJECT)
    assert line.facts.readings == ()
    records = known(PROJECT)
    made = drafted(line, world(records))
    assert not any(isinstance(one, Run) for one in made)
    [offered] = settings(world((*records, *made)))
    assert all(value in offered.question for value in told.values())


@pytest.mark.parametrize(
    "says",
    ["gate reached 215 degrees", "kerf 0.22", "bed 80 wide", "power of the lamp"],
)
def test_what_may_be_a_size_or_a_heat_is_no_setting_by_itself(says: str) -> None:
    assert not settings_in(says)


def test_a_kerf_by_itself_is_measured() -> None:
    line = understand("laser kerf 0.22", PROJECT)
    assert line.kind is Kind.READING
    assert [one.value.text for one in line.facts.readings] == ["0.22 mm"]


@pytest.mark.parametrize(
    "says",
    [
        "nozzle at 245, bed 80 for both lids",
        "nozzle 245, bed 80",
        "extruder at 230, bed 60, fan 40 %",
        "hotend 215, bed at 60 for the gate",
    ],
)
def test_how_hot_a_printer_runs_is_no_size(says: str) -> None:
    line = understand(says, of_parts("lid", "gate"))
    assert (line.kind, line.question) == (Kind.NOTE, None)


def test_settings_told_of_no_part_are_asked_of_which_and_offered_to_its_piece() -> None:
    words = of_parts("lid", "gate")
    records = known(words)
    records = (
        *records,
        *drafted(understand("gate 1 width 40.1", words), world(records)),
    )
    line = held_to_records(understand("nozzle 230, bed 70", words), world(records))
    assert line.question is not None
    assert line.question.choices == ("gate", NO_PART)
    for said in ("", NO_PART):
        assert answered(line, line.question, said, words).facts.part == ""
    told = answered(line, line.question, "gate", words)
    assert (told.kind, told.facts.part, told.question) == (Kind.NOTE, "gate", None)
    [offered] = settings(world((*records, *drafted(told, world(records)))))
    assert "230" in offered.question
