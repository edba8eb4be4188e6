"""A declared wait ends where an entry says what it waits for, if that is confirmed."""

from __future__ import annotations

import pytest

from logbook.project import Project
from logbook.records.kinds.happenings import Override
from tests.cli.shop import Shop

BECAUSE = "the strip was not tried"


@pytest.fixture
def waits(shop: Shop) -> Shop:
    """A step that waits until the led strip lights."""
    shop.asked("step", "rivet the lid on", "--closes")
    shop.asked("part", "led strip")
    hold = ("hold", "rivet the lid on", BECAUSE, "--until", "it lights")
    shop.asked(*hold)
    return shop


def offers(shop: Shop) -> list[str]:
    offered = shop.asked("offered")["offered"]
    return [one["asks"] for one in offered if "waited until" in one["asks"]]


def held(shop: Shop) -> str:
    return shop.logbook("holds").out


@pytest.mark.parametrize(
    "line", ["tried the led strip, it lights", "the led strip lights"]
)
def test_what_ends_a_wait_is_asked_once_and_lifts_it(waits: Shop, line: str) -> None:
    assert offers(waits) == []
    assert BECAUSE in held(waits)
    waits.asked("say", line, "--yes")
    asked = f"“{line}”: “rivet the lid on” waited until it lights; is it so now?"
    assert offers(waits) == [asked]
    [mark] = [
        one["id"]
        for one in waits.asked("offered")["offered"]
        if "waited until" in one["asks"]
    ]
    waits.asked("offered", "take", mark, "yes")
    [over] = Project.open(waits.folder).snapshot.all(Override)
    assert over.because == line
    assert f"wait: rivet the lid on: {BECAUSE}" not in held(waits)
    assert offers(waits) == []


@pytest.mark.parametrize(
    "line",
    ["the led strip never lights", "when it lights, rivet the lid on", "tried it"],
)
def test_what_says_no_end_is_not_asked(waits: Shop, line: str) -> None:
    waits.asked("note", line)
    assert offers(waits) == []
