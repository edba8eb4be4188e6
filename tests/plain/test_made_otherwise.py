"""Made or bought, and a size of it should be another: the size is kept as measured."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("says", "part", "told"),
    [
        ("turned the collar, bore 5.84 should be 6", "collar",
         ("bore", "5.84 mm", "6 mm")),
        ("drilled the gate, hole 3.3 should be 3.2", "gate",
         ("hole", "3.3 mm", "3.2 mm")),
        ("cut the lid, width 240.9 where 240 was drawn", "lid",
         ("width", "240.9 mm", "240 mm")),
        ("milled the bed, pocket depth 4.8, ought to be 5", "bed",
         ("pocket depth", "4.8 mm", "5 mm")),
        ("bent the bracket, angle 88 should be 90", "bracket",
         ("angle", "88 °", "90°")),
        ("sewed the cover, hem 18 should be 20", "cover", ("hem", "18 mm", "20 mm")),
        ("bought another lamp, cap 14.6 should be 14.0", "lamp",
         ("cap", "14.6 mm", "14.0 mm")),
        ("new collars came, bore 12.9 should be 13.1", "collar",
         ("bore", "12.9 mm", "13.1 mm")),
    ],
)  # fmt: skip
def test_the_size_that_should_be_another_was_measured(
    says: str, part: str, told: tuple[str, str, str]
) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.READING, Verdict.TAKEN)
    [reading], [wanted] = line.facts.readings, line.facts.wanted
    assert line.facts.part == part
    assert (reading.what, str(reading.value), str(wanted)) == told


def test_whose_part_is_new_is_asked_and_nothing_else_is_lost() -> None:
    line = understand("turned the bush, bore 5.84 should be 6", PROJECT)
    assert line.question is not None
    assert line.question.choices[0] == "bush"
    assert [str(one) for one in line.facts.wanted] == ["6 mm"]


@pytest.mark.parametrize(
    "says",
    [
        "bought screws, head 5.9 should be 5.5",
        "received the plates, thickness 5.8 should be 6",
        "cut the crossbar 178.9, should be 179.7",
        "filed the crossbar to 178.3, drawn 179.7",
        "drilled the gate 3.2, holes should be 3.4 for the next one",
    ],
)
def test_what_may_be_one_or_the_other_is_asked(says: str) -> None:
    assert understand(says, PROJECT).verdict is Verdict.ASKED


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("printed the collar, bore 12.9", Kind.STEP),
        ("turned the collar, bore still to do", Kind.STEP),
        ("ordered two lamps, cap 14 mm", Kind.ORDER),
    ],
)
def test_without_another_size_it_is_what_was_done(says: str, kind: Kind) -> None:
    assert understand(says, PROJECT).kind is kind
