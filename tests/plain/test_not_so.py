"""A line that says that an entry is not so is asked about, and retracts it."""

from __future__ import annotations

import pytest

from logbook.plain.understanding import Verdict
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.happenings import Decision, Failure, Note
from tests.plain.judge import NOW
from tests.plain.on_record import asked, on_record, told

WORDS = Vocabulary(now=NOW, parts={"lid": (), "base": ()})
BENT = "lid does not lie flat"
ROUND = "decided to round the corners of the lid"


@pytest.mark.parametrize(
    ("says", "reason"),
    [
        ("that was no failure, a chip was under it", "a chip was under it"),
        ("that was not a failure", ""),
        ("it wasn't a failure because a chip was under it", "a chip was under it"),
        (
            "the lid does lie flat after all, a chip was under it",
            "“the lid does lie flat after all, a chip was under it”",
        ),
    ],
)
def test_a_failure_that_was_none(says: str, reason: str) -> None:
    snapshot = on_record(WORDS, BENT)
    [failure] = snapshot.all(Failure)
    line = asked(WORDS, says, snapshot)
    assert line.verdict is Verdict.ASKED
    assert line.question is not None
    assert line.question.question.startswith(f"does this say that “{BENT}”")
    draft = told(WORDS, line, "it is not so", snapshot)
    [note] = [one for one in draft.amended if isinstance(one, Note)]
    assert note.id == failure.id
    because = f", because {reason}" if reason else ""
    assert note.prose.startswith(f"Retracted{because}; it was logged as a failure.")
    assert not [one for one in draft.new if isinstance(one, Failure | Decision)]


@pytest.mark.parametrize(
    "says",
    [
        "we will not round the corners of the lid after all",
        "after all we won't round the corners of the lid",
    ],
)
def test_a_decision_that_is_not_kept_to(says: str) -> None:
    snapshot = on_record(WORDS, ROUND)
    line = asked(WORDS, says, snapshot)
    draft = told(WORDS, line, "it is not so", snapshot)
    [note] = [one for one in draft.amended if isinstance(one, Note)]
    assert f"Retracted, because “{says}”; it was logged as a decision" in note.prose
    assert not draft.new


@pytest.mark.parametrize(
    "says",
    [
        "we will round the corners of the lid after all",
        "the base is not flat after all",
        "not rounding anything after all",
        "that was no fun",
    ],
)
def test_what_denies_nothing_on_record_is_not_asked(says: str) -> None:
    line = asked(WORDS, says, on_record(WORDS, BENT, ROUND))
    assert line.amends is None


def test_answered_otherwise_it_is_a_line_of_its_own() -> None:
    snapshot = on_record(WORDS, ROUND)
    line = asked(WORDS, "we will not round the corners of the lid after all", snapshot)
    draft = told(WORDS, line, "only a note", snapshot)
    assert not draft.amended
    assert [type(one) for one in draft.new] == [Note]
