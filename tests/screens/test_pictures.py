"""The pictures in the README say what the screens say now."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest

from logbook.cli.demo import SAMPLE

README = Path(__file__).parents[2] / "README.md"


@pytest.fixture(scope="module")
def script() -> ModuleType:
    """The script that draws them, which is no part of the package."""
    spec = importlib.util.spec_from_file_location("pictures", SAMPLE / "pictures.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


def test_no_picture_is_stale(script: ModuleType) -> None:
    made = script.drawings()
    assert script.stale(made) == [], "run: python sample_project/pictures.py"
    name, svg = next(iter(made.items()))
    changed = {name: svg.replace("Desk", "Disk")}
    assert script.stale(changed) == [name]
    assert script.stale({"another": svg}) == ["another"]


def test_every_picture_is_shown_in_the_readme_and_asks_nobody_for_anything(
    script: ModuleType,
) -> None:
    shown = README.read_text("utf-8")
    for one in script.DRAWN:
        assert f"](sample_project/pictures/{one.name}.svg)" in shown
        svg = (script.PICTURES / f"{one.name}.svg").read_text("utf-8")
        assert "url(http" not in svg
        assert "<script" not in svg


def test_the_words_of_a_picture_are_those_on_the_screen(script: ModuleType) -> None:
    svg = (
        "<svg><style>text { fill: red }</style><title>x</title>"
        '<text x="1">a&#160;&lt;b&gt;</text><text x="2">c &amp; d  </text></svg>'
    )
    assert script.words(svg) == "a <b>\nc & d"
