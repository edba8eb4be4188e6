"""The state a value was read in is kept with it, and is no work done and no place."""

from __future__ import annotations

import pytest

from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.plain.shown import in_one_line
from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.records.kinds.happenings import Run
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.judge import NOW, of_parts

PARTS = "base crossbar bed lid lamp cable gate collar hinge drum"
WORDS = of_parts(*PARTS.split())


def read(says: str) -> list[tuple[str, str, str]]:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.READING, Verdict.TAKEN), says
    return [(one.what, one.state, str(one.value)) for one in line.facts.readings]


@pytest.mark.parametrize(
    ("says", "values"),
    [
        ("lamp draws 0.62 A cold and 0.58 A warm",
         [("current", "cold", "0.62 A"), ("current", "warm", "0.58 A")]),
        ("lid weighs 412 g raw, 447 g varnished",
         [("weight", "raw", "412 g"), ("weight", "varnished", "447 g")]),
        ("bed thickness 21.4 dry, 21.9 damp",
         [("thickness", "dry", "21.4 mm"), ("thickness", "damp", "21.9 mm")]),
        ("drum runout 0.04 unloaded, 0.11 under load",
         [("runout", "unloaded", "0.04 mm"), ("runout", "under load", "0.11 mm")]),
        ("base opening free 178.6, clamped 178.9",
         [("opening", "free", "178.6 mm"), ("opening", "clamped", "178.9 mm")]),
        ("gate face 51 C open, 63 C with the cover on",
         [("face", "open", "51 C"), ("face", "with the cover on", "63 C")]),
        ("with the doors shut, lamp temperature 61.5 C",
         [("temperature", "with the doors shut", "61.5 C")]),
        ("cable: cold 3.1 ohm, hot 3.9 ohm",
         [("resistance", "cold", "3.1 ohm"), ("resistance", "hot", "3.9 ohm")]),
        ("hinge length 80.2, width 31.9, measured free on the bench",
         [("length", "free on the bench", "80.2 mm"),
          ("width", "free on the bench", "31.9 mm")]),
        ("collar flange 11.85 before paint and 12.05 after",
         [("flange", "before paint", "11.85 mm"), ("flange", "after", "12.05 mm")]),
        ("lid weighs 412 g before varnish, 447 g after",
         [("weight", "before varnish", "412 g"), ("weight", "after", "447 g")]),
        ("lamp 51 C with the fan, 63 without",
         [("temperature", "with the fan", "51 C"),
          ("temperature", "without", "63 °C")]),
        ("lamp draws 0.9 amps idle, 1.4 running",
         [("current", "idle", "0.9 amps"), ("current", "running", "1.4 A")]),
        ("drum draws 0.2 A stopped and 0.8 A spinning",
         [("current", "stopped", "0.2 A"), ("current", "spinning", "0.8 A")]),
        ("lamp 58 C under the cover", [("temperature", "under the cover", "58 C")]),
    ],
)  # fmt: skip
def test_a_value_keeps_the_state_it_was_read_in(
    says: str, values: list[tuple[str, str, str]]
) -> None:
    assert read(says) == values


def test_no_value_of_a_state_is_put_to_a_numbered_place() -> None:
    line = understand("lamp 1.4 A cold, 1.3 A warm", WORDS)
    assert [one.place for one in line.facts.readings] == ["", ""]
    assert "current (cold) 1.4 A" in in_one_line(line)


def test_the_state_goes_on_record_with_the_reading() -> None:
    draft = Draft(Snapshot({}), NOW)
    draft_line(draft, understand("bed width 240.2 dry, 241.1 wet", WORDS))
    [run] = [one for one in draft.new if isinstance(one, Run)]
    assert [one.state for one in run.readings] == ["dry", "wet"]
    assert [one.place for one in run.readings] == ["", ""]


def kind_of(line: Understanding) -> Kind:
    assert not any(one.state for one in line.facts.readings)
    return line.kind


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("varnished the lid, 40 microns", Kind.STEP),
        ("filed the crossbar to 178.3 cold", Kind.STEP),
        ("lid sagged at 58 C with the lamp on", Kind.FAILURE),
        ("glued the bed with the clamps on, 2.5 N·m", Kind.STEP),
        ("use 2.0 sheet bare from now on", Kind.DECISION),
        ("is the collar 6.0 bare?", Kind.QUESTION),
        ("scrapped lid 1, 112 g painted", Kind.DISPOSITION),
    ],
)
def test_work_and_failures_keep_their_words(says: str, kind: Kind) -> None:
    assert kind_of(understand(says, WORDS)) is kind


@pytest.mark.parametrize("says", ["lid 2 painted", "base 178.6, clamped"])
def test_what_may_be_work_is_asked_about(says: str) -> None:
    line = understand(says, WORDS)
    assert line.verdict is not Verdict.TAKEN or line.kind is Kind.STEP
    assert not any(one.state for one in line.facts.readings)


def test_a_gap_under_the_lid_is_there_and_in_no_state() -> None:
    [reading] = understand("3/32 in gap under the lid", WORDS).facts.readings
    assert reading.state == ""
