"""How many pieces to make so that enough turn out good."""

from __future__ import annotations

import math

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.given import Given, Input, Kind, above, at_least, between
from logbook.shop.sums import Sum

MOST_PIECES = 100_000


def pieces_to_make(wanted: int, good: float, chance: float) -> int:
    """Give the fewest pieces that leave `wanted` good ones with this chance.

    Raises:
        BadInput: it would take more than 100 000.
    """
    made = wanted
    while chance_of_too_few(made, wanted, good) > 1 - chance:
        made += max(1, int(wanted * (1 - good) / (10 * good)))
        if made > MOST_PIECES:
            raise BadInput(
                f"good: found {good:.3g}, which takes more than {MOST_PIECES} pieces; "
                "accepted: a better process, or fewer pieces"
            )
    while made > wanted and chance_of_too_few(made - 1, wanted, good) <= 1 - chance:
        made -= 1
    return made


def chance_of_too_few(made: int, wanted: int, good: float) -> float:
    """Give the chance of fewer than `wanted` good ones, without overflow."""
    if good >= 1:
        return 0.0
    total = 0.0
    for k in range(wanted):
        log = math.lgamma(made + 1) - math.lgamma(k + 1) - math.lgamma(made - k + 1)
        total += math.exp(log + k * math.log(good) + (made - k) * math.log1p(-good))
    return min(total, 1.0)


def _spares(given: Given) -> Answer:
    wanted, good = given.count("wanted"), given.number("good") / 100
    chance = given.number("chance") / 100
    made = pieces_to_make(wanted, good, chance)
    sure = 1 - chance_of_too_few(made, wanted, good)
    return Answer(
        (
            Result("make", made, "pcs", 0, "in all"),
            Result("spares", made - wanted, "pcs", 0, "of them spare"),
            Result("chance", 100 * sure, "%", 1, "of having enough"),
            Result("expected_good", made * good, "pcs", 1),
        ),
        assumptions=("pieces fail independently; a wrong setting fails them all",),
    )


SUMS = (
    Sum(
        name="spares",
        title="How many to make so that enough are good",
        inputs=(
            Input("wanted", "good pieces", kind=Kind.COUNT, accept=at_least(1, 10_000)),
            Input(
                "good",
                "share that turns out good",
                "%",
                accept=above(0, 100),
                also=("yield",),
                share=True,
            ),
            Input(
                "chance",
                "of having enough",
                "%",
                accept=between(0, 100),
                default="95 %",
                also=("confidence",),
                share=True,
            ),
        ),
        compute=_spares,
        formula="fewest n with P(binomial(n, good) >= wanted) >= chance",
        source="binomial distribution",
        how="computed",
        example={"wanted": "4", "good": "80 %"},
        also=("yield",),
    ),
)
