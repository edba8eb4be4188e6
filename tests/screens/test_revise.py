"""From entries to a revision on screen: proposed, with its impact, kept, saved."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.design import Revision
from logbook.screens.part.revise import Revise
from logbook.screens.part.revise_form import Form
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged
from tests.screens.on_disk import orphaned
from tests.screens.test_look import HOSTILE, SIZES


@pytest.fixture
def faulty(shop: Path) -> Path:
    (shop / "crossbar.svg").write_text("<svg/>", "utf-8")
    logged(
        shop, "part", "crossbar", "--process", "sawing",
        "--dimension", "length=179.7 ±0.1",
    )  # fmt: skip
    logged(shop, "revise", "crossbar", "--changed", "drawn", "--file", "crossbar.svg")
    logged(
        shop, "deviation", "crossbar", "length off", "--dimension", "length",
        "--found", "178.3 mm", "--met-by", "drawing", "--cure", "length to 178.3 mm",
    )  # fmt: skip
    logged(
        shop, "failure", "crossbar", "crossbar binds", "--cure", "made to suit",
        "--met-by", "drawing",
    )  # fmt: skip
    logged(shop, "failure", "crossbar", "crossbar bent", "--met-by", "piece")
    logged(shop, "step", "saw the bar", "--makes", "crossbar")
    (shop / "crossbar.svg").write_text("<svg>redrawn</svg>", "utf-8")
    return shop


async def revising(at: Bench) -> None:
    await at.do("ctrl+r")
    await at.say("cross")


def kept_in(state: Path) -> list[Path]:
    return [*state.rglob("drafts/*.txt")]


def last(folder: Path) -> Revision:
    return project(folder).snapshot.all(Revision)[-1]


async def test_a_revision_is_proposed_with_its_impact_and_saved(faulty: Path) -> None:
    before = len(project(faulty).snapshot.all(Revision))
    async with bench(faulty, (120, 40)) as at:
        await revising(at)
        for words in (
            "[x] crossbar binds", "[ ] crossbar bent", "→ 178.3 mm", "made to suit",
            "CHANGED SINCE: crossbar.svg", "saw the bar", "length 179.7 mm",
        ):  # fmt: skip
            assert words in at.seen, words
        assert "crossbar.svg drawn anew" in at.words
        assert len(project(faulty).snapshot.all(Revision)) == before
        await at.do("ctrl+s")
        assert not isinstance(at.app.screen, Revise)
        assert "revision: crossbar rev B: made to suit" in at.words
    saved = last(faulty)
    assert len(saved.because) == 2
    assert str(saved.changes[0].becomes) == "178.3 mm"
    assert saved.changed == "made to suit"
    files = {file.path: file.sha256 for file in saved.files}
    first = project(faulty).snapshot.all(Revision)[-2]
    assert files["crossbar.svg"] != first.files[0].sha256


async def test_every_row_can_be_filled_in(faulty: Path) -> None:
    async with bench(faulty, (120, 40)) as at:
        await revising(at)
        rows = {
            "changed": "holes 9 mm in", "why": "it cracked",
            "remake": "only if it binds", "mates": "base first issue; lid",
            "material": "6082-T6", "compensated": "nominal",
        }  # fmt: skip
        while not at.app.screen.chosen.startswith("size"):  # type: ignore[attr-defined]
            await at.press("down")
        at.line.put("")
        await at.type("178.4 ±0.2")
        await at.press("enter")
        for words in rows.values():
            at.line.put("")
            await at.type(words)
            await at.press("enter")
        await at.do("ctrl+s")
    saved = last(faulty)
    assert (saved.changed, saved.why, saved.remake) == tuple(rows.values())[:3]
    assert saved.mates_with == ("base first issue", "lid")
    assert (saved.material, saved.compensated) == ("6082-T6", "nominal")
    [change] = saved.changes
    sizes = (change.becomes, change.lower_limit, change.upper_limit)
    assert [str(one) for one in sizes] == ["178.4 mm", "178.2 mm", "178.6 mm"]


async def test_what_is_no_size_is_refused_beside_the_line(faulty: Path) -> None:
    before = last(faulty)
    async with bench(faulty, (120, 40)) as at:
        await revising(at)
        while not at.app.screen.chosen.startswith("size"):  # type: ignore[attr-defined]
            await at.press("down")
        at.line.put("")
        await at.type("wide")
        for key in ("enter", "ctrl+s"):
            await at.do(key)
            assert "accepted: " in at.seen
            assert at.line.value == "wide"
            assert at.line.has_focus
    assert last(faulty) == before


async def test_nothing_changed_is_not_saved(faulty: Path) -> None:
    logged(faulty, "part", "lid")
    async with bench(faulty) as at:
        await at.do("ctrl+r")
        await at.say("lid")
        await at.do("ctrl+s")
        assert "nothing changes yet" in at.seen


async def test_long_words_survive_a_terminal_that_goes_away(
    faulty: Path, own_state: Path
) -> None:
    long = "the opening follows the bends, " * 20
    async with bench(faulty) as at:
        await revising(at)
        while at.app.screen.chosen != "why":  # type: ignore[attr-defined]
            await at.press("down")
        at.line.put("")
        at.line.insert_text_at_cursor(long)
        await at.settle()
        await at.do("escape")
        assert not isinstance(at.app.screen, Revise)
    orphaned(faulty)
    async with bench(faulty) as at:
        await revising(at)
        assert "this was being filled in" in at.seen
        await at.do("ctrl+s")
    assert last(faulty).why == long.strip()
    assert not kept_in(own_state)


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_the_form_is_to_be_read_at_every_size(
    faulty: Path, size: tuple[int, int]
) -> None:
    async with bench(faulty, size) as at:
        await revising(at)
        for words in ("[x] crossbar", "Ctrl-S save it", "Esc back", "touches"):
            assert words in at.seen
        assert at.line.region.bottom < size[1]
        for width, height in SIZES:
            await at.pilot.resize_terminal(width, height)
            await at.do("down", "up", "pagedown", "pageup")


@pytest.mark.parametrize("words", HOSTILE)
async def test_hostile_words_are_shown_and_saved_as_written(
    shop: Path, words: str
) -> None:
    logged(shop, "part", words)
    logged(shop, "failure", words, words, "--cure", words, "--met-by", "drawing")
    async with bench(shop, (120, 40)) as at:
        await at.do("ctrl+r")
        at.line.put(words)
        await at.settle()
        await at.do("enter")
        assert at.seen.count(words) >= 3
        await at.do("ctrl+s")
    assert last(shop).changed == project(shop).snapshot.entries[-1].cure  # type: ignore[attr-defined]


async def test_a_size_takes_its_name_and_a_refused_one_gives_way_to_the_next(
    faulty: Path,
) -> None:
    async with bench(faulty, (120, 40)) as at:
        await revising(at)
        while not at.app.screen.chosen.startswith("size"):  # type: ignore[attr-defined]
            await at.press("down")
        at.line.put("")
        await at.type("length wide")
        await at.press("enter")
        assert "accepted: " in at.seen
        await at.type("length 178.4")
        assert at.line.value == "length 178.4"
        await at.do("enter", "ctrl+s")
    [change] = last(faulty).changes
    assert str(change.becomes) == "178.4 mm"


async def test_what_is_only_proposed_gives_way_to_what_is_typed(faulty: Path) -> None:
    async with bench(faulty, (120, 40)) as at:
        await revising(at)
        while at.app.screen.chosen != "changed":  # type: ignore[attr-defined]
            await at.press("down")
        assert at.line.value == "made to suit"
        await at.type("made 0.3 shorter")
        assert at.line.value == "made 0.3 shorter"
        await at.press("up", "down")
        await at.type(" than the opening")
        assert at.line.value == "made 0.3 shorter than the opening"


async def test_it_says_that_what_stands_stays_and_what_is_proposed_gives_way(
    faulty: Path,
) -> None:
    async with bench(faulty, (100, 40)) as at:
        await revising(at)
        assert "rev A stays as it is, with the pieces made to it" in at.words
        for _ in range(12):
            if "takes the place of what is proposed" in at.words:
                break
            await at.do("down")
        value = at.line.value
        assert value
        await at.type("8")
        assert at.line.value == "8"
        assert "takes the place of what is proposed" not in at.words
        await at.press("escape")


async def test_what_was_typed_is_dropped_and_brought_back_by_one_key(
    faulty: Path,
) -> None:
    async with bench(faulty, (120, 40)) as at:
        await revising(at)
        await at.press("f8")
        assert "nothing was typed here" in at.words
        while at.app.screen.chosen != "material":  # type: ignore[attr-defined]
            await at.press("down")
        await at.type("6082-T6")
        await at.press("f8")
        assert at.line.value == ""
        assert "brings back what was typed" in at.words
        await at.do("escape")
        await revising(at)
        assert "6082-T6" not in at.words, "it is not kept either"
    assert last(faulty).material == ""


async def test_what_was_dropped_comes_back_by_the_same_key(faulty: Path) -> None:
    async with bench(faulty, (120, 40)) as at:
        await revising(at)
        while at.app.screen.chosen != "material":  # type: ignore[attr-defined]
            await at.press("down")
        await at.type("6082-T6")
        await at.press("f8", "f8")
        assert at.line.value == "6082-T6"
        await at.do("ctrl+s")
    assert last(faulty).material == "6082-T6"


def test_a_form_reads_what_it_wrote() -> None:
    form = Form({"why": "it: binds", "size abc": "178.3 ±0.1", "changed": "holes"})
    assert Form.read(form.text()) == form
