"""On the bench: a line that says which unit a design file is in."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.project import Project
from logbook.records.kinds.design import Revision
from tests.screens.bench_keys import bench
from tests.screens.conftest import logged
from tests.store.test_shapes import binary_stl

FOOT = ((0.0, 0.0, 0.0), (0.032, 0.0165, 0.0), (0.032, 0.0, 0.032))


@pytest.fixture
def drawn(shop: Path) -> Path:
    for name in ("foot", "gate"):
        (shop / f"{name}.stl").write_bytes(binary_stl(FOOT))
        logged(shop, "part", name, "--new")
        logged(shop, "revise", name, "--file", f"{name}.stl", "--redrawn")
    return shop


def unit_of(shop: Path, path: str) -> str:
    every = Project.open(shop).snapshot.all(Revision)
    return next(file.unit for one in every for file in one.files if file.path == path)


async def test_it_is_shown_kept_and_taken_back(drawn: Path) -> None:
    async with bench(drawn) as at:
        await at.type("foot.stl is in metres")
        assert "file unit · foot.stl: one unit of it is 1 m" in at.words
        await at.do("enter")
        assert unit_of(drawn, "foot.stl") == "m"
        assert unit_of(drawn, "gate.stl") == ""
        await at.do("f8")
        assert unit_of(drawn, "foot.stl") == ""


async def test_of_several_it_says_which_and_the_line_stays(drawn: Path) -> None:
    async with bench(drawn) as at:
        await at.type("the stl is in mm")
        await at.do("enter")
        assert "“the stl” can be foot.stl, gate.stl" in at.words
        assert at.line.value == "the stl is in mm"
