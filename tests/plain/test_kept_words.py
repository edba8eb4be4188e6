"""A vocabulary kept from the records before is what the records now would give."""

from __future__ import annotations

from dataclasses import fields

from hypothesis import given
from hypothesis import strategies as st

from logbook.plain.words.project_words import kept_vocabulary, vocabulary
from logbook.plain.words.vocabulary import Vocabulary
from logbook.quantity import parse_quantity
from logbook.records.kinds import assembling, design, happenings, workshop
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.succession import Read, next_snapshot
from logbook.records.written.text import Parsed
from tests.records.strategies import NOON

IDS = tuple(f"aaaa000{n}" for n in range(5))
TITLES = ("base", "cross bar", "upright-1")
PLACES = ("left", "right", "")

parts = st.builds(Ref, st.sampled_from(TITLES), st.sampled_from(IDS))
readings = st.builds(
    lambda place: happenings.Reading(
        id="bbbbbbbb",
        at=NOON,
        what=Ref("length"),
        value=parse_quantity("3 mm"),
        place=place,
    ),
    st.sampled_from(PLACES),
)


def records(identity: str) -> st.SearchStrategy[Record]:
    """Give records with this id, most of them runs and notes."""
    about = {"id": st.just(identity), "title": st.sampled_from(TITLES)}
    runs = st.builds(
        happenings.Run, readings=st.lists(readings, max_size=3).map(tuple), **about
    )
    notes = st.builds(happenings.Note, when=st.just(NOON), **about)
    named = st.one_of(
        st.builds(design.Part, **about),
        st.builds(workshop.Piece, part=parts, **about),
        st.builds(design.Characteristic, part=parts, places=st.just(("top",)), **about),
        st.builds(assembling.Step, **about),
        st.builds(design.Project, unit=st.sampled_from(("mm", "in")), **about),
    )
    return st.one_of(runs, runs, notes, named)


changes = st.lists(
    st.sampled_from(IDS).flatmap(
        lambda one: st.tuples(st.just(one), st.none() | records(one))
    ),
    min_size=1,
    max_size=8,
)


def told(words: Vocabulary) -> dict[str, object]:
    """Give all that a vocabulary holds; places have no order."""
    held = {field.name: getattr(words, field.name) for field in fields(words)}
    return held | {"places": {*words.places}}


@given(changes, st.lists(st.sampled_from(("lid", "bed plate")), unique=True))
def test_after_any_changes_the_names_are_those_on_record(
    story: list[tuple[str, Record | None]], proposed: list[str]
) -> None:
    files: dict[str, Read] = {}
    snapshot = Snapshot({})
    words = Vocabulary(NOON)
    for identity, record in story:
        fresh = {path: read for path, read in files.items() if path != identity}
        if record is not None:
            fresh[identity] = repr(record), Parsed(record)
        before, snapshot = (
            snapshot,
            next_snapshot(snapshot, files, fresh, [identity]),
        )
        files = fresh
        words = kept_vocabulary(words, before, snapshot, NOON, proposed)
        assert told(words) == told(vocabulary(snapshot, NOON, proposed))


def test_a_note_changes_no_name_and_nothing_is_worked_out_again() -> None:
    part = design.Part(id=IDS[0], title="base", when=NOON)
    note = happenings.Note(id=IDS[1], title="swept", when=NOON)
    files: dict[str, Read] = {"a": ("1", Parsed(part))}
    before = next_snapshot(Snapshot({}), {}, files, ["a"])
    words = vocabulary(before, NOON)
    words.prepare()
    more = {**files, "b": ("2", Parsed(note))}
    after = next_snapshot(before, files, more, ["b"])
    kept = kept_vocabulary(words, before, after, NOON)
    assert vars(kept)["_names"] is vars(words)["_names"]
