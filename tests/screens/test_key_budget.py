"""How many keys plain situations cost, from the bench with its line ready.

Typed words count letter by letter. The table stands in DEVELOPERS.md too; the
figures may only become smaller.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from logbook.records.kinds import happenings
from logbook.records.kinds.words import Blame, Disposition, OverrideReason
from logbook.records.together.snapshot import Snapshot
from logbook.store.typed.user_settings import settings_file
from tests.screens.bench_keys import bench, keys, project
from tests.screens.conftest import draw_limits, logged

RUN = ("f3", *keys("bar"), "enter")
FAILURE = "bar cracked because too hot, fixed by slower feed"
DECISION = "bar rev A: length 41 because it binds"


def _reading(found: Snapshot) -> bool:
    run = found.all(happenings.Run)[-1]
    return str(run.readings[-1].value) == "40.01 mm"


def _deviation(found: Snapshot) -> bool:
    last = found.all(happenings.Deviation)[-1]
    return str(last.found) == "40.4 mm" and last.met_by_others is Blame.DRAWING


def _failure(found: Snapshot) -> bool:
    [last] = found.all(happenings.Failure)
    return bool(last.cause and last.cure) and last.met_by_others is Blame.PIECE


def _revision(found: Snapshot) -> bool:
    [decision] = found.all(happenings.Decision)
    return decision.opens is not None and found.find(decision.opens) is not None


def _disposal(found: Snapshot) -> bool:
    [last] = found.all(happenings.Disposal)
    return last.disposition is Disposition.SCRAP and last.piece is not None


SITUATIONS: dict[
    str, tuple[int, tuple[str, ...], tuple[str, ...], Callable[[Snapshot], bool]]
] = {
    # what: (keys it costs, keys before it that do not count, the keys, what it left)
    "a reading in a run": (6, RUN, (*keys("40.01"), "enter"), _reading),
    "a reading off its drawing, to its deviation with the answer": (
        7, RUN, (*keys("40.4"), "enter", "f6", "d"), _deviation,
    ),
    "a failure with cause and cure": (
        len(FAILURE) + 2, (), (*keys(FAILURE), "enter", "2"), _failure,
    ),
    "a note": (
        22, (), (*keys("remember the wide jaw"), "enter"),
        lambda found: found.all(happenings.Note)[-1].title == "remember the wide jaw",
    ),
    "a decision that opens a revision": (
        len(DECISION) + 1, (), (*keys(DECISION), "enter"), _revision,
    ),
    "what to do with a piece": (12, (), (*keys("scrap bar-1"), "enter"), _disposal),
    "a step done": (
        14, (), (*keys("sawed the bar"), "enter"),
        lambda found: bool(found.all(happenings.StepDone)),
    ),
    "the newest photo linked": (
        1, (), ("f6",), lambda found: bool(found.entries[-1].photos),
    ),
    "going on past a wait, with the reason": (
        3, (), ("ctrl+g", "1", "2"),
        lambda found: (
            found.all(happenings.Override)[-1].reason is OverrideReason.CHECKED
        ),
    ),
    "undo": (
        1, (*keys("sawed the bar"), "enter"), ("f8",),
        lambda found: not found.all(happenings.StepDone),
    ),
}  # fmt: skip


@pytest.fixture
def drawn(shop: Path, tmp_path: Path) -> Path:
    logged(shop, "part", "bar")
    logged(shop, "measure", "bar", "length", "40.02", "--nominal", "40.0 mm")
    logged(shop, "step", "fit the bar")
    logged(shop, "hold", "fit the bar", "the wide jaw is away")
    draw_limits(shop)
    photos = tmp_path / "photos"
    photos.mkdir()
    Image.new("RGB", (40, 30), (90, 90, 90)).save(photos / "IMG_1.jpg")
    place = settings_file()
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text(f'photos = "{photos}"\n', "utf-8")
    return shop


@pytest.mark.parametrize("what", SITUATIONS)
async def test_a_plain_situation_costs_these_keys_and_no_more(
    drawn: Path, what: str
) -> None:
    budget, before, counted, left = SITUATIONS[what]
    assert len(counted) == budget
    async with bench(drawn) as at:
        await at.do(*before)
        await at.do(*counted)
    assert left(project(drawn).snapshot)
