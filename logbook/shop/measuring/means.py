"""Means as sums: of readings, from a mean and its spread, and Student's t."""

from __future__ import annotations

import math

from logbook.shop.answers import Answer, Result
from logbook.shop.digits import decimals, spread_places
from logbook.shop.given import READING, Given, Input, Kind, above, between
from logbook.shop.measuring.slips import slip_said
from logbook.shop.measuring.statistics import (
    TTest,
    mean_interval,
    student,
    summarize,
    t_test,
)
from logbook.shop.measuring.statistics_inputs import CONFIDENCE, READINGS, SIDES
from logbook.shop.sums import Sum


def _compute_summary(given: Given) -> Answer:
    readings, level = given.exacts("readings"), given.number("confidence")
    found = summarize(readings)
    low, high = mean_interval(float(found.mean), found.sd, found.count, level)
    read = max(decimals(reading) for reading in readings)
    places = spread_places(found.error, read + 1)
    wide = spread_places(found.sd, read)
    interval = f"end of the {100 * level:.4g} % interval"
    results = [
        Result("count", found.count, "", 0, "readings"),
        Result("mean", float(found.mean), READING, places, "mean"),
        Result("sd", found.sd, READING, wide, "standard deviation, n − 1"),
        Result("standard_error", found.error, READING, places, "of the mean"),
        Result("low", low, READING, places, f"lower {interval}"),
        Result("high", high, READING, places, f"upper {interval}"),
        Result("t", student(found.count - 1, level), "", 3, "Student's t"),
        Result("smallest", float(min(readings)), READING, read, "smallest reading"),
        Result("largest", float(max(readings)), READING, read, "largest reading"),
        Result("lag1", float(found.lag1), "", 2, "autocorrelation of neighbours"),
    ]
    if given.has("reference") and found.variance:
        results += _tested(
            t_test(
                float(found.mean),
                found.sd,
                found.count,
                given.number("reference"),
                level,
            ),
            float(found.mean) - given.number("reference"),
        )
    slip = slip_said(readings, given.figures_in)
    return Answer(tuple(results), warnings=slip, alarms=slip)


def _tested(test: TTest, off: float) -> list[Result]:
    return [
        Result(
            "difference", off, READING, spread_places(abs(off / (test.t or 1)), 6),
            "mean less reference",
        ),
        Result("dof", test.freedom, "", 0, "degrees of freedom"),
        Result("t_value", test.t, "", 3, "t of the difference"),
        Result("critical", test.critical, "", 3, "two-sided critical t"),
        Result("p", test.p, "", 4, "chance of as much by luck alone"),
        Result("differs", test.differs, "", 0, "whether the mean misses the reference"),
    ]  # fmt: skip


def _compute_interval(given: Given) -> Answer:
    mean, sd = given.number("mean"), given.number("sd")
    count, level = given.count("count"), given.number("confidence")
    low, high = mean_interval(mean, sd, count, level)
    places = spread_places(sd / math.sqrt(count))
    results = [
        Result("low", low, READING, places, "lower end"),
        Result("high", high, READING, places, "upper end"),
        Result("t", student(count - 1, level), "", 3, "Student's t, two-sided"),
    ]
    if given.has("reference"):
        reference = given.number("reference")
        test = t_test(mean, sd, count, reference, level)
        results += _tested(test, mean - reference)
    return Answer(tuple(results))


def _compute_student(given: Given) -> Answer:
    two = given.word("sides") == "two"
    value = student(given.number("dof"), given.number("coverage"), two_sided=two)
    return Answer((Result("t", value, "", 4, f"{given.word('sides')}-sided quantile"),))


_REFERENCE = Input(
    "reference", "value the mean should have", kind=Kind.FIGURE, optional=True,
    also=("mu0",),
)  # fmt: skip


SUMS: tuple[Sum, ...] = (
    Sum(
        name="readings",
        also=("summary", "mean", "statistics", "mean-and-sd"),
        title="Mean, standard deviation and interval of some readings",
        inputs=(READINGS, CONFIDENCE, _REFERENCE),
        compute=_compute_summary,
        formula="mean ± t s / √n, s with n − 1; decimals are worked out exactly",
        source="NIST/SEMATECH e-Handbook 1.3.5.1 to 1.3.5.2",
        how="read",
        caution="Readings at different places are not averaged: the smallest governs "
        "entry, the largest the looseness.",
        example={"readings": "178.60, 178.65, 178.62, 178.68"},
        relied_on=False,
    ),
    Sum(
        name="mean-interval",
        also=("confidence-interval", "interval"),
        title="Interval for a mean, from mean, standard deviation and count",
        inputs=(
            Input("mean", "mean", kind=Kind.FIGURE),
            Input("sd", "standard deviation, n − 1", kind=Kind.FIGURE,
                  accept=above(0), also=("s", "sigma", "standard-deviation")),
            Input("count", "readings", kind=Kind.COUNT, also=("n",)),
            CONFIDENCE,
            _REFERENCE,
        ),
        compute=_compute_interval,
        formula="mean ± t s / √n",
        source="NIST/SEMATECH e-Handbook 1.3.5.2 and 7.2.2",
        how="read",
        example={"mean": "9.26146", "sd": "0.02278881", "count": "195"},
        relied_on=False,
    ),
    Sum(
        name="student-t",
        also=("t-quantile", "t"),
        title="Quantile of Student's t",
        inputs=(
            Input("dof", "degrees of freedom", kind=Kind.NUMBER,
                  accept=above(0), also=("degrees-of-freedom", "df", "nu")),
            Input("coverage", "share covered, as 0.95", kind=Kind.NUMBER,
                  accept=between(0, 1), default="0.95", also=("confidence",),
                  share=True),
            SIDES,
        ),
        compute=_compute_student,
        formula="t with P(|T| < t) = coverage, or P(T < t) one-sided",
        source="JCGM 100:2008 Table G.2",
        how="read",
        example={"dof": "9"},
        relied_on=False,
    ),
)  # fmt: skip
