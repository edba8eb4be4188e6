"""A fault in a build that has no such piece yet is asked of which piece it is."""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.plain.answers.answering import answered
from logbook.plain.answers.held import held_to_records
from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.plain.understanding import Understanding, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.happenings import Disposal, Failure
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import Disposition
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.judge import NOW
from tests.plain.records_of import drafted, known, world

WORDS = Vocabulary(now=NOW, parts={"crossbar": (), "collar": ()})


def second_build(*says: str) -> Snapshot:
    """Give a project in which these lines were said in a first build, now gone on."""
    records = known(WORDS)
    for one in says:
        records = (*records, *drafted(understand(one, WORDS), world(records)))
    later = NOW + timedelta(hours=2)
    return world((*records, Build(id=new_id(), title="build 2", when=later)))


def held(says: str, snapshot: Snapshot, build: Build | None = None) -> Understanding:
    return held_to_records(understand(says, WORDS), snapshot, build=build)


SAWED = second_build("sawed the crossbar", "crossbar length 178.3")


@pytest.mark.parametrize(
    "says", ["crossbar scratched at the left end", "scrapped the crossbar"]
)
def test_which_one_is_asked_where_only_another_build_has_one(says: str) -> None:
    line = held(says, SAWED)
    assert line.verdict is Verdict.ASKED
    assert line.question is not None
    assert line.question.question == "which crossbar? none of build 2 is on record yet"
    assert line.question.choices == ("crossbar-1 of build 1", "a new one of build 2")


@pytest.mark.parametrize(
    ("answer", "piece", "made"),
    [("1", "crossbar-1", 0), ("crossbar-1", "crossbar-1", 0), ("2", "crossbar-2", 1)],
)
def test_a_piece_is_made_only_where_that_is_said(
    answer: str, piece: str, made: int
) -> None:
    line = held("crossbar scratched at the left end", SAWED)
    assert line.question is not None
    answer = {str(n): one for n, one in enumerate(line.question.choices, 1)}.get(
        answer, answer
    )
    told = answered(line, line.question, answer, WORDS)
    told = held_to_records(told, SAWED, {line.question.question})
    assert told.verdict is Verdict.TAKEN
    draft = draft_line(Draft(SAWED, NOW + timedelta(hours=1)), told)
    [failure] = [one for one in draft.new if isinstance(one, Failure)]
    assert failure.piece is not None
    assert failure.piece.name == piece
    assert len([*draft.made(Piece)]) == made


@pytest.mark.parametrize(
    "says",
    [
        "crossbar-1 scratched at the left end",
        "sawed another crossbar, it split at the left end",
        "sawed the crossbar",
        "crossbar length 178.3",
        "collar chipped at the rim",
    ],
)
def test_it_is_not_asked_where_the_line_tells_or_nothing_else_can_be_meant(
    says: str,
) -> None:
    question = held(says, SAWED).question
    assert question is None or question.about != "whose piece"


def test_it_is_not_asked_in_the_build_that_has_it() -> None:
    first = next(one for one in SAWED.all(Build) if one.title == "build 1")
    assert held("crossbar scratched", SAWED, first).verdict is Verdict.TAKEN


def test_a_piece_that_is_gone_is_not_offered() -> None:
    [bar] = SAWED.all(Piece)
    thrown = Disposal(
        id=new_id(),
        title="scrapped the crossbar",
        when=NOW + timedelta(hours=3),
        piece=bar.ref,
        disposition=Disposition.SCRAP,
    )
    gone = world((*(SAWED[one] for one in SAWED.stored), thrown))
    assert held("crossbar scratched", gone).verdict is Verdict.TAKEN
