"""Accept, reject, or too close to call, as sums."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.digits import decimals, spread_places
from logbook.shop.fitting.decision import (
    Decision,
    Limits,
    conformance_probability,
    decide,
    guard_factor,
)
from logbook.shop.given import READING, Given, Input, Kind, Range, above, at_least
from logbook.shop.sums import Sum


def _limits_of(given: Given) -> Limits:
    """Give the limits typed, or those of a nominal size and its ± tolerance."""
    lower = given.exact("lower") if given.has("lower") else None
    upper = given.exact("upper") if given.has("upper") else None
    if given.has("nominal") != given.has("tolerance"):
        raise BadInput(
            "a nominal size and a tolerance go together; accepted: both, or limits"
        )
    if given.has("nominal"):
        if lower is not None or upper is not None:
            raise BadInput(
                "limits and a tolerance were both given; accepted: one of the two"
            )
        nominal, half = given.exact("nominal"), given.exact("tolerance")
        lower, upper = nominal - half, nominal + half
    return Limits(lower, upper)


def _uncertainty_of(given: Given) -> Fraction:
    """Give U as typed by itself, or as the ± behind the reading."""
    with_reading = given.values["measured"][0].uncertainty
    if given.has("uncertainty") and with_reading:
        raise BadInput(
            "the uncertainty is given twice, behind the reading and by itself; "
            "accepted: once"
        )
    return given.exact("uncertainty") if given.has("uncertainty") else with_reading


def _compute(given: Given) -> Answer:
    limits, wide = _limits_of(given), _uncertainty_of(given)
    measured = given.exact("measured")
    guard = given.exact("guard_band") if given.has("guard_band") else None
    typed = [wide, guard or Fraction(0), limits.lower or wide, limits.upper or wide]
    places = max(decimals(one) for one in (measured, *typed))
    found = decide(measured, limits, wide, guard)
    results = [
        Result("verdict", found.verdict.value, "", 0, "the reading as it stands"),
        Result("too_close_to_call", found.too_close, "", 0, "a limit is within U"),
        Result("proof", found.proof.value, "", 0, "with the guard band (ISO 14253-1)"),
        Result("statement", found.statement.value, "", 0, "as ILAC-G8 words it"),
        Result("guard_band", float(found.guard), READING, places, "width on each side"),
    ]
    results += _zones(found, places)
    if wide:
        chance = conformance_probability(
            float(measured),
            float(wide) / 2,
            *(
                None if one is None else float(one)
                for one in (limits.lower, limits.upper)
            ),
        )
        results.append(
            Result("conformance_probability", chance, "", 3, "JCGM 106 clause 7, k = 2")
        )
    warnings = (
        ("No uncertainty was given, so nothing is proved by this reading.",)
        if not wide and guard is None
        else ()
    )
    return Answer(tuple(results), warnings=warnings, assumptions=_assumed(guard))


def _zones(found: Decision, places: int) -> Iterator[Result]:
    """Give the ends within which it conforms, and beyond which it does not."""
    names = (
        ("acceptance", found.accepted, "conformity is proved"),
        ("rejection", found.rejected, "outside this, nonconformity is proved"),
    )
    for name, zone, what in names:
        for side, limit in zip(("low", "high"), zone, strict=True):
            if limit is not None:
                shown = what if name == "rejection" else f"{side} end: {what}"
                yield Result(f"{name}_{side}", float(limit), READING, places, shown)


def _assumed(guard: Fraction | None) -> tuple[str, ...]:
    width = "w = U, the default here" if guard is None else "w as given"
    return (f"guard band on each side: {width}", "a normal spread with u = U / 2")


def _compute_guard(given: Given) -> Answer:
    factor = guard_factor(given.number("probability"))
    results = [
        Result(
            "factor", factor, "", 4, "guard band in standard uncertainties, one-sided"
        )
    ]
    if given.has("standard_uncertainty"):
        width = factor * given.number("standard_uncertainty")
        results.append(
            Result("guard_band", width, "mm", spread_places(width, 4), "guard band")
        )
    return Answer(tuple(results))


def _compute_probability(given: Given) -> Answer:
    chance = conformance_probability(
        given.number("measured"),
        given.number("standard_uncertainty"),
        given.maybe("lower"),
        given.maybe("upper"),
    )
    return Answer(
        (
            Result("conformance_probability", chance, "", 4, "chance of being within"),
            Result("out", 1 - chance, "", 4, "chance of being outside"),
        )
    )


_MEASURED = Input(
    "measured",
    "the reading; ± behind it is its U",
    "mm",
    kind=Kind.FIGURE,
    also=("reading", "value"),
    uses_spread=True,
)


_LOWER = Input(
    "lower",
    "lower limit",
    "mm",
    kind=Kind.FIGURE,
    optional=True,
    also=("lower-limit", "min", "low"),
)


_UPPER = Input(
    "upper",
    "upper limit",
    "mm",
    kind=Kind.FIGURE,
    optional=True,
    also=("upper-limit", "max", "high"),
)


_STANDARD = ("u", "standard-u")


SUMS: tuple[Sum, ...] = (
    Sum(
        name="accept-or-reject",
        also=("decision", "decision-rule", "iso14253", "conformity"),
        title="Accept, reject or too close to call, with and without a guard band",
        inputs=(
            _MEASURED,
            _LOWER,
            _UPPER,
            Input(
                "nominal", "nominal size, instead of limits", "mm", kind=Kind.FIGURE,
                optional=True, also=("size", "drawn"),
            ),
            Input(
                "tolerance", "its ± tolerance", "mm", kind=Kind.FIGURE,
                accept=at_least(0), optional=True, also=("tol", "plus-minus"),
            ),
            Input(
                "uncertainty", "expanded uncertainty U (k = 2) of the reading", "mm",
                kind=Kind.FIGURE, accept=at_least(0), optional=True,
                also=("expanded-uncertainty", "U", "expanded-u"),
            ),
            Input(
                "guard_band", "width w of the guard band on each side; U without one",
                "mm", kind=Kind.FIGURE, accept=at_least(0), optional=True,
                also=("guard", "w"),
            ),
        ),
        compute=_compute,
        formula="conforms inside limits shrunk by w; does not conform outside limits "
        "widened by w; else not proven",
        source="ISO 14253-1 (w = U); JCGM 106:2012 clauses 7 and 8; ILAC-G8:09/2019",
        how="read",
        caution="The 2017 edition of ISO 14253-1 sets a default probability of 95 %; "
        "the width in force is what you and the other side agreed on.",
        example={
            "measured": "178.46 mm", "lower": "178.18 mm", "upper": "178.50 mm",
            "uncertainty": "0.04 mm",
        },
    ),
    Sum(
        name="conformance-probability",
        also=("jcgm106",),
        title="Chance that the true value is within its limits",
        inputs=(
            Input("measured", "reading", kind=Kind.FIGURE, also=("value", "reading")),
            Input(
                "standard_uncertainty", "standard uncertainty u",
                kind=Kind.FIGURE, accept=above(0), also=_STANDARD,
            ),
            Input(
                "lower", "lower limit", kind=Kind.FIGURE, optional=True,
                also=("lower-limit", "min", "low"),
            ),
            Input(
                "upper", "upper limit", kind=Kind.FIGURE, optional=True,
                also=("upper-limit", "max", "high"),
            ),
        ),
        compute=_compute_probability,
        formula="p = Φ((upper − y)/u) − Φ((lower − y)/u)",
        source="JCGM 106:2012 clause 7",
        how="memory",
        example={"measured": "-5.47", "standard_uncertainty": "0.05", "upper": "-5.4"},
    ),
    Sum(
        name="guard-band",
        also=("guard-band-factor",),
        title="Guard band for a wanted conformance probability, one limit",
        inputs=(
            Input(
                "probability", "wanted conformance probability", kind=Kind.NUMBER,
                accept=Range(0.5, 1, high_out=True), share=True,
                also=("conformance-probability", "required-conformance-probability"),
            ),
            Input(
                "standard_uncertainty", "standard uncertainty u", "mm",
                accept=above(0), optional=True, also=_STANDARD,
            ),
        ),
        compute=_compute_guard,
        formula="w = Φ⁻¹(p) × u",
        source="JCGM 106:2012 Table 1",
        how="memory",
        example={"probability": "0.95", "standard_uncertainty": "0.02 mm"},
    ),
)  # fmt: skip
