"""A snapshot made from the one before is what all files anew would give."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.errors import Problem
from logbook.records.kinds import design, happenings, made_public, workshop
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import KINDS
from logbook.records.together import ordered, spread
from logbook.records.together.from_files import make_snapshot
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.succession import Read, next_snapshot
from logbook.records.written.text import Parsed
from tests.records.strategies import NOON

IDS = tuple(f"aaaa000{n}" for n in range(6))
NAMES = ("base", "Crossbar", "cross-bar", "upright")
PATHS = tuple(f"as-built/{n}.md" for n in range(6))
Files = dict[str, Read]
Changes = dict[str, Parsed | None]

refs = st.builds(Ref, st.sampled_from(NAMES), st.sampled_from(("", "", *IDS)))
common = {
    "title": st.sampled_from(NAMES),
    "when": st.integers(0, 3).map(lambda n: NOON + timedelta(hours=n)),
    "formerly": st.lists(st.sampled_from(NAMES), max_size=1).map(tuple),
}
ORDINARY = (
    st.builds(design.Part, aliases=st.tuples(st.sampled_from(NAMES)), **common),
    st.builds(happenings.Note, part=st.none() | refs, build=st.none() | refs, **common),
    st.builds(happenings.Note, part=refs, about=st.tuples(refs, refs), **common),
    st.builds(workshop.Build, **common),
    st.builds(design.Revision, part=refs, label=st.sampled_from("AB"), **common),
    st.builds(
        made_public.Erratum,
        part=st.none() | refs,
        from_entries=st.tuples(refs),
        same_as=st.none() | refs,
        **common,
    ),
)
project = st.builds(design.Project, format=st.sampled_from((1, 99)), **common)


@st.composite
def changes(draw: st.DrawFn) -> Changes:
    """Give files written anew or gone; seldom two with one id, or a project."""
    found: Changes = {}
    for path in draw(st.sets(st.sampled_from(PATHS), min_size=1, max_size=3)):
        luck = draw(st.integers(0, 39))
        record = draw(project if luck == 0 else st.one_of(*ORDINARY))
        own = draw(st.sampled_from(IDS)) if luck == 1 else IDS[PATHS.index(path)]
        wrong = Problem(path, 2, "colour", "red", "none")
        problems = (wrong,) if luck < 6 else ()
        found[path] = Parsed(replace(record, id=own), problems)
        if luck > 30:
            found[path] = None
        elif luck == 2:
            found[path] = Parsed(None, problems)
    return found


def after(files: Files, changed: Changes) -> Files:
    """Give the files with some of them written, or gone."""
    fresh = dict(files)
    for path, parsed in changed.items():
        if parsed is None:
            fresh.pop(path, None)
        else:
            fresh[path] = (repr(parsed), parsed)
    return fresh


def anew(files: Files) -> Snapshot:
    return make_snapshot((path, *read) for path, read in files.items())


def ask_everything(snapshot: Snapshot) -> list[object]:
    """Give all a snapshot answers; what it has worked out is then kept in it."""
    answers: list[object] = [
        list(snapshot), snapshot.stored, snapshot.problems, snapshot.read_only,
        snapshot.entries, snapshot.checked,
    ]  # fmt: skip
    answers += [snapshot.all(kind.type) for kind in KINDS.values()]
    answers += [snapshot.named(name, Record) for name in NAMES]
    answers += [snapshot.named(name, design.Part) for name in NAMES]
    answers += [snapshot.find(Ref(name, one)) for name in NAMES for one in ("", *IDS)]
    answers += [snapshot.mentions(record) for record in snapshot]
    answers += [snapshot.parted(one) for one in IDS]
    return answers


def mine(snapshot: Snapshot) -> bool:
    """Tell whether whatever is found is the very record that is held."""
    return all(
        snapshot[one.id] is one
        for record in snapshot
        for one in (record, *snapshot.mentions(record), *snapshot.entries)
    )


stories = st.lists(changes(), min_size=2, max_size=8)


@settings(max_examples=200, deadline=None)
@given(stories, st.booleans())
def test_after_any_changes_it_is_what_all_files_anew_would_give(
    story: list[Changes], asked: bool
) -> None:
    follow(story, asked=asked)


@settings(max_examples=100, deadline=None)
@given(stories, st.booleans())
def test_it_is_so_where_everything_is_kept_in_pieces(
    story: list[Changes], asked: bool
) -> None:
    with pytest.MonkeyPatch.context() as small:
        small.setattr(ordered, "PIECE", 1)
        small.setattr(spread, "PIECE", 1)
        follow(story, asked=asked)


def follow(story: list[Changes], *, asked: bool) -> None:
    files: Files = {}
    snapshot = anew(files)
    for changed in story:
        if asked:
            ask_everything(snapshot)
        fresh = after(files, changed)
        snapshot = next_snapshot(snapshot, files, fresh, changed)
        files = fresh
        assert snapshot.problems == anew(files).problems
    assert ask_everything(snapshot) == ask_everything(anew(files))
    assert mine(snapshot)


def test_what_was_before_stays_as_it_was() -> None:
    part = design.Part(id=IDS[0], title="base", when=NOON)
    note = happenings.Note(id=IDS[1], title="swept", when=NOON, part=part.ref)
    files = after({}, {PATHS[0]: Parsed(part), PATHS[1]: Parsed(note)})
    before = anew(files)
    said = ask_everything(before)
    fresh = after(files, {PATHS[1]: None})
    now = next_snapshot(before, files, fresh, [PATHS[1]])
    assert now.mentions(part) == ()
    assert ask_everything(before) == said


def test_nothing_else_is_looked_at_again() -> None:
    part = design.Part(id=IDS[0], title="base", when=NOON)
    note = happenings.Note(id=IDS[1], title="swept", when=NOON, part=part.ref)
    files = after({}, {PATHS[0]: Parsed(part)})
    before = anew(files)
    ask_everything(before)
    fresh = after(files, {PATHS[1]: Parsed(note)})
    now = next_snapshot(before, files, fresh, [PATHS[1]])
    assert now.stored[part.id] is before.stored[part.id]
    assert {"_ordered", "_by_type", "_by_name", "_links", "entries", "_parted"} <= vars(
        now
    ).keys()
    assert now.mentions(part) == (note,)
    assert vars(now)["_parted"].keys() == set(IDS)


@pytest.mark.parametrize("paths", [(), PATHS[:1]])
def test_where_nothing_changed_it_is_the_same(paths: tuple[str, ...]) -> None:
    files = after({}, {PATHS[0]: Parsed(workshop.Build(id=IDS[0], title="first"))})
    before = anew(files)
    assert next_snapshot(before, files, dict(files), paths) is before
