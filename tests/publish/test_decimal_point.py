"""Decimal commas as typed are points on a page, and nothing else is touched."""

from __future__ import annotations

import pytest

from logbook.publish.decimal_point import decimal_points
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("178,9 mm (build 2)", "178.9 mm (build 2)"),
        ("filed down to 178,3 and it fits", "filed down to 178.3 and it fits"),
        ("0,3 mm; 5,8 °C; 6,40 EUR; 2,4°", "0.3 mm; 5.8 °C; 6.40 EUR; 2.4°"),
        ("1,000 mm", "1,000 mm"),
        ("steps 3,5 and 7", "steps 3,5 and 7"),
        ("M4x16,20 and 12,5,6", "M4x16,20 and 12,5,6"),
    ],
)
def test_a_decimal_comma_is_a_point_on_a_page(typed: str, read: str) -> None:
    assert decimal_points(typed) == read
    assert decimal_points(read) == read


def test_the_example_of_a_gap_is_one_build_in_one_manner(stand: Stand) -> None:
    told(stand, "build", "build 2")
    told(stand, "measure", "crossbar", "length", "178,2", "--build", "build 2")
    guide = stand.run("guide", "1.1", "--print")[1]
    line = next(one for one in guide.splitlines() if one.startswith("As built in "))
    assert line.startswith("As built in build 1, ")
    assert "178.2" not in line
    assert "178.2 mm (build 2" in guide
    assert "178,2" not in guide
