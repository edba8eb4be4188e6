"""The calculator: a form for every sum, made from the same declarations."""

from __future__ import annotations

from pathlib import Path

from logbook.records.kinds.happenings import Note
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.passage import Passage
from logbook.screens.sums.calculator import SumSheet
from logbook.shop.sums import all_sums
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged


def answer(at: Bench) -> str:
    shown = at.app.screen.query_one(Passage)
    return "\n".join(f"{one.label}: {one.words}" for one in shown._said)


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
        await at.say("flat-length")
        sheet = at.app.screen
        assert isinstance(sheet, SumSheet)
        for line, asked in zip(sheet.query(EntryLine), sheet._sum.inputs, strict=True):
            value = sheet._sum.example.get(asked.name, "")
            line.put(value if isinstance(value, str) else "; ".join(value))
        await at.do("enter")
        await at.do("ctrl+l")
    note = project(shop).snapshot.all(Note)[-1]
    assert "flat" in note.title.lower()
    assert "formula: " in note.prose
    assert note.prose.startswith("From ")


async def test_all_of_a_sum_stands_at_one_margin(shop: Path) -> None:
    for size in ((60, 20), (80, 24), (120, 40)):
        async with bench(shop, size) as at:
            await sum_of(at, "bend-allowance", **BEND)
            margins = at.app.screen.query("Row .margin")
            shown = at.app.screen.query_one(Passage)
            seen = {one.outer_size.width for one in margins if one.is_on_screen}
            assert seen == {shown.margin}
            assert "neutral factor" in at.seen


BEND = {"bend_angle": "90", "radius": "1.0", "thickness": "2.0"}


async def sum_of(at: Bench, name: str, **values: str) -> dict[str, EntryLine]:
    """Open a sum, type these inputs, work it out; give its lines by name."""
    sheet = SumSheet(at.app.desk, name)
    await at.app.push_screen(sheet)
    await at.settle()
    names = [asked.name for asked in sheet._sum.inputs]
    lines = dict(zip(names, sheet.query(EntryLine), strict=True))
    for asked, value in values.items():
        lines[asked].focus()
        await at.type(value)
    await at.do("enter")
    return lines


def notes(folder: Path) -> list[Note]:
    return list(project(folder).snapshot.all(Note))


async def test_what_is_logged_is_of_the_inputs_shown(shop: Path) -> None:
    async with bench(shop, (100, 40)) as at:
        lines = await sum_of(at, "bend-allowance", **BEND)
        before = answer(at)
        assert "Enter works it out anew" not in at.words
        lines["thickness"].focus()
        await at.press("backspace", "backspace", "backspace")
        await at.type("3.0")
        assert "below: of bend angle 90, radius 1.0, thickness 2.0" in at.words
        assert answer(at) == before
        await at.do("ctrl+l")
        assert "Enter works it out anew" not in at.words
        assert answer(at) != before
    [note] = notes(shop)
    assert "thickness 3.0" in note.prose
    assert answer_of(note) in note.title


def answer_of(note: Note) -> str:
    """Give the figure in the block of a note that its title names."""
    name = note.title.partition(": ")[2].split()
    rows = [row.split() for row in note.prose.splitlines()]
    [row] = [row for row in rows if row[: len(name)] == name]
    return " ".join(row[: len(name)])


async def test_an_input_that_gives_no_result_logs_nothing(shop: Path) -> None:
    async with bench(shop, (100, 40)) as at:
        lines = await sum_of(at, "bend-allowance", **BEND)
        lines["thickness"].focus()
        await at.type("xx")
        await at.do("ctrl+l")
        assert "nothing is logged" in at.words
        assert "below: of bend angle 90, radius 1.0, thickness 2.0" in at.words
        await at.press("backspace", "backspace")
        assert "below: of" not in at.words
    assert not notes(shop)


async def test_the_same_result_is_logged_once_and_of_the_build_shown(
    shop: Path,
) -> None:
    logged(shop, "build", "build 2", "--when", "2024-03-08T10:00")
    async with bench(shop, (100, 40)) as at:
        await at.do("f4")
        assert "build 1" in at.seen
        await sum_of(at, "bend-allowance", **BEND)
        await at.do("ctrl+l")
        await at.do("ctrl+l")
        assert "logged already" in at.words
        [note] = notes(shop)
        assert note.build is not None
        assert note.build.name == "build 1"
        await at.do("escape", "f8")
        assert not notes(shop)
        await sum_of(at, "bend-allowance", **BEND)
        await at.do("ctrl+l")
    assert len(notes(shop)) == 1


async def test_a_wrong_input_is_one_sentence_and_the_text_stays(shop: Path) -> None:
    async with bench(shop) as at:
        await at.app.push_screen(SumSheet(at.app.desk, "bend-allowance"))
        lines = list(at.app.screen.query(EntryLine))
        lines[0].put("5 furlongs")
        await at.do("enter")
        assert "furlongs" in at.seen
        assert lines[0].value == "5 furlongs"


async def test_enter_goes_on_to_the_next_input_until_there_is_enough(
    shop: Path,
) -> None:
    async with bench(shop, (100, 40)) as at:
        sheet = SumSheet(at.app.desk, "bend-allowance")
        await at.app.push_screen(sheet)
        await at.settle()
        asked = [one.name for one in sheet._sum.inputs]
        lines = dict(zip(asked, sheet.query(EntryLine), strict=True))
        for _ in asked:
            if sheet._answer is not None:
                break
            name = next(name for name, line in lines.items() if line.has_focus)
            await at.type(BEND.get(name, ""))
            await at.do("enter")
        typed = {name: line.value for name, line in lines.items() if line.value}
        assert typed == BEND
        assert "source: " in answer(at)


async def test_what_an_input_does_not_accept_is_said_before_it_is_gone_on(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        await at.app.push_screen(SumSheet(at.app.desk, "bend-allowance"))
        await at.settle()
        await at.say("5 furlongs")
        assert "not yet" in at.seen
        await at.type("90")
        assert at.app.screen.query(EntryLine).first().value == "90"
