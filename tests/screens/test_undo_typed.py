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
