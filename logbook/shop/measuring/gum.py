"""Uncertainty budgets after the GUM: contributions, combined, expanded.

Each row has a standard uncertainty, a sensitivity and degrees of freedom; the
effective degrees of freedom follow Welch and Satterthwaite and are cut down to
a whole number before Student's t is taken (JCGM 100, G.4).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeVar

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.digits import spread_places
from logbook.shop.given import (
    READING,
    Given,
    Input,
    Kind,
    at_least,
    between,
    in_words,
)
from logbook.shop.measuring.statistics import student
from logbook.shop.sums import Sum

T = TypeVar("T")

DIVISORS = {
    "normal": 1.0,
    "rectangular": math.sqrt(3),
    "triangular": math.sqrt(6),
    "arcsine": math.sqrt(2),
}
"""What a half width is divided by (JCGM 100, 4.3.7 to 4.3.9; JCGM 101, 6.4.6)."""


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a budget, in its own unit; `sensitivity` turns it into the result's.

    Without a limit on what is known about u, `freedom` is infinite.
    """

    name: str
    standard: float
    sensitivity: float = 1.0
    freedom: float = math.inf

    @property
    def contribution(self) -> float:
        """Its part of the result's standard uncertainty."""
        return abs(self.sensitivity) * self.standard


@dataclass(frozen=True, slots=True)
class Budget:
    """A worked-out budget."""

    rows: tuple[Row, ...]
    combined: float
    freedom: float
    coverage: float

    @property
    def whole_freedom(self) -> float:
        """Effective degrees of freedom to one decimal, cut down to a whole number.

        Uncertainties are known to two figures, so 18.97 is 19 (JCGM 100, G.4.1).
        """
        if math.isinf(self.freedom):
            return self.freedom
        return max(1.0, math.floor(round(self.freedom, 1)))

    @property
    def factor(self) -> float:
        """Coverage factor: Student's t."""
        return student(self.whole_freedom, self.coverage)

    @property
    def expanded(self) -> float:
        """Expanded uncertainty U."""
        return self.factor * self.combined


def budget(
    rows: Sequence[Row],
    coverage: float = 0.95,
    correlations: Sequence[tuple[int, int, float]] = (),
) -> Budget:
    """Combine rows: u² = Σ(c u)² + 2 Σ c c u u r over the correlated pairs.

    `correlations` name two rows (from 0) and their coefficient.

    Raises:
        BadInput: no row, a negative u, or correlations that cannot be.
    """
    if not rows:
        raise BadInput("a budget without a row; accepted: at least one")
    for row in rows:
        if row.standard < 0 or row.freedom <= 0:
            raise BadInput(
                f"{row.name}: u {row.standard:g} with {row.freedom:g} degrees of "
                "freedom; accepted: u of 0 or more, freedom above 0"
            )
    square = math.fsum(row.contribution**2 for row in rows)
    for one, other, r in correlations:
        cross = rows[one].sensitivity * rows[other].sensitivity
        square += 2 * r * cross * rows[one].standard * rows[other].standard
    if square < 0:
        raise BadInput(
            "these correlations cannot be together; accepted: a matrix that "
            "leaves every variance at 0 or more"
        )
    fourth = math.fsum(row.contribution**4 / row.freedom for row in rows)
    freedom = square**2 / fourth if fourth else math.inf
    return Budget(tuple(rows), math.sqrt(square), freedom, coverage)


def standard_uncertainty(half_width: float, shape: str) -> float:
    """Give the standard uncertainty of a half width of known shape.

    Raises:
        BadInput: a shape that is not known, or a negative width.
    """
    if shape not in DIVISORS or half_width < 0:
        raise BadInput(
            f"found {shape}, ±{half_width:g}; accepted: a width of 0 or more, "
            f"{', '.join(DIVISORS)}"
        )
    return half_width / DIVISORS[shape]


def _compute_budget(given: Given) -> Answer:
    standards = given.numbers("u")
    factors = _fitting(given.numbers("sensitivity"), len(standards), 1.0, "sensitivity")
    freedoms = _fitting(
        [_freedom(word) for word in given.words("dof")], len(standards), math.inf, "dof"
    )
    names = _fitting(list(given.words("name")), len(standards), "", "name")
    rows = [
        Row(name or f"no. {place}", u, factor, freedom)
        for place, (name, u, factor, freedom) in enumerate(
            zip(names, standards, factors, freedoms, strict=True), 1
        )
    ]
    found = budget(rows, given.number("confidence"))
    places = spread_places(found.combined, 4)
    columns = (
        Column("name"), Column("u", "", 6), Column("sensitivity", "", 6),
        Column("contribution", "", places + 1), Column("share", "%", 1),
    )  # fmt: skip
    lines = tuple(
        (row.name, row.standard, row.sensitivity, row.contribution,
         100 * row.contribution**2 / found.combined**2 if found.combined else 0.0)
        for row in rows
    )  # fmt: skip
    return Answer(
        (
            Result(
                "combined", found.combined, "", places, "combined standard uncertainty"
            ),
            Result("effective_dof", found.freedom, "", 1, "Welch–Satterthwaite"),
            Result("whole_dof", found.whole_freedom, "", 0, "cut down to a whole one"),
            Result("coverage_factor", found.factor, "", 2, "Student's t"),
            Result("expanded", found.expanded, "", places, "U = t × u"),
        ),
        tables=(Rows("Budget", columns, lines),),
        assumptions=("the rows are independent",),
    )


def _fitting(found: list[T], count: int, default: T, name: str) -> list[T]:
    if not found:
        return [default] * count
    if len(found) != count:
        raise BadInput(
            f"{in_words(name)}: found {len(found)} for {count} rows; accepted: one for "
            "each u"
        )
    return found


def _freedom(word: str) -> float:
    if word.strip().lower() in {"inf", "infinite", "unlimited", "∞"}:
        return math.inf
    try:
        return float(word)
    except ValueError:
        raise BadInput(
            f"dof: found “{word}”; accepted: a number above 0, or unlimited"
        ) from None


def _compute_shape(given: Given) -> Answer:
    u = standard_uncertainty(given.number("half_width"), given.word("shape"))
    places = spread_places(u)
    return Answer((Result("u", u, READING, places, "standard uncertainty"),))


SUMS: tuple[Sum, ...] = (
    Sum(
        name="uncertainty-budget",
        also=("gum", "budget", "gum-budget"),
        title="Uncertainty budget with effective degrees of freedom",
        inputs=(
            Input("u", "standard uncertainties, one for each row", kind=Kind.NUMBER,
                  many=True, accept=at_least(0), also=("standard-uncertainty",)),
            Input("sensitivity", "sensitivities, one for each row; 1 without",
                  kind=Kind.NUMBER, many=True, optional=True, also=("sensitivities",)),
            Input("dof", "degrees of freedom, one for each row; unlimited without",
                  kind=Kind.TEXT, many=True, optional=True),
            Input("name", "names of the rows", kind=Kind.TEXT, many=True, optional=True,
                  also=("names",)),
            Input("confidence", "level of confidence", kind=Kind.NUMBER,
                  accept=between(0, 1), default="0.95", also=("coverage",),
                  share=True),
        ),
        compute=_compute_budget,
        formula="u² = Σ (c u)²; ν = u⁴ / Σ((c u)⁴/ν_i); U = t(ν) u",
        source="JCGM 100:2008, 5.1.2 and G.4",
        how="read",
        example={"u": "25, 9.7, 2.9, 16.6", "dof": "18, 25.6, 50, 2",
                 "confidence": "0.99"},
    ),
    Sum(
        name="standard-uncertainty",
        also=("type-b", "half-width"),
        title="Standard uncertainty of a stated ± half width",
        inputs=(
            Input("half_width", "half the width between the limits", kind=Kind.FIGURE,
                  accept=at_least(0), also=("mpe",)),
            Input("shape", "how values fall between", kind=Kind.CHOICE,
                  choices=tuple(DIVISORS), default="rectangular",
                  words={"uniform": "rectangular", "u-shaped": "arcsine"}),
        ),
        compute=_compute_shape,
        formula="rectangular a/√3, triangular a/√6, arcsine a/√2",
        source="JCGM 100:2008, 4.3.7 to 4.4.6",
        how="read",
        example={"half_width": "0.03"},
        relied_on=False,
    ),
)  # fmt: skip
