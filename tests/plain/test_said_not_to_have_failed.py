"""What did not fail is no failure; what did is told apart from the work beside it."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Failure, Note, Status
from logbook.records.kinds.words import State
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.fresh import DEMO
from tests.plain.judge import NOW, PROJECT
from tests.plain.records_of import drafted, known, world


@pytest.mark.parametrize(
    "says",
    [
        "diffuser corner holes drilled 9 mm in, no crack this time",
        "drilled the diffuser, no cracks",
        "drilled the diffuser slowly, it didn't crack this time",
    ],
)
def test_work_that_did_no_harm_this_time_is_work_done(says: str) -> None:
    line = understand(says, PROJECT)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.STEP)


@pytest.mark.parametrize(
    "says",
    ["diffuser still good after 40 h", "no warp on the gate this time", "gate 2 held"],
)
def test_a_word_that_it_held_is_no_failure(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.verdict is not Verdict.TAKEN or line.kind is not Kind.FAILURE


@pytest.mark.parametrize(
    "says",
    [
        "yesterday 16:00 printed the gate twice, first one warped",
        "printed two gates, one warped",
        "printed the gate twice and the second one warped",
    ],
)
def test_two_made_of_which_one_failed_are_asked_about(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.question is not None
    assert line.verdict is Verdict.ASKED
    assert "two things" in line.question.question


def test_what_is_asked_about_is_what_is_amiss_and_not_the_work() -> None:
    line = understand("cut both lids and folded one, the other has a scratch", PROJECT)
    assert line.question is not None
    assert "the other has a scratch" in line.question.question


@pytest.mark.parametrize("says", ["lid-1 kinked", "crossbar 1 bowed", "cable 1 frayed"])
def test_a_piece_and_what_befell_it_is_a_failure(says: str) -> None:
    line = understand(says, PROJECT)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.FAILURE)


def _stand_with_a_base() -> Snapshot:
    """Give the records of a stand of which one base is made."""
    before = known(DEMO)
    draft = Draft(world(before), NOW)
    [base] = draft.snapshot.named("base", Part)
    draft.piece(base)
    return world((*before, *draft.records))


def test_what_held_after_work_on_it_is_said_to_be_still_good() -> None:
    line = understand("drove the screw into the base, it held", DEMO)
    assert (line.kind, line.question) == (Kind.NOTE, None)
    records = drafted(line, _stand_with_a_base())
    [good] = [one for one in records if isinstance(one, Status)]
    assert (good.state, good.title) == (State.CONFIRMED, "base-1 still good")
    assert not [one for one in records if isinstance(one, Failure)]
    assert [one.title for one in records if isinstance(one, Note)] == [line.line]


@pytest.mark.parametrize(
    "says",
    [
        "drove the screw into the base, it held for a day",
        "drove the screw into the base, I hope it held",
        "drove the screw into the base, it held the lamp",
        "drove the screw into the base, not sure it held",
    ],
)
def test_what_held_a_while_or_in_hope_is_not_said_to_be_still_good(says: str) -> None:
    records = drafted(understand(says, DEMO), _stand_with_a_base())
    assert not [one for one in records if isinstance(one, Status)]


def test_of_a_part_without_a_piece_nothing_is_said_to_be_still_good() -> None:
    line = understand("drove the screw into the base, it held", DEMO)
    records = drafted(line, world(known(DEMO)))
    assert not [one for one in records if isinstance(one, Status)]
