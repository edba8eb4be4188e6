"""“Too long, 239.9” is a size where it is near one, an amount where it is small."""

from __future__ import annotations

import pytest

from logbook.project import Project
from logbook.records.kinds.happenings import Deviation
from tests.cli.shop import Shop


@pytest.fixture
def drawn(shop: Shop) -> Shop:
    shop.asked("part", "bed", "--dimension", "width=240 ±0.5")
    shop.asked("part", "bed", "--dimension", "slot=6.4 ±0.2")
    shop.asked("part", "crossbar")
    return shop


def last(shop: Shop) -> Deviation:
    return Project.open(shop.folder).snapshot.all(Deviation)[-1]


@pytest.mark.parametrize(
    ("line", "size", "value"),
    [
        ("bed too wide, 242.5", "width", "242.5 mm"),
        ("bed width too wide, 240.2", "width", "240.2 mm"),
        ("bed slot too tight, 6.1", "slot", "6.1 mm"),
        ("bed slot too small, 6.1 mm", "slot", "6.1 mm"),
        ("bed 242.5 too wide", "width", "242.5 mm"),
    ],
)
def test_a_figure_near_a_size_on_record_is_that_size(
    drawn: Shop, line: str, size: str, value: str
) -> None:
    said = drawn.logbook("say", "--yes", "--met-by", "drawing", line)
    assert f"{size} {value}" in said.out
    found = last(drawn)
    assert (str(found.found), found.off) == (value, None)


@pytest.mark.parametrize(
    "line",
    [
        "bed too wide, 2.5",
        "bed 2.5 too wide",
        "bed too wide by 2.5",
        "bed slot 2.5 off",
    ],
)
def test_a_figure_small_beside_it_is_the_amount(drawn: Shop, line: str) -> None:
    drawn.logbook("say", "--yes", "--met-by", "drawing", line)
    found = last(drawn)
    assert (str(found.off), found.found) == ("2.5 mm", None)


@pytest.mark.parametrize(
    ("line", "asked"),
    [
        ("bed too wide, 150", "“150”: is width 150 mm, and not too wide by so much?"),
        ("bed hole too tight, 6.1", "“6.1”: is hole 6.1 mm, and not too tight by so"),
        ("crossbar too long, 219.9", "“219.9”: is length 219.9 mm, and not too long"),
    ],
)
def test_what_may_be_either_is_asked_and_not_taken_unasked(
    drawn: Shop, line: str, asked: str
) -> None:
    assert asked in drawn.asked("say", "--", line)["question"]
    said = drawn.logbook("say", "--yes", "--met-by", "drawing", line)
    assert "kept as a note" in said.err
    assert not Project.open(drawn.folder).snapshot.all(Deviation)
