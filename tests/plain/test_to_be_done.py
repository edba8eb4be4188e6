"""What is still to be done, or how, is a note of now and nothing that happened."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict, as_note
from tests.plain.fresh import DEMO
from tests.plain.judge import NOW, PROJECT


@pytest.mark.parametrize(
    "says",
    [
        "push the bearing in before the cap goes on, otherwise it does not fit",
        "glue the veneer before the edge is planed, or else it splits",
        "shrink the sleeves before the labels go on, otherwise they don't fit over",
        "drill the pilot hole first, otherwise the beech splits",
        "solder the leads before the lid goes on, else you cannot reach them",
        "grease the shaft before the drum goes on, otherwise it jams",
    ],
)
def test_how_to_do_it_is_no_failure_and_no_work(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.kind is Kind.NOTE
    assert not line.facts.part_is_new


@pytest.mark.parametrize(
    "says",
    [
        "the bearing does not fit, otherwise the cap is fine",
        "the bed cracked, otherwise all is well",
        "glued the lid, else it rattles",
    ],
)
def test_what_happened_is_none_for_its_otherwise(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.kind is not Kind.NOTE or line.verdict is not Verdict.TAKEN


@pytest.mark.parametrize(
    "says",
    [
        "tomorrow: order more 2 mm wire",
        "tomorrow: glue the gate again",
        "tomorrow: buy more tape",
        "tomorrow sand the bed",
        "next week: paint the base",
    ],
)
def test_a_note_of_what_lies_ahead_is_of_now(says: str) -> None:
    line = understand(says, DEMO)
    assert line.verdict is not Verdict.TAKEN or line.kind is Kind.NOTE
    noted = as_note(line)
    assert noted.facts.when is None or noted.facts.when <= NOW
