"""A measuring run without its screen: where it stands, what it took, what it doubts."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

import pytest

from logbook.advice.advisor import Told
from logbook.errors import BadInput
from logbook.project import Project
from logbook.quantity import parse_quantity
from logbook.records.kinds.happenings import Reading
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.workshop import Build
from logbook.records.together.snapshot import Snapshot
from logbook.screens.run.run_state import RunState
from logbook.screens.run.slots import Slot, Subject
from logbook.screens.run.typed_reading import Typed
from logbook.screens.run.walk import Walk
from tests.screens.conftest import logged

WHEN = datetime.fromisoformat("2026-03-14T10:00:00+01:00")


@dataclass
class Records:
    """The records of a project, and no advice about them."""

    snapshot: Snapshot
    advice: Told
    build: Build | None = None


@pytest.fixture
def run(shop: Path) -> RunState:
    """A run on a bar whose length and width are drawn."""
    logged(shop, "part", "bar")
    for what, value, drawn in (
        ("length", "40.02", "40 mm"),
        ("width", "20.1", "20 mm"),
    ):
        logged(shop, "measure", "bar", what, value, "--nominal", drawn)
    records = Records(Project.open(shop).snapshot, Told((), ()))
    walk = Walk(records, [Subject("bar", 1, "bar-1")])
    walk.begin()
    return RunState(records, walk)


def test_of_several_pieces_the_one_read_last_is_the_one_typed_last(
    run: RunState,
) -> None:
    pair = [Subject("bar", 1, "bar-1"), Subject("bar", 2, "bar-2")]
    walk = Walk(run._records, pair)
    walk.begin()
    both = RunState(run._records, walk)
    first, second = (
        next(slot for slot in walk.slots if slot.piece == piece)
        for piece in ("bar-1", "bar-2")
    )
    read(both, second, "40.01")
    read(both, first, "40.02")
    assert both.read_last() is first


def mm(text: str) -> Typed:
    return Typed(parse_quantity(text, "mm"))


def read(run: RunState, slot: Slot, text: str) -> Reading:
    """Take a reading of a size, as if it had been written."""
    assert slot.drawn is not None
    reading = Reading(
        id=new_id(),
        at=WHEN,
        what=slot.drawn.characteristic.ref,
        value=parse_quantity(text, "mm"),
        place=slot.place,
    )
    run.take(slot, reading)
    return reading


def test_a_walk_ends_past_the_last_size_where_new_ones_are_typed(
    run: RunState,
) -> None:
    walk = run.walk
    assert [slot.what for slot in walk.slots] == ["length", "width"]
    walk.go(99)
    assert walk.slot is None
    walk.go(-99)
    assert walk.slot is walk.slots[0]


def test_a_new_place_stands_behind_the_size_and_stays_once_it_was_read(
    run: RunState,
) -> None:
    walk = run.walk
    [left] = walk.meant([replace(mm("40.1"), place="left")])
    assert [slot.where for slot in walk.slots] == [
        ("bar-1", "length", ""),
        ("bar-1", "length", "left"),
        ("bar-1", "width", ""),
    ]
    walk.follow()
    assert left not in walk.slots, "nothing was read there"
    [left] = walk.meant([replace(mm("40.1"), place="left")])
    read(run, left, "40.1")
    walk.follow()
    assert walk.slot == left


def test_a_refused_line_makes_no_size_and_leaves_the_run_where_it_stood(
    run: RunState,
) -> None:
    walk = run.walk
    before, at = list(walk.slots), walk.at
    heavy = Typed(parse_quantity("2 kg"), "width")
    with pytest.raises(BadInput, match="is a mass"):
        walk.meant([replace(mm("8"), what="bore"), heavy])
    assert (walk.slots, walk.at) == (before, at)


def test_a_doubted_number_keeps_its_row_until_it_is_settled(run: RunState) -> None:
    slot = run.walk.slots[0]
    run.doubt(slot, " 4002 ", "a hundred times what is drawn")
    assert run.doubted[slot.where] == ("4002", "a hundred times what is drawn")
    run.settle(slot)
    assert not run.doubted


def test_the_size_read_last_is_shown_past_the_end(run: RunState) -> None:
    length, width = run.walk.slots
    read(run, width, "20.05")
    read(run, length, "40.01")
    assert run.read_last() == length
    assert str(run.last_value(width)) == "20.05 mm"


def test_what_is_gone_from_disk_is_where_the_run_stands_to_retype_it(
    run: RunState,
) -> None:
    width = run.walk.slots[1]
    read(run, width, "20.05")
    run.walk.go(99)
    run.read_back()
    assert run.taken(width) == []
    assert run.walk.slot == width
