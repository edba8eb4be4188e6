"""What was looked up once is looked up again where a change makes it differ."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.advice.ground.register import Register, View
from logbook.records.kinds import design, happenings, workshop
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import KINDS
from logbook.records.states.pieces import current_build
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.succession import next_snapshot
from tests.advice.world import World
from tests.records.test_succession import (
    IDS,
    NAMES,
    Changes,
    Files,
    after,
    anew,
    changes,
)

Look = Callable[[Snapshot], object]
CLASSES = (happenings.Note, design.Revision, happenings.Entry)


def build_of(snapshot: Snapshot) -> object:
    return snapshot.build if isinstance(snapshot, View) else current_build(snapshot)


def looks() -> dict[str, Look]:
    """Give everything that can be looked up of a small project."""
    found: dict[str, Look] = {
        "list": list, "entries": lambda s: s.entries, "project": lambda s: s.project,
        "build": build_of,
    }  # fmt: skip
    for kind in KINDS.values():
        found[f"all {kind.word}"] = partial(lambda cls, s: s.all(cls), kind.type)
    for name in NAMES:
        found[f"named {name}"] = partial(lambda n, s: s.named(n, Record), name)
        found[f"by {name}"] = partial(lambda n, s: s.find(Ref(n), design.Part), name)
    for one in IDS:
        found[f"{one} there"] = partial(lambda i, s: i in s, one)
        found[f"find {one}"] = partial(lambda i, s: s.find(Ref("", i)), one)
        for classes in ((), *((cls,) for cls in CLASSES), CLASSES):
            words = " ".join(cls.__name__ for cls in classes)
            found[f"{one} mentions {words}"] = partial(mentions, one, classes)
    return found


def mentions(
    identity: str, classes: tuple[type[Record], ...], snapshot: Snapshot
) -> object:
    here = snapshot.find(Ref("", identity))
    return snapshot.mentions(here, *classes) if here else None


@settings(max_examples=100, deadline=None)
@given(st.lists(changes(), min_size=2, max_size=6), st.booleans())
def test_nothing_that_is_remembered_is_out_of_date(
    story: list[Changes], anew_each_time: bool
) -> None:
    files: Files = {}
    snapshot, register = anew(files), Register()
    for changed in story:
        fresh = after(files, changed)
        snapshot = next_snapshot(snapshot, files, fresh, changed)
        files = fresh
        register.update(anew(files) if anew_each_time else snapshot)
        view, plain = View(register), anew(files)
        for name, look in looks().items():
            assert view.remembered(name, (), partial(look, view)) == look(plain), name


def test_one_thing_remembered_in_another_takes_it_along() -> None:
    world = World()
    part = world.part("base")
    register = Register()

    def titles(view: View) -> str:
        inner = view.remembered("inner", (), lambda: view.find(part.ref, design.Part))
        return str(inner.title)

    for title in ("base", "plate", "sole"):
        world.add(replace(part, title=title))
        register.update(world.snapshot())
        view = View(register)
        assert view.remembered("outer", (), partial(titles, view)) == title


def test_the_build_in_hand_goes_back_with_the_last_entry() -> None:
    world = World()
    first, second = (
        world.add(workshop.Build(title=title, **world.about())) for title in ("a", "b")
    )
    for build in (second, first):
        note = world.add(
            happenings.Note(title="swept", build=build.ref, **world.about())
        )
    register = Register()
    register.update(world.snapshot())
    assert register.build == first
    del world.records[note.id]
    register.update(world.snapshot())
    assert register.build == second
