"""Every sum held against worked figures from outside, with source and tolerance."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from logbook.shop.answers import Result
from logbook.shop.sums import work_out
from logbook.units import UNITS, convert

FOLDER = Path(__file__).parent / "checks"
CHECKS = [
    pytest.param(check, id=f"{path.stem}: {check['name']}")
    for path in sorted(FOLDER.glob("*.toml"))
    for check in tomllib.loads(path.read_text("utf-8"))["check"]
]


@pytest.mark.parametrize("check", CHECKS)
def test_sum_gives_the_published_figure(check: dict[str, Any]) -> None:
    answer = work_out(check["sum"], check["inputs"])
    cited = f"{check['sum']} against {check['source']} ({check['how']})"
    for name, expected in check["expect"].items():
        found = figures(answer.result(name), expected.get("unit", ""))
        wanted = expected["value"]
        wanted = wanted if isinstance(wanted, list) else [wanted]
        assert len(found) == len(wanted), f"{name}: {cited}"
        for one, other in zip(found, wanted, strict=True):
            if isinstance(other, str | bool):
                assert one == other, f"{name}: {cited}"
                continue
            within = expected["within"]
            assert isinstance(one, float)
            assert abs(one - other) <= within * (1 + 1e-6) + 1e-12, (
                f"{name}: found {one:.6g}, published {other:g} ±{within:g}: {cited}"
            )


@pytest.mark.parametrize("check", CHECKS)
def test_check_says_where_it_comes_from(check: dict[str, Any]) -> None:
    assert check["source"]
    assert check["how"] in {"read", "computed", "memory", "common practice"}


def figures(result: Result, unit: str) -> list[float | str | bool]:
    """Give a result's figures in the unit of the check."""
    if isinstance(result.value, str | bool):
        return [result.value]
    values = result.value if isinstance(result.value, tuple) else (result.value,)
    if unit not in UNITS or result.unit not in UNITS or unit == result.unit:
        return [float(value) for value in values]
    return [float(convert(Fraction(value), result.unit, unit)) for value in values]
