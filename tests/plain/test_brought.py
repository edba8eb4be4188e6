"""What a size was is out of its drawing; what it was brought to is what it is now."""

from __future__ import annotations

import pytest

from logbook.plain.drafts.entries import draft_line, wants_blame
from logbook.plain.lines import understand
from logbook.plain.shown import in_one_line
from logbook.plain.understanding import Verdict
from logbook.records.kinds.happenings import Deviation, Run, StepDone
from logbook.records.kinds.words import Disposition
from logbook.records.making.drafts import Draft
from logbook.records.states.read_now import found_now
from tests.plain.judge import NOW, of_parts
from tests.plain.records_of import drafted, known, world

WORDS = of_parts("gate", "mask", "crossbar")


@pytest.mark.parametrize(
    ("line", "was", "now"),
    [
        ("gate hole is 2.8, M3 wont go, drilled it to 3.2", "2.8 mm", "3.2 mm"),
        ("gate hole 2.8, too tight for M3, drilled it to 3.2", "2.8 mm", "3.2 mm"),
        ("mask slot was 35.8, filed it to 36.05", "35.8 mm", "36.05 mm"),
        ("crossbar was 178.9 long, filed it to 178.4", "178.9 mm", "178.4 mm"),
    ],
)
def test_what_it_was_is_a_deviation_and_what_it_is_now_the_newest_reading(
    line: str, was: str, now: str
) -> None:
    records = drafted(understand(line, WORDS), world(known(WORDS)))
    [off] = [one for one in records if isinstance(one, Deviation)]
    runs = [one for one in records if isinstance(one, Run)]
    newest = max((run.readings[0] for run in runs), key=lambda one: one.at)
    assert (str(off.found), str(newest.value)) == (was, now)
    assert off.disposition is Disposition.REWORK
    assert off.cure
    assert not any(isinstance(one, StepDone) for one in records)
    told = world((*known(WORDS), *records)).stored[off.id].record
    assert isinstance(told, Deviation)


def test_it_is_asked_whether_others_meet_it_and_shown_what_it_became() -> None:
    line = understand("gate hole is 2.8, M3 wont go, drilled it to 3.2", WORDS)
    assert line.verdict is Verdict.TAKEN
    assert "hole 2.8 mm · now 3.2 mm" in in_one_line(line)
    assert wants_blame(draft_line(Draft(world(known(WORDS)), NOW), line))


def test_what_was_found_stays_what_it_was() -> None:
    line = understand("gate hole is 2.8, M3 wont go, drilled it to 3.2", WORDS)
    before = known(WORDS)
    records = drafted(line, world(before))
    snapshot = world((*before, *records))
    [off] = snapshot.all(Deviation)
    assert str(found_now(snapshot, off)) == "2.8 mm"


def test_what_it_should_be_is_kept_beside_what_it_became() -> None:
    line = understand("gate hole is 2.8, should be 3.3, drilled it to 3.2", WORDS)
    [off] = [
        one for one in drafted(line, world(known(WORDS))) if isinstance(one, Deviation)
    ]
    assert (str(off.wanted), str(off.found)) == ("3.3 mm", "2.8 mm")


def test_a_part_nobody_knows_is_asked_for_first() -> None:
    line = understand("its hole is 2.8, M3 wont go, drilled it to 3.2", WORDS)
    assert line.verdict is Verdict.ASKED


def test_work_that_begins_the_line_is_work_done() -> None:
    line = understand("sawed the crossbar at 178.9, filed it to 178.4", WORDS)
    assert line.facts.became is None
