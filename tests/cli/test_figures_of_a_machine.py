"""The figures of a process name the machine on record, not that of a table."""

from __future__ import annotations

import pytest

from tests.cli.shop import Shop


@pytest.fixture
def sawn(shop: Shop) -> Shop:
    """A bar that is sawn, and came out long; invented."""
    shop.asked("part", "bar", "--process", "sawing")
    shop.asked("measure", "bar", "length", "178.5", "--nominal", "178.3 mm")
    return shop


def test_a_machine_on_record_is_named_with_its_own_process(sawn: Shop) -> None:
    sawn.asked("machine", "table saw", "--process", "sawing")
    said = sawn.logbook("figures").out
    assert said.startswith("sawing (table saw): +0.20 mm at each cut")
    assert "hacksaw" not in said.splitlines()[0]
    assert "nobody said on which machine; a line says it: … on the table saw" in said
    assert "the default is that of hacksaw and file, length" in said


def test_without_one_the_process_of_the_table_is_named(sawn: Shop) -> None:
    assert sawn.logbook("figures").out.startswith("hacksaw and file, length: +0.20 mm")
    sawn.asked("machine", "folder", "--process", "hand folding")
    assert sawn.logbook("figures").out.startswith("hacksaw and file, length: +0.20 mm")
