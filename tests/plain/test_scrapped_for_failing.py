"""A piece scrapped for failing, of a part that failed before, is one more failure."""

from __future__ import annotations

import pytest

from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.records.kinds.happenings import Disposal, Failure
from logbook.records.kinds.words import Disposition
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.judge import NOW, of_parts
from tests.plain.records_of import drafted, known, world

WORDS = of_parts("gate", "lamp", "lid")


def after(*lines: str) -> Snapshot:
    """Give what is on record after these lines."""
    records = known(WORDS)
    for line in lines:
        records = (*records, *drafted(understand(line, WORDS), world(records)))
    return world(records)


@pytest.mark.parametrize(
    "says",
    [
        "scrapped gate 2, warped next to the lamp",
        "scrapped gate 2, sagged again",
    ],
)
def test_it_is_a_failure_that_ends_the_piece(says: str) -> None:
    snapshot = after("gate sagged beside the lamp, scrapped it")
    draft = draft_line(Draft(snapshot, NOW), understand(says, WORDS))
    [failure] = [one for one in draft.records if isinstance(one, Failure)]
    assert failure.disposition is Disposition.SCRAP
    assert failure.piece is not None
    assert failure.piece.name == "gate-2"
    assert not any(isinstance(one, Disposal) for one in draft.records)
    assert any("gate sagged beside the lamp" in one for one in draft.remarks)


@pytest.mark.parametrize(
    "says", ["scrapped gate 2", "scrapped gate 2, printed the wrong way round"]
)
def test_what_did_not_fail_is_only_scrapped(says: str) -> None:
    snapshot = after("gate sagged beside the lamp, scrapped it")
    draft = draft_line(Draft(snapshot, NOW), understand(says, WORDS))
    assert not any(isinstance(one, Failure) for one in draft.records)
    assert [one for one in draft.records if isinstance(one, Disposal)]


def test_a_part_that_never_failed_is_only_scrapped() -> None:
    says = "scrapped lid 2, warped next to the lamp"
    draft = draft_line(Draft(after(), NOW), understand(says, WORDS))
    assert not any(isinstance(one, Failure) for one in draft.records)
