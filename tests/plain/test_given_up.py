"""A build that is given up is a note of that build, and no failure unasked."""

from __future__ import annotations

import pytest

from logbook.plain.answers.answering import answered
from logbook.plain.answers.held import held_to_records
from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.records.kinds.happenings import Failure, Note
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.fresh import DEMO
from tests.plain.judge import NOW
from tests.plain.records_of import drafted, known, world

WHY = "gave up {}, the lamp is no good"


def _stand() -> tuple[Snapshot, str]:
    """Give the records of the stand, and what its one build is called."""
    snapshot = world(known(DEMO))
    return snapshot, Draft(snapshot, NOW).build().title


def _held(says: str, snapshot: Snapshot) -> Understanding:
    return held_to_records(understand(says, DEMO), snapshot)


@pytest.mark.parametrize(
    "says", ["given up {}", "gave up {}", "we have given up on {}", "{} is given up"]
)
def test_a_build_given_up_is_no_failure(says: str) -> None:
    snapshot, build = _stand()
    line = _held(says.format(build), snapshot)
    assert (line.verdict, line.facts.build) != (Verdict.ASKED, "")
    assert not [one for one in drafted(line, snapshot) if isinstance(one, Failure)]


@pytest.mark.parametrize(
    "says",
    [
        WHY,
        "abandoned {}: the base is bent",
        "gave up {} because the lamp cracked",
        "{} is given up, lamp cracked",
    ],
)
def test_whether_what_it_was_given_up_for_failed_is_asked(says: str) -> None:
    snapshot, build = _stand()
    line = _held(says.format(build), snapshot)
    part = line.facts.part
    assert line.question is not None
    assert line.question.choices == (f"a note of {build}", f"the {part} failed")


def test_it_is_a_note_or_the_failure_as_answered() -> None:
    snapshot, build = _stand()
    line = _held(WHY.format(build), snapshot)
    asked = line.question
    assert asked is not None
    note, failed = (
        held_to_records(answered(line, asked, said, DEMO), snapshot, {asked.question})
        for said in asked.choices
    )
    records = drafted(note, snapshot)
    [kept] = [one for one in records if isinstance(one, Note)]
    assert (kept.title, kept.build and kept.build.name) == (line.line, build)
    assert not [one for one in records if isinstance(one, Failure | Piece)]
    assert (failed.kind, failed.question) == (Kind.FAILURE, None)
    assert [one for one in drafted(failed, snapshot) if isinstance(one, Failure)]


def test_of_a_build_that_is_not_there_it_is_only_a_note() -> None:
    snapshot, _ = _stand()
    line = _held(WHY.format("build 7"), snapshot)
    assert (line.verdict, line.facts.build) == (Verdict.KEPT, "")
    assert line.remark == "there is no build 7 on record"
    assert not [one for one in snapshot.all(Build) if one.title == "build 7"]


def test_a_part_that_gave_up_failed() -> None:
    snapshot, _ = _stand()
    assert _held("the lamp gave up", snapshot).kind is Kind.FAILURE
