"""A register kept up to date finds what one laid out anew finds."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.advice.register import Register
from logbook.records import model
from logbook.records.model import Record
from tests.advice.world import World
from tests.records.test_succession import NAMES, Changes, Files, after, anew, changes


def found(register: Register) -> list[object]:
    answers: list[object] = [register.build]
    answers += [register.called(name.casefold(), Record) for name in NAMES]
    answers += [register.mentioning(record) for record in register.snapshot]
    return answers


@settings(max_examples=100, deadline=None)
@given(st.lists(changes(), min_size=2, max_size=6))
def test_kept_up_to_date_it_finds_what_one_laid_out_anew_finds(
    story: list[Changes],
) -> None:
    files: Files = {}
    kept = Register()
    for changed in story:
        files = after(files, changed)
        snapshot = anew(files)
        kept.update(snapshot)
        fresh = Register()
        fresh.update(snapshot)
        assert found(kept) == found(fresh)
        assert all(
            list(kept.mentioning(one)) == list(snapshot.mentions(one))
            for one in kept.snapshot
        )


def test_the_build_in_hand_goes_back_with_the_last_entry() -> None:
    world = World()
    first, second = (
        world.add(model.Build(title=title, **world.about())) for title in ("a", "b")
    )
    for build in (second, first):
        note = world.add(model.Note(title="swept", build=build.ref, **world.about()))
    register = Register()
    register.update(world.snapshot())
    assert register.build == first
    del world.records[note.id]
    assert "build" in register.update(world.snapshot())
    assert register.build == second
