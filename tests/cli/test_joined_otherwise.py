"""A step is done by what joins as it says: riveted on is not screwed on."""

from __future__ import annotations

import pytest

from tests.cli.shop import Shop


def step_of(shop: Shop, line: str) -> str:
    """Give the step a line was put on record as; empty where it is of none."""
    shop.asked("part", "lid")
    shop.asked("step", "screw the lid on", "--uses", "lid", "--closes")
    shop.asked("say", line, "--yes")
    [done] = shop.records("steps-done")
    text = done.read_text("utf-8")
    return text.partition('step = "')[2].partition('"')[0].rpartition(" ")[0]


@pytest.mark.parametrize(
    "line", ["riveted the lid on", "glued the lid on", "welded the lid on"]
)
def test_what_is_joined_by_something_else_is_another_step(
    shop: Shop, line: str
) -> None:
    assert step_of(shop, line) == ""


@pytest.mark.parametrize(
    "line",
    ["screwed the lid on", "bolted the lid on", "closed the lid", "fastened the lid"],
)
def test_what_is_joined_so_or_does_not_tell_is_the_step(shop: Shop, line: str) -> None:
    assert step_of(shop, line) == "screw the lid on"
