"""A value written with no more figures than its uncertainty allows."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal, localcontext

from logbook.errors import BadInput
from logbook.quantity import LONGEST_INPUT
from logbook.shop.answers import Answer, Result
from logbook.shop.given import READING, Given, Input, Kind, above, at_least
from logbook.shop.measuring.rounding import decimal, to_figures
from logbook.shop.sums import Sum


def rounded(value: Decimal, uncertainty: Decimal, figures: int = 2) -> tuple[str, str]:
    """Write a value and its uncertainty with as many figures (JCGM 100, 7.2.6).

    The value is rounded to the place of the uncertainty, ties to even on the
    decimals as typed.

    Raises:
        BadInput: an uncertainty not above 0, or no figure wanted.
    """
    if not (uncertainty.is_finite() and value.is_finite()) or uncertainty <= 0:
        raise BadInput("no finite value with an uncertainty above 0; accepted: such")
    if figures < 1:
        raise BadInput(f"found {figures} figures; accepted: 1 or more, usually 2")
    cut = to_figures(uncertainty, figures)
    step = Decimal(1).scaleb(min(cut.adjusted() - figures + 1, 0))
    with localcontext() as context:
        context.prec = 4 * LONGEST_INPUT  # whatever was typed, no digit is lost
        near = value.quantize(cut, ROUND_HALF_EVEN)
        return f"{near.quantize(step):f}", f"{cut.quantize(step):f}"


def _compute_rounded(given: Given) -> Answer:
    value, spread = (decimal(given.exact(name)) for name in ("value", "uncertainty"))
    shown, cut = rounded(value, spread, given.count("figures"))
    return Answer(
        (
            Result("value", shown, READING, 0, "value to the place of its uncertainty"),
            Result("uncertainty", cut, READING, 0, "uncertainty"),
        )
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        name="report-value",
        also=("round-to-uncertainty",),
        title="A value with no more figures than its uncertainty allows",
        inputs=(
            Input("value", "value", kind=Kind.FIGURE),
            Input("uncertainty", "its uncertainty", kind=Kind.FIGURE,
                  accept=above(0), also=("u",)),
            Input("figures", "figures of the uncertainty", kind=Kind.COUNT,
                  accept=at_least(1, 6), default="2"),
        ),
        compute=_compute_rounded,
        formula="both to the place of the uncertainty's last figure, ties to even",
        source="JCGM 100:2008, 7.2.6",
        how="read",
        example={"value": "10.05762", "uncertainty": "0.027"},
        relied_on=False,
    ),
)  # fmt: skip
