"""What it would cost to be wrong, and how strongly advice speaks by that.

A part that is quick and cheap to make again gets remarks only; one that is dear,
or of which there is no stock left to try again, is waited for.
"""

from __future__ import annotations

from logbook.records.kinds.design import Part
from logbook.records.kinds.words import Grade
from logbook.units import UNITS

CHEAP_SECONDS = 900
"""A quarter of an hour; common practice, no source."""
CHEAP_MONEY = 2
"""Units of any money; common practice, no source."""
DEAR_SECONDS = 1800
"""Half an hour; common practice, no source."""
DEAR_MONEY = 10
"""Units of any money; common practice, no source."""


def is_cheap(part: Part) -> bool:
    """Tell whether a part was said to be cheap to make again.

    Nothing said is not cheap: only what is known to cost little speaks softly.
    """
    told = part.remake
    if told is None or not told.stock_left or not (told.time or told.money):
        return False
    return not _beyond(part, CHEAP_SECONDS, CHEAP_MONEY)


def is_dear(part: Part) -> bool:
    """Tell whether a part was said to cost much, or to be the last of its stock."""
    told = part.remake
    if told is None:
        return False
    return not told.stock_left or _beyond(part, DEAR_SECONDS, DEAR_MONEY)


def _beyond(part: Part, seconds: float, money: float) -> bool:
    """Tell whether time or money is above a bound; another unit is no bound."""
    told = part.remake
    assert told is not None
    timed = told.time is not None and told.time.dimension == "time"
    if timed and told.time is not None and told.time.to("s") > seconds:
        return True
    if told.money is None:
        return False
    in_money = UNITS[told.money.unit].dimension.startswith("money")
    return in_money and told.money.value > money


def weighed(part: Part | None, usual: Grade) -> Grade:
    """Give how strongly advice about a part speaks, `usual` where no cost was said.

    Cheap is a remark. What would otherwise be checked waits where it is dear; what
    would wait is only checked where it is neither. A remark stays one.
    """
    if part is None or part.remake is None or usual is Grade.REMARK:
        return usual
    if is_cheap(part):
        return Grade.REMARK
    return Grade.WAIT if is_dear(part) else Grade.CHECK


def cost_words(part: Part) -> str:
    """Say what making it again was said to cost."""
    told = part.remake
    if told is None:
        return f"nobody said what another {part.title} costs"
    said = [str(one) for one in (told.time, told.money) if one]
    if not told.stock_left:
        return f"there is no stock left for another {part.title}"
    return f"another {part.title} costs {', '.join(said) or 'little'}"
