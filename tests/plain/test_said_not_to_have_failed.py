"""What did not fail is no failure; what did is told apart from the work beside it."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT


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
