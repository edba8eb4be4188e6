"""Lists tell apart by word and weight, say what they hide, and say a thing once."""

from __future__ import annotations

from pathlib import Path

from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.record import EPOCH
from logbook.screens.part.part_asked import Asked
from logbook.screens.part.part_lines import lines_of
from logbook.screens.ruled.moments import day
from logbook.screens.steps.step_words import WEIGHTS, said_of
from logbook.screens.steps.steps import Steps
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged


async def test_a_list_says_how_many_rows_are_hidden(shop: Path) -> None:
    async with bench(shop, (80, 24)) as at:
        await at.do("f1")
        assert "more below" in at.seen
        await at.press("pagedown", "pagedown", "pagedown", "pagedown")
        assert "more below" not in at.seen


async def test_states_of_steps_differ_by_word_and_weight(shop: Path) -> None:
    for name in ("fold the base", "glue the foot", "oil it"):
        logged(shop, "step", name)
    logged(shop, "hold", "glue the foot", "the glue is not here")
    logged(shop, "step", "fold the base", "--done")
    async with bench(shop, (80, 24)) as at:
        await at.do("ctrl+n")
        assert isinstance(at.app.screen, Steps)
        lines = at.app.screen.lines()
    assert [line.kind.strip() for line in lines] == ["done", "waits", "to do"]
    assert len({line.weight for line in lines}) == len(lines)
    assert set(WEIGHTS) == {
        "waits", "check first", "look again", "done", "dropped", "make again",
        "fit again",
    }  # fmt: skip


def test_a_caution_about_some_material_stands_behind_what_is_taken(shop: Path) -> None:
    logged(shop, "step", "drill it", "--process", "drilling", "--tool", "a drill")
    snapshot = project(shop).snapshot
    [step] = snapshot.all(Step)
    said = [(one.label, str(one.words)) for one in said_of(snapshot, step, None, ())]
    tools = next(at for at, (label, _) in enumerate(said) if label == "tools")
    if_so = [at for at, (_, words) in enumerate(said) if words.startswith("If it is ")]
    assert if_so
    assert min(if_so) > tools


def test_a_photo_is_called_by_its_caption_or_its_name_and_shown_once(
    shop: Path,
) -> None:
    before = project(shop).snapshot
    path = shop / before.path(before.entries[-1])
    text = path.read_text("utf-8")
    two = (
        '[[photo]]\npath = "as-built/photos/2403/fold.jpg"\n'
        '[[photo]]\npath = "as-built/photos/2403/fold.jpg"\n'
        '[[photo]]\npath = "as-built/photos/2403/bend.jpg"\ncaption = "the bend"\n'
    )
    head, _, rest = text.partition("```\n")
    path.write_text(f"{head}{two}```\n{rest}", "utf-8")
    snapshot = project(shop).snapshot
    assert len(snapshot.entries[-1].photos) == 3
    [part] = [one for one in snapshot.all(Part) if one.title == "base"]
    rows = [line.words for line in lines_of(Asked(snapshot, part, 80, None))]
    assert rows.count("fold.jpg") == 1
    assert rows.count("the bend") == 1
    assert not [row for row in rows if "photos/2403" in row]


def test_no_date_stands_for_no_instant() -> None:
    assert day(EPOCH) == ""
