"""Uncertainty budgets, and values with the figures of their uncertainty."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest

from logbook.errors import BadInput
from logbook.shop.measuring.gum import Row, budget, standard_uncertainty
from logbook.shop.measuring.reported import rounded
from logbook.shop.sums import work_out


def test_budget_with_correlation_adds_straight_at_one() -> None:
    rows = [Row("a", 3.0), Row("b", 4.0)]
    assert budget(rows).combined == pytest.approx(5)
    assert budget(rows, correlations=[(0, 1, 1.0)]).combined == pytest.approx(7)
    assert budget(rows, correlations=[(0, 1, -1.0)]).combined == pytest.approx(1)


def test_budget_without_freedom_is_normal() -> None:
    found = budget([Row("a", 3.0), Row("b", 4.0, 2.0)])
    assert math.isinf(found.freedom)
    assert found.expanded == pytest.approx(1.959964 * math.hypot(3, 8), rel=1e-6)


def test_budget_refuses_what_cannot_be() -> None:
    with pytest.raises(BadInput, match="at least one"):
        budget([])
    with pytest.raises(BadInput, match="accepted: u of 0 or more"):
        budget([Row("a", -1.0)])
    with pytest.raises(BadInput, match="accepted: a width"):
        standard_uncertainty(1.0, "square")
    with pytest.raises(BadInput, match="dof: found 1 for 2 rows"):
        work_out("uncertainty-budget", {"u": "1, 2", "dof": "3"})
    with pytest.raises(BadInput, match="dof: found “x”"):
        work_out("uncertainty-budget", {"u": "1", "dof": "x"})


@pytest.mark.parametrize(
    ("value", "spread", "shown"),
    [
        ("10.05762", "0.027", ("10.058", "0.027")),
        ("1234.5", "28.05", ("1234", "28")),
        ("0.5", "0.0996", ("0.50", "0.10")),
        ("123456", "1300", ("123500", "1300")),
        ("-0.00012", "0.0001", ("-0.00012", "0.00010")),
    ],
)
def test_values_carry_the_figures_of_their_uncertainty(
    value: str, spread: str, shown: tuple[str, str]
) -> None:
    assert rounded(Decimal(value), Decimal(spread)) == shown


def test_values_without_uncertainty_cannot_be_cut() -> None:
    for bad in ("0", "-1", "nan"):
        with pytest.raises(BadInput):
            rounded(Decimal(1), Decimal(bad))
