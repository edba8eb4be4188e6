"""A bare number in a run is in the unit of its size, be that a temperature."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Run
from tests.screens.bench_keys import bench, measuring, project
from tests.screens.conftest import logged


@pytest.fixture
def warm(shop: Path) -> Path:
    """A gate whose face was read warm before; its width is a length."""
    logged(shop, "measure", "gate", "width", "40.0", "--nominal", "40.0 mm")
    logged(shop, "measure", "gate", "face temperature", "58 °C")
    return shop


def last(shop: Path) -> dict[str, str]:
    run = project(shop).snapshot.all(Run)[-1]
    return {one.what.name: str(one.value) for one in run.readings}


async def test_a_bare_number_of_a_temperature_is_in_degrees(warm: Path) -> None:
    async with bench(warm) as at:
        await measuring(at, "gate")
        await at.press("down")
        assert "face temperature: 58, or left 58" in at.line.placeholder
        await at.type("52")
        assert "52 °C" in at.words
        await at.do("enter")
    assert last(warm) == {"face temperature": "52 °C"}


async def test_another_size_named_at_a_temperature_keeps_its_own_unit(
    warm: Path,
) -> None:
    async with bench(warm) as at:
        await measuring(at, "gate")
        await at.press("down")
        await at.say("width 40.1")
        await at.press("up", "down")
        await at.say("depth 12")
    assert last(warm) == {"width": "40.1 mm", "depth": "12 mm"}
