"""The neighbouring size of the other system.

1 in is 25.4 mm exactly (NIST SP 811, B.8; from memory).
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.quantity import parse_quantity
from logbook.shop.making.other_system import (
    INCHES,
    METRIC_MM,
    NEAR,
    other_system,
    sheets_beside,
)
from logbook.units import INCH_MM


@pytest.mark.parametrize(
    ("sold", "instead"),
    [
        # Decimal equivalents of inch fractions, as in any drill chart.
        ("6 mm", "1/4 in"),  # 6.35 mm
        ("10 mm", "3/8 in"),  # 9.525 mm
        ("3 mm", "1/8 in"),  # 3.175 mm
        ("18 mm", "3/4 in"),  # 19.05 mm
        ("25 mm", "1 in"),
        ("1/4 in", "6 mm"),
        ("6.35 mm", "6 mm"),
        ("1/2 in", "12 mm"),
        ("1 1/2 in", "40 mm"),
    ],
)
def test_a_size_that_is_sold_has_a_neighbour_in_the_other_system(
    sold: str, instead: str
) -> None:
    found = other_system(parse_quantity(sold))
    assert found is not None
    assert found == parse_quantity(instead)


@pytest.mark.parametrize("made", ["6.2 mm", "179.7 mm", "2 mm", "7/64 in", "5 V"])
def test_what_is_no_size_that_is_sold_or_has_none_near_has_no_neighbour(
    made: str,
) -> None:
    assert other_system(parse_quantity(made)) is None


@given(st.sampled_from([*METRIC_MM, *(one * INCH_MM for one in INCHES)]))
def test_the_neighbour_is_near_and_of_the_other_system(size: object) -> None:
    sold = parse_quantity(f"{float(size):g} mm")  # type: ignore[arg-type]
    found = other_system(sold)
    if found is not None:
        assert abs(found.to("mm") - sold.to("mm")) <= NEAR * sold.to("mm")
        assert (found.unit == "in") is (sold.to("mm") in METRIC_MM)


@pytest.mark.parametrize(
    ("size", "material", "beside"),
    [
        ("2.0 mm", "aluminium 5052-H32", ["0.063 in", "0.080 in"]),
        ("1.6 mm", "aluminium", ["0.063 in"]),  # 0.063 in is 1.6002 mm
        ("0.063 in", "aluminum 6061", ["1.5 mm", "2 mm"]),
        ("7 mm", "aluminium", ["0.250 in"]),
        ("2.0 mm", "steel", []),
    ],
)
def test_aluminium_sheet_has_the_sheets_of_the_other_system_beside_it(
    size: str, material: str, beside: list[str]
) -> None:
    typed = parse_quantity(size)
    assert [str(one) for one in sheets_beside(typed, material)] == beside
