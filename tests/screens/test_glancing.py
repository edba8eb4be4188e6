"""What is kept from glance to glance is what a first glance would find."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.records.kinds import design, happenings, workshop
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Disposition, Source
from logbook.records.together import ordered, spread
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.succession import Read, next_snapshot
from logbook.records.written.text import Parsed
from logbook.screens.desk import glancing
from logbook.screens.desk.glancing import Glancing
from tests.records.strategies import NOON

IDS = tuple(f"aaaa000{n}" for n in range(7))
TITLES = ("base", "base-1", "off by a hair")

Story = list[tuple[str, Record | None]]
refs = st.builds(Ref, st.sampled_from(TITLES), st.sampled_from(("", *IDS)))
decided = st.sampled_from((None, Disposition.REWORK))


def records(identity: str) -> st.SearchStrategy[Record]:
    """Give records with this id, of all kinds a glance looks at."""
    about = {"id": st.just(identity), "title": st.sampled_from(TITLES)}
    when = {"when": st.just(NOON)}
    entered = {**about, **when, "build": st.none() | refs}
    return st.one_of(
        st.builds(design.Part, source=st.sampled_from(Source), **about),
        st.builds(workshop.Build, **about, **when),
        st.builds(workshop.Piece, part=refs, build=st.none() | refs, **about),
        st.builds(happenings.Note, part=refs, **entered),
        st.builds(happenings.Deviation, piece=refs, disposition=decided, **entered),
        st.builds(happenings.Failure, piece=refs, disposition=decided, **entered),
        st.builds(
            happenings.Disposal,
            piece=refs,
            answers=st.none() | refs,
            disposition=st.just(Disposition.SCRAP),
            **entered,
        ),
    )


stories = st.lists(
    st.sampled_from(IDS).flatmap(
        lambda one: st.tuples(st.just(one), st.none() | records(one))
    ),
    min_size=1,
    max_size=12,
)


def snapshots(story: Story) -> list[Snapshot]:
    """Give the snapshot after each change."""
    files: dict[str, Read] = {}
    found = [Snapshot({})]
    for identity, record in story:
        fresh = {path: read for path, read in files.items() if path != identity}
        if record is not None:
            fresh[identity] = repr(record), Parsed(record)
        found.append(next_snapshot(found[-1], files, fresh, [identity]))
        files = fresh
    return found


@given(stories, st.sampled_from((1, 512)))
def test_after_any_changes_it_is_what_is_seen_anew(story: Story, piece: int) -> None:
    with pytest.MonkeyPatch.context() as small:
        small.setattr(ordered, "PIECE", piece)
        small.setattr(spread, "PIECE", piece)
        kept = Glancing()
        for snapshot in snapshots(story):
            assert kept.over(snapshot) == Glancing().over(snapshot)


def test_a_note_makes_no_fault_and_no_piece_looked_at_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    part = design.Part(id=IDS[0], title="base")
    piece = workshop.Piece(id=IDS[1], title="base-1", part=part.ref)
    fault = happenings.Failure(id=IDS[2], title="split", piece=piece.ref, when=NOON)
    note = happenings.Note(id=IDS[3], title="swept", part=part.ref, when=NOON)
    every = snapshots([(one.id, one) for one in (part, piece, fault, note)])
    kept = Glancing()
    kept.over(every[-2])
    for name in ("undisposed", "refs_in"):
        monkeypatch.delattr(glancing, name)
    seen = kept.over(every[-1])
    assert [ref.name for ref in seen.open_ones] == ["split"]
    assert seen.undecided(1) == ("split",)
    assert seen.undecided(0) == ()


def test_an_answer_by_name_alone_is_one_only_while_nothing_else_is_called_so() -> None:
    fault = happenings.Failure(id=IDS[0], title="split", when=NOON)
    disposal = happenings.Disposal(
        id=IDS[1],
        title="scrapped",
        answers=Ref("split"),
        disposition=Disposition.SCRAP,
        when=NOON,
    )
    note = happenings.Note(id=IDS[2], title="split", when=NOON)
    kept = Glancing()
    every = snapshots([(one.id, one) for one in (fault, disposal, note)])
    seen = [kept.over(snapshot).undecided(2) for snapshot in every]
    assert seen == [(), ("split",), (), ("split",)]


def test_a_batch_with_nothing_on_record_is_counted_not_named_piece_by_piece() -> None:
    part = design.Part(id=IDS[0], title="base")
    pieces = [
        workshop.Piece(id=one, title=f"base-{n}", part=part.ref)
        for n, one in enumerate(IDS[1:6], 1)
    ]
    every = snapshots([(one.id, one) for one in (part, *pieces)])
    seen = [Glancing().over(snapshot).bare for snapshot in every[1:]]
    assert seen[3] == ("base-1", "base-2", "base-3")
    assert seen[5] == ("base (5 pieces)",)
