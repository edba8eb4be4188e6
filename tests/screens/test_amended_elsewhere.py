"""A fact that another hand changes while it is amended: both are said, neither lost."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

from logbook.quantity import parse_quantity
from logbook.records.kinds.design import Characteristic
from logbook.records.making.amends import amend_draft
from logbook.store.typed.drafts import drafts
from tests.screens.amending_keys import on_fact
from tests.screens.bench_keys import bench, project

NOW = datetime(2026, 3, 14, 12, 0, tzinfo=UTC)


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
