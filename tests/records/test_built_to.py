"""Which revision a piece of a build is made to: that of the release it is of."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Count, Failure
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.states.counted import counted_revision
from logbook.records.together.revisions import built_to
from logbook.records.together.snapshot import Snapshot
from tests.plain.records_of import world

NOW = datetime(2026, 3, 14, 12, 0, tzinfo=UTC)
DAY = timedelta(days=1)
PART = Part(id="0p0p0p0p", title="diffuser", name="diffuser", when=NOW)
LAMP = Part(id="1p1p1p1p", title="lamp", name="lamp", when=NOW)
FIRST = Revision(
    id="0r0r0r0r", title="diffuser first issue", part=PART.ref, label="-", when=NOW
)
SECOND = Revision(
    id="1r1r1r1r", title="diffuser rev A", part=PART.ref, label="A",
    follows=FIRST.ref, when=NOW + 2 * DAY,
)  # fmt: skip
OLD = Release(
    id="0e0e0e0e", title="release 1.0", label="1.0", when=NOW + DAY,
    revisions=(FIRST.ref,),
)  # fmt: skip
AGAIN = Build(id="0b0b0b0b", title="build 2", release=OLD.ref, when=NOW + 3 * DAY)
BEFORE = (PART, LAMP, FIRST, OLD, SECOND)
"""A diffuser of the invented copy stand: 1.0 froze its first issue, A came after."""


def draft_in(build: Build, *more: Record) -> Draft:
    return Draft(world((*BEFORE, build, *more)), NOW + 9 * DAY, build)


def test_a_build_of_an_older_release_makes_what_that_release_drew() -> None:
    draft = draft_in(AGAIN)
    made = draft.piece(PART).revision
    assert made is not None
    assert made.id == FIRST.id
    assert built_to(draft.snapshot, PART, AGAIN) == FIRST


@pytest.mark.parametrize("part", [PART, LAMP], ids=["revised", "not in it"])
def test_without_a_release_it_is_the_newest(part: Part) -> None:
    plain = Build(id="1b1b1b1b", title="build 3", when=NOW + 3 * DAY)
    found = built_to(world((*BEFORE, plain)), part, plain)
    assert found == (SECOND if part is PART else None)


def test_a_revision_the_build_itself_led_to_is_made_next() -> None:
    cracked = Failure(
        id=new_id(), title="cracked", part=PART.ref, build=AGAIN.ref, when=NOW + 4 * DAY
    )
    own = Revision(
        id="2r2r2r2r", title="diffuser rev B", part=PART.ref, label="B",
        follows=SECOND.ref, because=(cracked.ref,), when=NOW + 5 * DAY,
    )  # fmt: skip
    assert draft_in(AGAIN, cracked, own).piece(PART).revision == own.ref


def test_one_that_came_of_another_build_meanwhile_is_not() -> None:
    first = Build(id="1b1b1b1b", title="build 1", when=NOW)
    cracked = Failure(
        id=new_id(), title="cracked", part=PART.ref, build=first.ref, when=NOW + DAY
    )
    theirs = Revision(
        id="2r2r2r2r", title="diffuser rev B", part=PART.ref, label="B",
        follows=SECOND.ref, because=(cracked.ref,), when=NOW + 5 * DAY,
    )  # fmt: skip
    draft = draft_in(AGAIN, first, cracked, theirs)
    assert draft.piece(PART).revision == FIRST.ref


def test_pieces_only_counted_in_it_are_of_that_release_too() -> None:
    count = Count(
        id=new_id(), title="4 used", part=PART.ref, build=AGAIN.ref, used=4,
        when=NOW + 4 * DAY,
    )  # fmt: skip
    snapshot: Snapshot = world((*BEFORE, AGAIN, count))
    assert counted_revision(snapshot, count) == FIRST
