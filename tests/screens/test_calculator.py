"""The calculator: a form for every sum, made from the same declarations."""

from __future__ import annotations

from pathlib import Path

from textual.widgets import Static

from logbook.records.happenings import Note
from logbook.screens.calculator import SumSheet
from logbook.screens.entry_line import EntryLine
from logbook.shop.sums import all_sums
from tests.screens.bench_keys import Bench, bench, project


def answer(at: Bench) -> str:
    return str(at.app.screen.query_one("#answer", Static).content)


async def test_every_sum_has_a_form_that_works_its_example_out(shop: Path) -> None:
    async with bench(shop) as at:
        for each in all_sums():
            await at.app.push_screen(SumSheet(at.app.desk, each.name))
            for asked, line in zip(
                each.inputs, at.app.screen.query(EntryLine), strict=True
            ):
                value = each.example.get(asked.name, "")
                line.put(value if isinstance(value, str) else "; ".join(value))
            await at.press("enter")
            await at.app.workers.wait_for_complete()
            await at.pilot.pause()
            assert "source: " in answer(at), each.name
            at.app.pop_screen()


async def test_a_result_is_logged_with_its_inputs(shop: Path) -> None:
    async with bench(shop) as at:
        await at.press("f10")
        await at.type("flat-length")
        await at.press("enter")
        await at.settle()
        sheet = at.app.screen
        assert isinstance(sheet, SumSheet)
        for line, asked in zip(sheet.query(EntryLine), sheet._sum.inputs, strict=True):
            value = sheet._sum.example.get(asked.name, "")
            line.put(value if isinstance(value, str) else "; ".join(value))
        await at.press("enter")
        await at.settle()
        await at.press("ctrl+l")
        await at.settle()
    note = project(shop).snapshot.all(Note)[-1]
    assert "flat" in note.title.lower()
    assert "formula: " in note.prose
    assert note.prose.startswith("From ")


async def test_a_wrong_input_is_one_sentence_and_the_text_stays(shop: Path) -> None:
    async with bench(shop) as at:
        await at.app.push_screen(SumSheet(at.app.desk, "bend-allowance"))
        lines = list(at.app.screen.query(EntryLine))
        lines[0].put("5 furlongs")
        await at.press("enter")
        await at.settle()
        assert "furlongs" in at.seen
        assert lines[0].value == "5 furlongs"
