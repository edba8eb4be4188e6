"""“undo” typed on the line of the bench is no work: the key for it is said."""

from __future__ import annotations

import pytest

from logbook.screens.bench.in_the_shell import in_the_shell
from tests.plain.records_of import world


@pytest.mark.parametrize("line", ["undo", " Undo ", "logbook undo", "undo that"])
def test_the_key_that_takes_back_is_said(line: str) -> None:
    assert in_the_shell(line, world(())).startswith("F8 takes back")


@pytest.mark.parametrize("line", ["undo the lid screws", "undid the lid"])
def test_undoing_something_is_work(line: str) -> None:
    assert in_the_shell(line, world(())) == ""


@pytest.mark.parametrize("line", ["redo", "bring it back", "logbook undo --bring-back"])
def test_the_key_that_brings_back_is_said_and_a_way_without_it(line: str) -> None:
    said = in_the_shell(line, world(()))
    assert said.startswith("Shift-F8 brings back")
    assert "F1, “bring back” and Enter" in said


def test_bringing_something_back_is_work() -> None:
    assert in_the_shell("brought the lid back into shape", world(())) == ""
