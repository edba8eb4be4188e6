"""Amending a record on its screen: opened, typed over, taken; nothing typed is lost."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from logbook.quantity import parse_quantity
from logbook.records.kinds.design import Characteristic, Revision
from logbook.records.kinds.happenings import Cause, Deviation, Failure, Run
from logbook.records.kinds.words import Blame
from logbook.records.making.amends import amend_draft
from logbook.screens.record.record import RecordSheet
from logbook.screens.record.record_rows import rows_of_record
from logbook.screens.record.record_words import said_of_record
from tests.screens.amending_keys import on_fact, typed_over
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged


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


async def test_a_name_of_nothing_is_refused(shop: Path) -> None:
    async with bench(shop, (100, 30)) as at:
        await on_fact(at, shop, "part")
        await typed_over(at, "nobody")
        assert "“nobody” is no record here" in at.seen
        assert at.line.value == "nobody"


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


async def test_words_are_shown_whole_and_names_without_the_id_behind_them(
    shop: Path,
) -> None:
    logged(shop, "failure", "base", "tore", "--cure", "broke the chamfers")
    [failure] = project(shop).snapshot.all(Failure)
    lines = [*rows_of_record(project(shop).snapshot, failure)]
    words = [line.words for line in lines if line.key.startswith("fact ")]
    assert "broke the chamfers" in words
    assert "base" in words
    assert not any(failure.part and failure.part.id in said for said in words)
    said = [str(one) for one in said_of_record(failure)]
    assert any("broke the chamfers" in one for one in said)


async def test_the_key_that_takes_ones_own_is_named_only_where_it_does_something(
    shop: Path,
) -> None:
    async with bench(shop, (120, 40)) as at:
        await on_fact(at, shop, "nominal")
        await at.press("escape")
        assert "Esc back" in at.words
        assert "take mine" not in at.words


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


async def test_the_history_of_an_amended_entry_says_what_was_changed(
    shop: Path,
) -> None:
    async with bench(shop, (120, 40)) as at:
        [deviation] = project(shop).snapshot.all(Deviation)
        at.app.push_screen(RecordSheet(at.app.desk, deviation.id))
        await at.settle()
        lines = [line.key for line in rows_of_record(at.app.desk.snapshot, deviation)]
        await at.press(*["down"] * lines.index("fact found"), "enter")
        await typed_over(at, "178.9")
        await at.until(lambda: "found: 178.6 mm →" in at.words)
        rows = len(lines) - lines.index("fact found")
        await at.press(*["down"] * rows)
        assert "found: 178.6 mm → 178.9 mm" in at.words, "in full beside it"


def test_the_history_in_the_shell_says_it_too(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    [deviation] = project(shop).snapshot.all(Deviation)
    held = project(shop)
    theirs = replace(deviation, found=parse_quantity("178.9 mm"))
    held.save(amend_draft(held.draft(datetime.now(UTC)), deviation, theirs), "amend",
              datetime.now(UTC))  # fmt: skip
    logged(shop, "commit")
    capsys.readouterr()
    logged(shop, "history", deviation.id)
    assert "  found: 178.6 mm → 178.9 mm" in capsys.readouterr().out.split("\n")


async def test_a_limit_amended_after_a_release_says_which_pages_go_on_with_the_old(
    shop: Path,
) -> None:
    logged(shop, "part", "base", "--dimension", "opening=180 ±1.2")
    logged(shop, "release", "1.0", "--anyway")
    async with bench(shop, (120, 30)) as at:
        await on_fact(at, shop, "upper_limit")
        await typed_over(at, "181.5")
        await at.until(lambda: "careful: release 1.0 says base opening" in at.words)
        assert "amended: opening" in at.words


async def test_a_place_that_nobody_used_before_is_said_to_be_new(shop: Path) -> None:
    places = ("back left=178.6", "front left=178.7")
    logged(shop, "measure", "base", "opening", *places, "--met-by", "piece")
    snapshot = project(shop).snapshot
    run = snapshot.all(Run)[-1]
    keys = [line.key for line in rows_of_record(snapshot, run)]
    async with bench(shop, (120, 30)) as at:
        at.app.push_screen(RecordSheet(at.app.desk, run.id))
        await at.settle()
        for _ in range(keys.index("fact reading 0")):
            await at.press("down")
        await at.do("enter")
        await typed_over(at, "178.6 mm back l")
        assert "“back l” is a new place, beside front left" in at.words
        await at.do("enter")
        await typed_over(at, "178.6 mm front left")
        await at.until(lambda: "is a new place" not in at.words)


@pytest.mark.parametrize("typed", ["drawing", "1", "d", "the drawing is wrong"])
async def test_whose_fault_it_was_is_amended_in_the_words_of_its_question(
    shop: Path, typed: str
) -> None:
    snapshot = project(shop).snapshot
    [deviation] = snapshot.all(Deviation)
    rows = [line.key for line in rows_of_record(snapshot, deviation)]
    async with bench(shop, (100, 30)) as at:
        at.app.push_screen(RecordSheet(at.app.desk, deviation.id))
        await at.settle()
        for _ in range(rows.index("fact met_by_others")):
            await at.press("down")
        await at.do("enter")
        await at.say(typed)  # In the place of what stands, as a name is.
    [now] = project(shop).snapshot.all(Deviation)
    assert now.met_by_others is Blame.DRAWING
