"""How warm the room is, told once in a run, goes on record with what is read in it."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from logbook.errors import BadInput
from logbook.quantity import parse_quantity
from logbook.records.kinds.happenings import Reading, Run
from logbook.records.kinds.ids import Ref
from logbook.records.together.from_files import make_snapshot
from logbook.records.written.text import Parsed
from logbook.screens.run.warmth import (
    HOURS_HOLD,
    ROOM_HOLDS,
    Warmth,
    read_warmth,
    told_before,
)
from tests.screens.bench_keys import Bench, bench, measuring, project
from tests.screens.on_disk import orphaned
from tests.screens.test_left_off import noted

NOW = datetime(2026, 3, 14, 12, 0, tzinfo=UTC)
FACE = parse_quantity("51 °C")
LENGTH = parse_quantity("40.01 mm")


def readings(folder: Path) -> list[Reading]:
    """Give what was read, oldest first."""
    runs = project(folder).snapshot.all(Run)
    return sorted((one for run in runs for one in run.readings), key=lambda one: one.at)


async def tell(at: Bench, said: str) -> None:
    await at.do("f11")
    await at.type(said)
    await at.do("enter")


async def test_a_room_told_in_a_run_is_on_record_with_what_follows(
    drawn: Path,
) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        assert "F11 tells" not in at.words
        await tell(at, "22 °C, 2 h")
        assert "22 °C, after 2 h, told " in at.words
        await at.say("40.01")
        await at.say("face 51 °C")
        assert "how warm" not in at.words
    length, face = readings(drawn)[-2:]
    assert (str(length.room), length.after) == ("22 °C", None)
    assert (str(face.room), str(face.after)) == ("22 °C", "2 h")


async def test_at_a_temperature_it_is_said_that_the_room_is_not_told(
    drawn: Path,
) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.type("face 51 °C")
        assert "F11 tells how warm it is, and after how long" in at.words
        await tell(at, "22 °C")
        assert at.line.value == "face 51 °C"
        await at.do("enter")
    assert str(readings(drawn)[-1].room) == "22 °C"


async def test_the_next_run_begins_with_the_room_told_not_long_ago(
    drawn: Path,
) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await tell(at, "22 °C, 2 h")
        await at.say("40.01")
        await at.do("escape")
        await measuring(at, "bar")
        assert "22 °C, told " in at.words
        assert "after 2 h" not in at.words
        await at.do("f11", "x")
        assert "22 °C" not in at.words
        await at.say("40.02")
    assert readings(drawn)[-1].room is None


@pytest.mark.parametrize(
    ("said", "accepted"),
    [
        ("22", "a temperature has its unit"),
        ("at the window", "a place is typed before what is read there"),
        ("2 kg", "22 °C, 2 h"),
    ],
)
async def test_what_is_no_room_is_refused_and_kept(
    drawn: Path, said: str, accepted: str
) -> None:
    async with bench(drawn, (120, 40)) as at:
        await measuring(at, "bar")
        await tell(at, said)
        assert accepted in at.words
        await at.do("escape")
        assert at.line.value == said
    with pytest.raises(BadInput, match=accepted):
        read_warmth(said, NOW)


async def test_a_room_told_is_there_again_after_an_interruption(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await tell(at, "22 °C, 2 h")
        await at.type("40.0")
        await at.until(lambda: "40.0”" in noted(drawn))
    orphaned(drawn)
    async with bench(drawn) as at:
        await at.do("enter")
        assert "22 °C, after 2 h, told " in at.words


@pytest.mark.parametrize(
    ("later", "room", "hours"),
    [
        (timedelta(0), "22 °C", "2 h"),
        (HOURS_HOLD, "22 °C", "2 h"),
        (HOURS_HOLD + timedelta(seconds=1), "22 °C", "None"),
        (ROOM_HOLDS + timedelta(seconds=1), "None", "None"),
        (-timedelta(minutes=1), "None", "None"),
    ],
)
def test_it_holds_for_as_long_as_it_may_still_be_so(
    later: timedelta, room: str, hours: str
) -> None:
    told = read_warmth("22 °C, 2 h", NOW)
    assert [str(one) for one in told.with_reading(FACE, NOW + later)] == [room, hours]
    assert told.with_reading(LENGTH, NOW + later)[1] is None


def test_what_holds_no_more_is_said_to_have_been_told() -> None:
    told = read_warmth("22 °C, 2 h", NOW)
    assert "after 2 h was told" in told.words(NOW + HOURS_HOLD + timedelta(minutes=1))
    assert told.words(NOW + ROOM_HOLDS * 2).endswith("and holds no more")
    assert Warmth().words(NOW) == ""


def test_a_room_is_told_when_it_was_told_first_however_often_it_was_read_in() -> None:
    readings = tuple(
        Reading(
            id=f"0r0r0r0{n}", at=NOW + timedelta(minutes=50 * n), what=Ref("length"),
            value=LENGTH, room=parse_quantity("22 °C"),
        )
        for n in range(3)
    )  # fmt: skip
    run = Run(id="0t0t0t0t", title="run", when=NOW, readings=readings)
    snapshot = make_snapshot([(f"{run.id}.md", "", Parsed(run))])
    assert told_before(snapshot, NOW + timedelta(minutes=110)).told == NOW
    assert told_before(snapshot, NOW + timedelta(minutes=125)) == Warmth()
