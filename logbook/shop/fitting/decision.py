"""Accept, reject, or too close to call: one reading against its limits.

Plain acceptance compares the reading alone. A guard band w (ISO 14253-1,
JCGM 106 clause 8) takes it off the limits before something is said to conform,
and adds it before something is said not to; in between neither is proved. The
conformance probability is the normal area between the limits (JCGM 106
clause 7). Everything but that probability is exact.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from statistics import NormalDist

from logbook.errors import BadInput


class Verdict(StrEnum):
    """What plain comparison says."""

    ACCEPT = "accept"
    REJECT = "reject"


class Proof(StrEnum):
    """What can be proved with the guard band."""

    CONFORMS = "conforms"
    NOT_PROVEN = "not proven"
    DOES_NOT_CONFORM = "does not conform"


class Statement(StrEnum):
    """The four statements of ILAC-G8:09/2019 with a guard band."""

    PASS = "pass"  # noqa: S105 (a statement, no password)
    CONDITIONAL_PASS = "conditional pass"  # noqa: S105
    CONDITIONAL_FAIL = "conditional fail"
    FAIL = "fail"


@dataclass(frozen=True, slots=True)
class Limits:
    """Lower and upper limit; `None` is no limit on that side.

    Raises:
        BadInput: there is none at all, or they are the wrong way round.
    """

    lower: Fraction | None
    upper: Fraction | None

    def __post_init__(self) -> None:
        if self.lower is None and self.upper is None:
            raise BadInput("no limits are drawn; accepted: a lower or an upper limit")
        if not (self.lower is None or self.upper is None) and self.lower > self.upper:
            raise BadInput(
                f"the lower limit {float(self.lower):g} is above the upper "
                f"{float(self.upper):g}; accepted: the lower one below"
            )

    def moved(self, inward: Fraction) -> tuple[Fraction | None, Fraction | None]:
        """Give both limits moved inward (negative: outward)."""
        return (
            None if self.lower is None else self.lower + inward,
            None if self.upper is None else self.upper - inward,
        )

    def hold(self, value: Fraction, inward: Fraction = Fraction(0)) -> bool:
        """Tell whether a value lies within the limits so moved, ends included."""
        low, high = self.moved(inward)
        return (low is None or value >= low) and (high is None or value <= high)


@dataclass(frozen=True, slots=True)
class Decision:
    """A reading judged; `guard` is the width of the guard band that was used."""

    verdict: Verdict
    proof: Proof
    statement: Statement
    too_close: bool
    accepted: tuple[Fraction | None, Fraction | None]
    rejected: tuple[Fraction | None, Fraction | None]
    guard: Fraction


def decide(
    measured: Fraction, limits: Limits, uncertainty: Fraction, guard: Fraction | None
) -> Decision:
    """Judge a reading with expanded uncertainty U and guard band w (default U).

    `too_close` tells that a limit lies within U of the reading.
    """
    width = uncertainty if guard is None else guard
    inside = limits.hold(measured)
    near = any(
        limit is not None and abs(measured - limit) < uncertainty
        for limit in (limits.lower, limits.upper)
    )
    proved = limits.hold(measured, width)
    disproved = not limits.hold(measured, -width)
    if proved:
        proof, statement = Proof.CONFORMS, Statement.PASS
    elif disproved:
        proof, statement = Proof.DOES_NOT_CONFORM, Statement.FAIL
    else:
        proof = Proof.NOT_PROVEN
        statement = Statement.CONDITIONAL_PASS if inside else Statement.CONDITIONAL_FAIL
    return Decision(
        Verdict.ACCEPT if inside else Verdict.REJECT,
        proof,
        statement,
        near,
        limits.moved(width),
        limits.moved(-width),
        width,
    )


def conformance_probability(
    measured: float, standard: float, lower: float | None, upper: float | None
) -> float:
    """Give the chance that the true value lies within the limits (JCGM 106, 7).

    `standard` is the standard uncertainty; a normal spread around the reading
    is taken, with no earlier knowledge of the process.

    Raises:
        BadInput: the standard uncertainty is not above 0.
    """
    if standard <= 0:
        raise BadInput("the standard uncertainty is 0; accepted: more than 0")
    low = -math.inf if lower is None else (lower - measured) / standard
    high = math.inf if upper is None else (upper - measured) / standard
    # Far on the right 1 − Φ loses its digits; the mirrored Φ keeps them.
    if low > 0:
        low, high = -high, -low
    return _phi(high) - _phi(low)


def _phi(z: float) -> float:
    return math.erfc(-z / math.sqrt(2)) / 2


def guard_factor(probability: float) -> float:
    """Give the one-sided guard band, in standard uncertainties, for a probability.

    JCGM 106 Table 1, normal spread.

    Raises:
        BadInput: the probability is not between 0.5 and 1.
    """
    if not 0.5 <= probability < 1:
        raise BadInput(
            f"found a conformance probability of {probability:g}; "
            "accepted: from 0.5 to below 1"
        )
    return NormalDist().inv_cdf(probability)
