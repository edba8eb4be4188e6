"""A drawn size that all readings are ten or a hundred times off is named by check."""

from __future__ import annotations

import shlex

import pytest

from tests.cli.shop import Shop


def drawn(shop: Shop, size: str, *readings: str) -> None:
    shop.asked("part", "base", "--dimension", f"opening={size}")
    for value in readings:
        shop.asked("measure", "base", "opening", value, "--yes")


def named(shop: Shop) -> list[str]:
    lines = shop.logbook("check").out.splitlines()
    return [line for line in lines if "opening is drawn" in line]


@pytest.mark.parametrize(
    ("size", "times", "readings", "meant"),
    [
        ("1 ±0.1", "a hundred times", ("100.02", "99.98"), "100 mm"),
        ("18", "ten times", ("180.1", "178.6", "180.0", "181"), "180 mm"),
        ("1800", "a tenth of", ("180.1", "179.9"), "180 mm"),
    ],
)
def test_it_is_named_with_the_line_that_puts_it_right(
    shop: Shop, size: str, times: str, readings: tuple[str, ...], meant: str
) -> None:
    drawn(shop, size, *readings)
    [line] = named(shop)
    assert f"is about {times} that: {readings[0]} mm, {readings[1]} mm" in line
    assert ("and 1 more" in line) == (len(readings) > 3)
    # It goes out with a release only told; the line as it stands puts it right.
    assert line in shop.logbook("release", "1.0", "--check").out.splitlines()
    command = shlex.split(line.partition("logbook ")[2].partition(", its limits")[0])
    assert command[-1] == f"opening={meant}"
    shop.asked(*command)
    assert named(shop) == []


@pytest.mark.parametrize(
    "readings",
    [
        ("100.02", "1.01"),  # one is as drawn
        ("60", "61"),  # far, but no factor of ten
        (),
    ],
)
def test_where_a_reading_may_be_so_nothing_is_said(
    shop: Shop, readings: tuple[str, ...]
) -> None:
    drawn(shop, "1 ±0.1", *readings)
    assert named(shop) == []


def test_one_reading_alone_is_doubted_itself_unless_it_was_confirmed(
    shop: Shop,
) -> None:
    drawn(shop, "1 ±0.1", "1.002")
    assert named(shop) == []
    drawn(shop, "100 ±0.1")
    shop.asked("part", "lid", "--dimension", "width=2")
    shop.asked("measure", "lid", "width", "200.1", "--yes")
    lines = shop.logbook("check").out
    assert "lid first issue: width is drawn 2 mm" in lines, "--yes said that it is so"
