"""Amending a record: what is refused is said in one sentence, nothing typed is lost."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from logbook.quantity import Absent, parse_quantity
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Characteristic, Revision
from logbook.records.kinds.happenings import (
    Cause,
    Deviation,
    Failure,
    Reading,
    Run,
    StepDone,
)
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Instrument
from logbook.records.making.amends import amend_draft
from logbook.screens.record.amending import amended, can_amend, typed_fact
from logbook.screens.record.record import RecordSheet
from logbook.screens.record.record_rows import rows_of_record
from logbook.screens.run.measure import Measure
from logbook.store.typed.drafts import drafts
from tests.screens.bench_keys import Bench, bench, project

NOW = datetime(2026, 3, 14, 12, 0, tzinfo=UTC)
PART = Ref("base", "0p0p0p0p")
SIZE = Characteristic(
    id="0c0c0c0c", title="opening", when=NOW, part=PART, critical=True,
    nominal=parse_quantity("180.0 mm"), lower_limit=parse_quantity("178.8 mm"),
    upper_limit=parse_quantity("181.2 mm"),
)  # fmt: skip
OFF = Deviation(
    id="0d0d0d0d", title="off", when=NOW, part=PART,
    found=parse_quantity("178.6 mm"), off=parse_quantity("-1.4 mm"),
)  # fmt: skip
CALIPER = Instrument(id="0n0n0n0n", title="caliper", when=NOW, checked=date(2026, 3, 1))
LINE = Line(id="0k0k0k0k", title="screw", when=NOW, part=PART, quantity=4)

DONE = StepDone(
    id="0s0s0s0s", title="drilled", when=NOW,
    set_to=(parse_quantity("3.2 mm"), parse_quantity("2 N·m")),
)  # fmt: skip


@pytest.mark.parametrize(
    ("record", "key", "typed", "says"),
    [
        (SIZE, "nominal", "180 kg", "is a mass, but this is a length"),
        (SIZE, "nominal", "12,5,5", "two decimal marks"),
        (SIZE, "nominal", "1/0 in", "divides by zero"),
        (SIZE, "nominal", "-3", "is negative"),
        (SIZE, "nominal", "18o", "not a unit known here"),
        (SIZE, "nominal", "1,234", "can be 1.234 or 1234"),
        (SIZE, "nominal", "7" * 2000, "2000 characters are no quantity"),
        (SIZE, "nominal", "180\x1b[31m", "not a unit known here"),
        (SIZE, "lower_limit", "200", "above the upper, 181.2 mm"),
        (SIZE, "critical", "maybe", "accepted: yes or no"),
        (SIZE, "title", "  ", "accepted: a line of words"),
        (OFF, "when", "2030-01-01T10:00", "lies in the future"),
        (OFF, "when", "some day", "no date and time"),
        (DONE, "set_to", "3.3 mm, two", "not begin with a number"),
        (OFF, "met_by_others", "him", "accepted: the drawing, this piece"),
        (CALIPER, "checked", "2026-13-01", "is no date"),
        (CALIPER, "checked", "2026-03-15", "lies in the future"),
        (LINE, "quantity", "-4", "a whole number from 0 up"),
        (LINE, "quantity", "four", "a whole number from 0 up"),
        (LINE, "part", "", "accepted"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(
    record: Record, key: str, typed: str, says: str
) -> None:
    said = amended(record, key, typed, NOW)
    assert isinstance(said, str)
    assert says in said
    assert "accepted: " in said
    assert "found: found" not in said
    assert "\n" not in said


@pytest.mark.parametrize(
    ("record", "key", "typed", "is_now"),
    [
        (SIZE, "nominal", "179", "179 mm"),
        (SIZE, "nominal", "7 in", "7 in"),
        (SIZE, "nominal", "18 ga steel", "18 ga steel"),
        (SIZE, "lower_limit", "178.8", "178.8 mm"),
        (SIZE, "critical", "no", "False"),
        (OFF, "off", "-0.2", "-0.2 mm"),
        (OFF, "found", "", "None"),
        (CALIPER, "checked", "2026-03-14", "2026-03-14"),
        (OFF, "when", "2026-03-13 10:00+00:00", "2026-03-13 10:00:00+00:00"),
        (OFF, "when", "2 h ago", "2026-03-14 10:00:00+00:00"),
        (LINE, "quantity", "0", "0"),
    ],
)
def test_what_can_be_is_taken_in_the_unit_it_had(
    record: Record, key: str, typed: str, is_now: str
) -> None:
    fresh = amended(record, key, typed, NOW)
    assert not isinstance(fresh, str), fresh
    assert str(getattr(fresh, key)) == is_now


def test_an_instant_without_an_offset_is_one_of_this_place() -> None:
    fresh = amended(OFF, "when", "2026-03-13T10:00", NOW)
    assert not isinstance(fresh, str)
    assert fresh.when == datetime.fromisoformat("2026-03-13T10:00").astimezone()


async def on_fact(at: Bench, shop: Path, name: str) -> None:
    """Open the opening's sheet and begin to amend one of its facts."""
    snapshot = project(shop).snapshot
    [opening] = [c for c in snapshot.all(Characteristic) if c.title == "opening"]
    sheet = RecordSheet(at.app.desk, opening.id)
    at.app.push_screen(sheet)
    await at.settle()
    keys = [line.key for line in rows_of_record(snapshot, opening)]
    for _ in range(keys.index(f"fact {name}")):
        await at.press("down")
    await at.do("enter")


async def typed_over(at: Bench, text: str) -> None:
    await at.press("ctrl+u")
    await at.say(text)


async def test_a_refused_fact_stays_typed_with_the_sentence_beside_it(
    shop: Path,
) -> None:
    async with bench(shop, (100, 30)) as at:
        await on_fact(at, shop, "nominal")
        await typed_over(at, "180 kg")
        assert "is a mass, but this is a length" in " ".join(at.seen.split())
        assert at.line.value == "180 kg"
        assert at.line.has_focus
        await typed_over(at, "179.5")
        assert "179.5 mm" in at.seen
    snapshot = project(shop).snapshot
    [opening] = [c for c in snapshot.all(Characteristic) if c.title == "opening"]
    assert str(opening.nominal) == "179.5 mm"


def test_a_list_is_amended_as_values_between_commas() -> None:
    assert typed_fact(["3.2 mm", "2 N·m"]) == "3.2 mm, 2 N·m"
    fresh = amended(DONE, "set_to", "3,3, 2.5 N·m; 40 mm", NOW)
    assert isinstance(fresh, StepDone)
    assert [str(one) for one in fresh.set_to] == ["3,3 mm", "2.5 N·m", "40 mm"]


def test_an_instant_shown_is_the_same_when_typed_back() -> None:
    shown = typed_fact(NOW)
    assert amended(OFF, "when", shown, NOW) == OFF


async def test_what_is_typed_before_enter_is_the_new_value(shop: Path) -> None:
    async with bench(shop, (100, 30)) as at:
        await at.say("sanded the bed")
        await at.do("up", "enter")
        assert "Enter amends it here" in at.seen
        await at.press("down", "up")
        await at.say("sanded the bed twice")
        assert at.line.value == "sanded the bed twice"
        assert "it was: sanded the bed" in " ".join(at.seen.split())
        await at.do("enter")
    titles = {one.title for one in project(shop).snapshot.entries}
    assert "sanded the bed twice" in titles
    assert "sanded the bed" not in titles


async def test_what_becomes_of_what_stands_is_said_where_a_fact_is_opened(
    shop: Path,
) -> None:
    snapshot = project(shop).snapshot
    [revision], [deviation] = snapshot.all(Revision), snapshot.all(Deviation)
    async with bench(shop, (120, 30)) as at:
        at.app.push_screen(RecordSheet(at.app.desk, deviation.id))
        await at.settle()
        await at.press("enter")
        assert "what is typed goes on behind it, Ctrl-U empties it" in at.words
        assert "git keeps how it was" in at.words
        await at.type(" x")
        assert at.line.value == f"{deviation.title} x"
        await at.press("escape", "escape", "escape")
        at.app.push_screen(RecordSheet(at.app.desk, revision.id))
        await at.settle()
        await at.press("down", "down", "enter")
        assert "part ›" in at.seen
        assert "what is typed takes its place" in at.words
        assert "itself is changed; Ctrl-R on its part makes the next" in at.words
        await at.press("escape")


async def test_a_date_and_a_reading_are_amended(shop: Path) -> None:
    async with bench(shop, (100, 30)) as at:
        await at.say("base opening 178.6")
        run = project(shop).snapshot.all(Run)[-1]
        sheet = RecordSheet(at.app.desk, run.id)
        at.app.push_screen(sheet)
        await at.settle()
        lines = [line.key for line in rows_of_record(at.app.desk.snapshot, run)]
        await at.press(*["down"] * lines.index("fact when"))
        assert "Enter amends it here" in at.seen
        await at.press("enter")
        await typed_over(at, "2024-03-08 09:30")
        assert "2024-03-08" in at.seen
        table = next(k for k in lines if k.startswith("fact reading"))
        await at.press(*["down"] * (lines.index(table) - lines.index("fact when")))
        await at.press("enter")
        assert at.line.value == "178.6 mm"
        await typed_over(at, "178.7 kg")
        assert "is a mass, but this is a length" in at.words
        assert at.line.value == "178.7 kg"
        await typed_over(at, "178.7 left")
        assert "amended: base opening 178.7" in at.words
    assert project(shop).snapshot.all(Run)[-1].title == "base opening 178.7"
    [reading] = project(shop).snapshot.all(Run)[-1].readings
    assert (str(reading.value), reading.place) == ("178.7 mm", "left")


@pytest.mark.parametrize("kind", [Deviation, Run])
async def test_a_deviation_and_its_reading_are_amended_in_one_act(
    shop: Path, kind: type[Deviation | Run]
) -> None:
    async with bench(shop, (100, 30)) as at:
        await at.say("base opening 178.6 should be 180")
        await at.do("1")
        record = project(shop).snapshot.all(kind)[-1]
        sheet = RecordSheet(at.app.desk, record.id)
        at.app.push_screen(sheet)
        await at.settle()
        lines = [line.key for line in rows_of_record(at.app.desk.snapshot, record)]
        name = "fact found" if kind is Deviation else "fact reading"
        row = next(at for at, key in enumerate(lines) if key.startswith(name))
        await at.press(*["down"] * row, "enter")
        await typed_over(at, "178.9")
        said = " ".join(at.words.split())
        assert "; with it: base opening 178.9 should be 180" in said
        stored = project(shop).snapshot
        assert str(stored.all(Deviation)[-1].found) == "178.9 mm"
        assert str(stored.all(Run)[-1].readings[-1].value) == "178.9 mm"
        for one in (stored.all(Deviation)[-1], stored.all(Run)[-1]):
            assert one.title == "base opening 178.9 should be 180"
        assert stored.problems == ()
    project(shop).undo(datetime.now(UTC))
    stored = project(shop).snapshot
    assert str(stored.all(Deviation)[-1].found) == "178.6 mm"
    assert str(stored.all(Run)[-1].readings[-1].value) == "178.6 mm"


def test_a_reading_is_amended_by_its_row_and_a_cause_by_its_words() -> None:
    what = Ref("opening", "0c0c0c0c")
    first, second = (
        Reading(id=f"0r0r0r0{n}", at=NOW, what=what, value=parse_quantity("178.6 mm"))
        for n in (1, 2)
    )
    run = Run(id="0t0t0t0t", title="run", when=NOW, part=PART, readings=(first, second))
    fresh = amended(run, "reading 1", "178,65 back left", NOW)
    assert isinstance(fresh, Run)
    assert fresh.readings[0] == first
    assert str(fresh.readings[1].value) == "178,65 mm"
    assert fresh.readings[1].place == "back left"
    fresh = amended(run, "reading 0", "not measured", NOW)
    assert isinstance(fresh, Run)
    assert fresh.readings[0].value is Absent.NOT_MEASURED
    cracked = Failure(
        id="0f0f0f0f", title="cracked", when=NOW, cause=Cause(said="heat")
    )
    fresh = amended(cracked, "cause", "wedged", NOW)
    assert isinstance(fresh, Failure)
    assert fresh.cause == Cause(said="wedged")
    assert not can_amend({"path": "drawings/lid.dxf", "sha256": "00"})


async def test_what_another_hand_made_of_a_fact_is_said_before_it_is_replaced(
    shop: Path,
) -> None:
    async with bench(shop, (100, 30)) as at:
        await on_fact(at, shop, "nominal")
        await at.press("ctrl+u")
        await at.type("179.5 mm")
        held = project(shop)
        [opening] = held.snapshot.all(Characteristic)
        theirs = replace(opening, nominal=parse_quantity("181 mm"))
        held.save(amend_draft(held.draft(NOW), opening, theirs), "theirs", NOW)
        await at.until(lambda: "by now it is “181 mm”" in at.words)
        assert at.line.value == "179.5 mm"
        await at.do("enter", "enter")
        [opening] = project(shop).snapshot.all(Characteristic)
        assert str(opening.nominal) == "181 mm"
        assert "F6 takes yours instead" in at.words
        await at.do("f6")
    [kept] = [one.text for one in drafts(shop) if "as replaced" in one.for_what]
    assert kept == "181 mm"
    [opening] = project(shop).snapshot.all(Characteristic)
    assert str(opening.nominal) == "179.5 mm"


async def test_what_was_typed_comes_back_where_another_hand_was_just_quicker(
    shop: Path,
) -> None:
    async with bench(shop, (100, 30)) as at:
        await at.say("sanded the bed")
        await at.do("up", "enter")
        await at.press("enter", "ctrl+u")
        await at.type("sanded the bed, mine")
        at.app.desk.changes = None  # what is saved elsewhere is not seen yet
        held = project(shop)
        last = held.snapshot.entries[-1]
        theirs = replace(last, title="sanded the bed, theirs")
        held.save(amend_draft(held.draft(NOW), last, theirs), "theirs", NOW)
        await at.do("enter")
        assert project(shop).snapshot[last.id].title == "sanded the bed, theirs"
        assert at.line.value == "sanded the bed, mine"
        assert "sanded the bed, theirs" in at.seen
        assert "F6 takes yours" in at.words
        await at.do("enter")
        assert project(shop).snapshot[last.id].title == "sanded the bed, theirs"
        await at.do("f6")
    [kept] = [one.text for one in drafts(shop) if "as replaced" in one.for_what]
    assert kept == "sanded the bed, theirs"
    assert project(shop).snapshot[last.id].title == "sanded the bed, mine"


async def test_a_name_of_nothing_is_refused(shop: Path) -> None:
    async with bench(shop, (100, 30)) as at:
        await on_fact(at, shop, "part")
        await typed_over(at, "nobody")
        assert "“nobody” is no record here" in at.seen
        assert at.line.value == "nobody"


async def test_what_is_amended_shows_on_the_bench_it_was_opened_from(
    shop: Path,
) -> None:
    async with bench(shop, (100, 30)) as at:
        await at.say("sanded the bed")
        await at.do("up", "enter")
        await at.press("enter")
        await typed_over(at, "sanded the bed twice")
        await at.do("escape")
        assert "sanded the bed twice" in at.seen


# -- measuring -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("180 kg", "is a mass"),
        ("12,5,5", "two decimal marks"),
        ("1/0", "divides by zero"),
        ("-178", "is negative"),
        ("17x8", "not a unit known here"),
        ("=180 ±", "accepted"),
    ],
)
async def test_a_refused_reading_stays_typed_and_nothing_is_written(
    shop: Path, typed: str, says: str
) -> None:
    before = sum(len(run.readings) for run in project(shop).snapshot.all(Run))
    async with bench(shop, (100, 30)) as at:
        await at.do("f3")
        await at.do("enter")
        assert isinstance(at.app.screen, Measure)
        await at.say(typed)
        assert says in " ".join(at.seen.split())
        assert at.line.value == typed
        assert at.line.has_focus
    assert sum(len(run.readings) for run in project(shop).snapshot.all(Run)) == before


async def test_what_was_not_told_of_a_failure_is_told_later(shop: Path) -> None:
    async with bench(shop, (100, 30)) as at:
        await at.say("base tore at the foot hole")
        await at.do("1")
        await at.do("up", "enter")
        assert at.words.count("not told yet Enter tells it") == 2
        await at.say("cause: the hole is too near the bend")
        assert "Enter takes it, Esc drops it; it was: empty" in at.words
        await at.do("enter")
        [failure] = project(shop).snapshot.all(Failure)
        assert failure.cause == Cause(said="the hole is too near the bend")
        assert "the hole is too near the bend" in at.words
        [cure] = [
            number
            for number, line in enumerate(rows_of_record(at.app.desk.snapshot, failure))
            if line.key == "fact cure"
        ]
        await at.press("home", *["down"] * cure, "enter")
        await at.say("washer under it")
    [failure] = project(shop).snapshot.all(Failure)
    assert failure.cure == "washer under it"
