"""Capability: is a settled process good enough for its limits."""

from __future__ import annotations

import math
from dataclasses import dataclass

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.given import Given, Input, Kind, above, at_least
from logbook.shop.measuring.statistics_inputs import CONFIDENCE
from logbook.shop.sums import Sum


@dataclass(frozen=True, slots=True)
class Capability:
    """Capability indices; one-sided where only one limit is drawn.

    `cp` is None with one limit, `off` (k) too.
    """

    cp: float | None
    cpk: float
    cpu: float | None
    cpl: float | None
    off: float | None


def capability(
    mean: float, sigma: float, lower: float | None, upper: float | None
) -> Capability:
    """Work out Cp, Cpk, Cpu, Cpl and k (e-Handbook 6.1.6).

    Raises:
        BadInput: no limit, limits the wrong way round, or no spread.
    """
    if sigma <= 0:
        raise BadInput(f"found a spread of {sigma:g}; accepted: more than 0")
    cpu = None if upper is None else (upper - mean) / (3 * sigma)
    cpl = None if lower is None else (mean - lower) / (3 * sigma)
    if lower is None or upper is None:
        one = cpu if cpl is None else cpl
        if one is None:
            raise BadInput("no limits are drawn; accepted: a lower or upper limit")
        return Capability(None, one, cpu, cpl, None)
    if lower >= upper:
        raise BadInput("the lower limit is not below the upper; accepted: below it")
    assert cpu is not None
    assert cpl is not None
    off = abs((upper + lower) / 2 - mean) / ((upper - lower) / 2)
    return Capability((upper - lower) / (6 * sigma), min(cpu, cpl), cpu, cpl, off)


def cp_interval(cp: float, count: int, confidence: float) -> tuple[float, float]:
    """Give the interval of Cp by chi-square with n − 1 degrees of freedom."""
    from scipy.special import gammaincinv

    freedom, tail = count - 1, (1 - confidence) / 2
    low, high = (
        2 * float(gammaincinv(freedom / 2, chance)) for chance in (tail, 1 - tail)
    )
    return cp * math.sqrt(low / freedom), cp * math.sqrt(high / freedom)


def cpk_interval(cpk: float, count: int, confidence: float) -> tuple[float, float]:
    """Give the interval of Cpk: Cpk ± z √(1/(9n) + Cpk²/(2(n−1))), Bissell."""
    from statistics import NormalDist

    z = NormalDist().inv_cdf((1 + confidence) / 2)
    half = z * math.sqrt(1 / (9 * count) + cpk**2 / (2 * (count - 1)))
    return cpk - half, cpk + half


def indices(index: Capability) -> list[Result]:
    """Give the indices that there are, each by its usual name."""
    named = (
        ("cp", index.cp, "width of the limits over 6 σ"),
        ("cpk", index.cpk, "distance to the nearer limit over 3 σ"),
        ("cpu", index.cpu, "to the upper limit"),
        ("cpl", index.cpl, "to the lower limit"),
        ("k", index.off, "how far off centre, 0 to 1"),
    )
    return [
        Result(name, value, "", 2, what) for name, value, what in named
        if value is not None
    ]  # fmt: skip


def _compute_capability(given: Given) -> Answer:
    index = capability(
        given.number("mean"), given.number("sigma"),
        given.maybe("lower"), given.maybe("upper"),
    )  # fmt: skip
    results = indices(index)
    warnings: tuple[str, ...] = ()
    if given.has("count"):
        count, level = given.count("count"), given.number("confidence")
        if index.cp is not None:
            low, high = cp_interval(index.cp, count, level)
            results.append(Result("cp_low", low, "", 2, f"{level:.0%} interval"))
            results.append(Result("cp_high", high, "", 2, f"{level:.0%} interval"))
        low, high = cpk_interval(index.cpk, count, level)
        results.append(Result("cpk_low", low, "", 2, f"{level:.0%} interval"))
        results.append(Result("cpk_high", high, "", 2, f"{level:.0%} interval"))
    else:
        warnings = ("Say how many readings the spread rests on: the interval is wide.",)
    return Answer(tuple(results), warnings=warnings)


LOWER = Input(
    "lower", "lower limit", kind=Kind.FIGURE, optional=True,
    also=("lsl", "lower-limit", "spec-low"),
)  # fmt: skip


UPPER = Input(
    "upper", "upper limit", kind=Kind.FIGURE, optional=True,
    also=("usl", "upper-limit", "spec-high"),
)  # fmt: skip


SUMS: tuple[Sum, ...] = (
    Sum(
        name="capability",
        also=("cp", "cpk", "process-capability"),
        title="Capability of a process, with its interval",
        inputs=(
            Input("mean", "mean", kind=Kind.FIGURE),
            Input("sigma", "standard deviation", kind=Kind.FIGURE, accept=above(0),
                  also=("sd", "s", "standard-deviation")),
            LOWER,
            UPPER,
            Input("count", "readings it rests on", kind=Kind.COUNT, accept=at_least(2),
                  optional=True, also=("n",)),
            CONFIDENCE,
        ),
        compute=_compute_capability,
        formula="Cp = (U − L)/6σ; Cpk = min(U − mean, mean − L)/3σ; k = off-centre / "
        "half width; interval of Cpk: ± z √(1/9n + Cpk²/2(n−1))",
        source="NIST/SEMATECH e-Handbook 6.1.6",
        how="read",
        caution="An index means something only for a settled process that falls "
        "normally.",
        example={"mean": "16", "sigma": "2", "lower": "8", "upper": "20", "n": "30"},
    ),
)  # fmt: skip
