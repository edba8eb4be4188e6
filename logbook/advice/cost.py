"""What it would cost to be wrong: whether a piece is cheap to make again."""

from __future__ import annotations

from logbook.records.model import Part
from logbook.units import UNITS

CHEAP_SECONDS = 900
"""A quarter of an hour; common practice, no source."""
CHEAP_MONEY = 2
"""Units of any money; common practice, no source."""


def is_cheap(part: Part) -> bool:
    """Tell whether a part was said to be cheap to make again.

    Nothing said is not cheap: only what is known to cost little speaks softly.
    """
    told = part.remake
    if told is None or not told.stock_left or not (told.time or told.money):
        return False
    if told.time is not None and told.time.to("s") > CHEAP_SECONDS:
        return False
    if told.money is not None and UNITS[told.money.unit].dimension.startswith("money"):
        return told.money.value <= CHEAP_MONEY
    return True


def cost_words(part: Part) -> str:
    """Say what making it again was said to cost."""
    told = part.remake
    if told is None:
        return f"nobody said what another {part.title} costs"
    said = [str(one) for one in (told.time, told.money) if one]
    said += [] if told.stock_left else ["and there is no stock left"]
    return f"another {part.title} costs {', '.join(said) or 'little'}"
