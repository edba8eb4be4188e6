"""Rounding as standards mean it: on the decimals as written, ties to even.

Binary numbers round 2.675 to 2.67, because they hold a little less; on paper it
is a tie. Comparing a rounded reading with its limit (ASTM E29) can give another
verdict than comparing it as read, so both are shown.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Decimal, localcontext
from fractions import Fraction

from logbook.decimal_text import plain_number
from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.given import POSITIVE, Given, Input, Kind, at_least
from logbook.shop.sums import Sum

MOST_FIGURES = 30
DENOMINATORS = ("2", "4", "8", "16", "32", "64", "128")


def decimal(value: Fraction) -> Decimal:
    """Give an exact value as a decimal of at most 60 digits."""
    with localcontext() as context:
        context.prec = 60
        return Decimal(value.numerator) / Decimal(value.denominator)


def to_figures(value: Decimal, figures: int) -> Decimal:
    """Round to so many significant figures, ties to even (NIST SP 811 B.7.1).

    Raises:
        BadInput: a number of figures outside 1 to 30.
    """
    if not 1 <= figures <= MOST_FIGURES:
        raise BadInput(f"found {figures} figures; accepted: 1 to {MOST_FIGURES}")
    if not value:
        return value
    place = value.adjusted() - figures + 1
    with localcontext() as context:
        context.prec = 80
        cut = value.quantize(Decimal(1).scaleb(place), ROUND_HALF_EVEN)
        if cut.adjusted() > value.adjusted():
            cut = cut.quantize(Decimal(1).scaleb(place + 1), ROUND_HALF_EVEN)
    return cut


def to_step(value: Fraction, step: Fraction) -> Fraction:
    """Round to the nearest multiple of a step, ties to the even multiple.

    Raises:
        BadInput: a step that is not above 0.
    """
    if step <= 0:
        raise BadInput("found a step of 0 or less; accepted: more than 0")
    return round(value / step) * step


@dataclass(frozen=True, slots=True)
class Compared:
    """A reading against one limit by both methods of ASTM E29."""

    rounded: Fraction
    by_rounding: bool
    absolute: bool


def compare(
    observed: Fraction, limit: Fraction, step: Fraction, *, upper: bool
) -> Compared:
    """Compare a reading with its limit, rounded to `step` and as read."""
    near = to_step(observed, step)
    if upper:
        return Compared(near, near <= limit, observed <= limit)
    return Compared(near, near >= limit, observed >= limit)


def nearest_fraction(inches: Fraction, finest: int) -> tuple[Fraction, Fraction]:
    """Give the nearest fraction of an inch, and fraction less value."""
    near = to_step(inches, Fraction(1, finest))
    return near, near - inches


def mixed(value: Fraction) -> str:
    """Write a fraction as a rule shows it: 1 3/16."""
    whole, rest = divmod(abs(value), 1)
    sign = "-" if value < 0 else ""
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{f'{whole} ' if whole else ''}{rest.numerator}/{rest.denominator}"


def _compute_figures(given: Given) -> Answer:
    cut = to_figures(decimal(given.exact("value")), given.count("figures"))
    return Answer(
        (Result("text", f"{cut:f}", "", 0, "rounded, zeros that count kept"),)
    )


def _compute_compare(given: Given) -> Answer:
    step = given.exact("step")
    found = compare(
        given.exact("observed"),
        given.exact("limit"),
        step,
        upper=given.word("side") == "max",
    )
    apart = found.by_rounding != found.absolute
    return Answer(
        (
            Result(
                "rounded", plain_number(found.rounded), "", 0, "the reading rounded"
            ),
            Result("conforms", found.by_rounding, "", 0, "rounding method"),
            Result("absolute_conforms", found.absolute, "", 0, "absolute method"),
        ),
        warnings=("The two methods disagree: say which is in force.",) if apart else (),
    )


def _compute_fraction(given: Given) -> Answer:
    inches = given.exact("length") / Fraction(254, 10)
    near, off = nearest_fraction(inches, int(given.word("finest")))
    return Answer(
        (
            Result("nearest", mixed(near), "", 0, "nearest fraction of an inch"),
            Result("error", float(off), "inch", 6, "fraction less length"),
            Result("error_mm", float(off * Fraction(254, 10)), "mm", 3, "the same"),
            Result("exact", mixed(inches), "", 0, "the length itself, in inches"),
            Result("inches", float(inches), "inch", 6, "the length itself"),
            Result("length_mm", float(given.exact("length")), "mm", 6, "and in mm"),
        )
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        name="round-figures",
        also=("significant-figures", "round"),
        title="Round to significant figures, ties to even",
        inputs=(
            Input("value", "value as written", kind=Kind.NUMBER),
            Input("figures", "significant figures", kind=Kind.COUNT,
                  accept=at_least(1, MOST_FIGURES), also=("significant_figures",)),
        ),
        compute=_compute_figures,
        formula="nearest decimal; a tie goes to the even digit, judged on the decimals",
        source="NIST SP 811 B.7.1",
        how="read",
        example={"value": "6.9749515", "figures": "5"},
        relied_on=False,
    ),
    Sum(
        name="compare-rounded",
        also=("e29", "astm-e29"),
        title="A reading against its limit, rounded and as read",
        inputs=(
            Input("observed", "reading", kind=Kind.NUMBER, also=("reading",)),
            Input("limit", "limit", kind=Kind.NUMBER, also=("specified",)),
            Input("side", "which limit", kind=Kind.CHOICE, choices=("min", "max"),
                  words={"lower": "min", "upper": "max", "at least": "min",
                         "at most": "max"}),
            Input("step", "place to round to, as 1 or 0.1", kind=Kind.NUMBER,
                  accept=POSITIVE, default="1", also=("round_to",)),
        ),
        compute=_compute_compare,
        formula="rounding method: the reading rounded to the step, ties to even, "
        "against the limit; absolute method: the reading itself",
        source="ASTM E29",
        how="memory",
        example={"observed": "56.6", "limit": "57", "side": "min"},
    ),
    Sum(
        name="nearest-fraction",
        also=("inch-fraction", "inches"),
        title="A length as the nearest fraction of an inch",
        inputs=(
            Input("length", "length", "mm"),
            Input("finest", "finest division of the rule", kind=Kind.CHOICE,
                  choices=DENOMINATORS, default="64", also=("finest_denominator",)),
        ),
        compute=_compute_fraction,
        formula="1 in = 25.4 mm exactly; nearest multiple of 1 / finest",
        source="NIST SP 811 B.8",
        how="read",
        example={"length": "0.394 in"},
        relied_on=False,
    ),
)  # fmt: skip
