"""One line that made a reading and a deviation is put right in both, its words too.

The scene is the copy stand; its sizes are invented.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.records.kinds.happenings import Deviation, Run
from logbook.records.kinds.record import Record
from logbook.records.making.same_fact import with_the_same
from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")

TYPED = "base opening 178.6 should be 180"
BETTER = "base folded narrow, opening 178.6 and not 180"


def pair(stand: Stand) -> tuple[Run, Deviation]:
    code, said = stand.run("say", TYPED, "--yes")
    assert code == 0, said
    snapshot = stand.project.snapshot
    return snapshot.all(Run)[-1], snapshot.all(Deviation)[-1]


def amended(stand: Stand, one: Record, title: str) -> None:
    draft = stand.begin()
    known = draft.snapshot[one.id]
    after = replace(known, title=title)
    for _, changed in with_the_same(draft.snapshot, known, after):
        draft.amend(changed)
    stand.keep(draft, f"amended: {title}")


@pytest.mark.parametrize("first", [Run, Deviation])
def test_words_amended_in_one_of_a_pair_are_published_of_neither(
    stand: Stand, first: type[Record]
) -> None:
    both = pair(stand)
    [one] = [each for each in both if isinstance(each, first)]
    assert {each.title for each in both} == {TYPED}
    amended(stand, one, BETTER)
    snapshot = stand.project.snapshot
    assert {snapshot[each.id].title for each in both} == {BETTER}
    assert TYPED not in stand.run("notes", "--print")[1]


def test_words_that_were_others_already_stay(stand: Stand) -> None:
    run, deviation = pair(stand)
    own = "measured after folding"
    draft = stand.begin()
    draft.amend(replace(draft.snapshot.lookup(run.id, Run), title=own))
    stand.keep(draft, "amended")
    amended(stand, deviation, BETTER)
    snapshot = stand.project.snapshot
    assert snapshot[run.id].title == own
    assert snapshot[deviation.id].title == BETTER
