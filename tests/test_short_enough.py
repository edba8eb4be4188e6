"""Modules and functions stay short enough to be seen whole."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
LINES = {"logbook": 300, "tests": 400, "sample_project": 300}
"""How many lines a module may have at most, by the folder it stands in."""
FUNCTION = 50


def too_long(path: Path, most: int) -> Iterator[str]:
    """Name a module of more lines than it may have, and each such function of it."""
    source = path.read_text("utf-8")
    lines = len(source.splitlines())
    if lines > most:
        yield f"{path.name}: {lines} lines"
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            lines = (node.end_lineno or node.lineno) - node.lineno + 1
            if lines > FUNCTION:
                yield f"{path.name}: {node.name}, {lines} lines"


@pytest.mark.parametrize("folder", LINES)
def test_modules_and_functions_are_short_enough_to_see_whole(folder: str) -> None:
    paths = sorted((ROOT / folder).rglob("*.py"))
    found = (name for path in paths for name in too_long(path, LINES[folder]))
    assert paths
    assert list(found) == []


def test_what_is_too_long_is_named(tmp_path: Path) -> None:
    path = tmp_path / "fits.py"
    path.write_text("def fit():\n" + "    x = 1\n" * FUNCTION, "utf-8")
    assert list(too_long(path, 300)) == ["fits.py: fit, 51 lines"]
    assert list(too_long(path, 50)) == ["fits.py: 51 lines", "fits.py: fit, 51 lines"]
