"""Hours of a build: what was counted and what was said, each minute once."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from fractions import Fraction

from logbook.publish.parts.hours_told import hours_told
from logbook.quantity import parse_quantity
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import StepDone, Work
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import path_of
from logbook.records.kinds.workshop import Build
from logbook.records.states.hours import shown_minutes, time_spent
from logbook.records.together.from_files import make_snapshot
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import digest, read_record, write_record

START = datetime(2026, 3, 14, 9, 0, tzinfo=UTC)
FOLD = Step(id="0f0f0f0f", title="fold the base", when=START, number=1)
FILE = Step(id="0g0g0g0g", title="file the crossbar", when=START, number=2)
ONE = Build(id="0b0b0b01", title="build 1", when=START)
TWO = Build(id="0b0b0b02", title="build 2", when=START)


def world(*entries: Record) -> Snapshot:
    files = []
    for record in (FOLD, FILE, ONE, TWO, *entries):
        data = write_record(record).encode()
        path = path_of(record)
        files.append((path, digest(data), read_record(data, path)))
    return make_snapshot(files)


def worked(minutes: str, step: Step | None, after: int, build: Build = ONE) -> Work:
    return Work(
        id=new_id(),
        title=f"{minutes} worked",
        when=START + timedelta(minutes=after),
        build=build.ref,
        step=step.ref if step else None,
        time=parse_quantity(minutes, "min"),
        began=START,
    )


def done(minutes: str, step: Step, after: int) -> StepDone:
    return StepDone(
        id=new_id(),
        title=step.title,
        when=START + timedelta(minutes=after),
        build=ONE.ref,
        step=step.ref,
        time=parse_quantity(minutes, "min"),
    )


def told(snapshot: Snapshot, build: Build = ONE) -> list[tuple[str, int, int]]:
    kept = snapshot.find(build.ref, Build)
    assert kept is not None
    return [
        (s.name, int(s.minutes), int(s.clocked)) for s in time_spent(snapshot, kept)
    ]


def test_of_what_was_counted_and_what_was_said_of_a_step_the_longer_counts() -> None:
    snapshot = world(
        worked("35 min", FILE, 10),
        worked("1 h", FILE, 90),
        done("2 h", FILE, 95),
        done("75 min", FOLD, 5),
    )
    assert told(snapshot) == [("fold the base", 75, 0), ("file the crossbar", 120, 95)]


def test_all_minutes_said_count_beside_two_by_the_clock() -> None:
    snapshot = world(worked("2 min", FOLD, 1), done("35 min", FOLD, 2))
    said = replace(done("40 min", FILE, 3), title="filed it", step=None)
    assert told(snapshot) == [("fold the base", 35, 2)]
    both = world(worked("2 min", FOLD, 1), done("35 min", FOLD, 2), said)
    [line] = hours_told(both)
    assert line.startswith("build 1 took about 1 h 15 min")
    assert "(2 min of it by the clock, the rest as said)" in line


def test_what_was_said_and_is_less_than_was_counted_is_told_beside() -> None:
    snapshot = world(worked("60 min", FOLD, 1), done("20 min", FOLD, 2))
    [line] = hours_told(snapshot)
    assert line.startswith("build 1 took about 1 h")
    assert "(all by the clock; fold the base: 20 min said, 1 h worked)" in line


def test_work_on_no_step_counts_and_another_build_does_not() -> None:
    snapshot = world(worked("12", None, 1), worked("40", FOLD, 2, TWO))
    assert told(snapshot) == [("", 12, 12)]
    assert told(snapshot, TWO) == [("fold the base", 40, 40)]


def test_work_only_said_is_not_by_the_clock() -> None:
    said = replace(worked("22 h", None, 1), began=None)
    assert told(world(said)) == [("", 22 * 60, 0)]
    assert told(world(said, worked("1 h", None, 2))) == [("", 23 * 60, 60)]


def test_a_step_that_is_only_named_and_a_time_that_is_none_do_not_stop_it() -> None:
    loose = Work(
        id=new_id(), title="x", when=START, build=ONE.ref, step=Ref("gone"),
        time=parse_quantity("5 mm"),
    )  # fmt: skip
    assert told(world(loose)) == []


def test_minutes_are_said_in_hours_where_that_is_shorter() -> None:
    said = [shown_minutes(Fraction(n)) for n in (0, 59, 60, 125)]
    assert said == ["0 min", "59 min", "1 h", "2 h 5 min"]
