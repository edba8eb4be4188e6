"""The questions of what an act goes past, the same on every screen: see `GoingPast`."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import shorten

from logbook.advice.steps.going_past import Ask, GoingPast
from logbook.advice.steps.passing import Reasons
from logbook.advice.steps.ticks import Tick
from logbook.screens.ruled.asking import Question

DONE = "done"
NOT_DONE = "not done"
NOT_YET = "not done yet"
NO_REASON = "no reason given, so it is not done yet"
TICKED = "ticked"
MOST_SAID = 280
"""Signs of what waits in a question; more would push its answers off a low screen."""


def past_question(past: GoingPast, stays: str = "") -> Question | None:
    """Give the question of what an act goes past that comes next, while one is.

    `stays` says what becomes of what was typed where it is not done yet.
    """
    match past.asks:
        case Ask.WHETHER:
            return about_waits(past.against, stays)
        case Ask.WHY:
            return why_past(past.reasons)
        case Ask.TICK:
            return to_tick(past.ticks, len(past.looked_at))
    return None


def answer_past(past: GoingPast, about: str, words: str | None) -> str:
    """Take the answer to it; give why it is not done, nothing where that goes on."""
    if words is None:
        return NOT_YET
    if about == "past":
        past.done = words == DONE
        return "" if past.done else NOT_YET
    if about == "why":
        return "" if past.reasoned(words) else NO_REASON
    past.looked_at.append(words == TICKED)
    return ""


def about_waits(statements: Sequence[str], stays: str = "") -> Question:
    """Ask whether it was done past what waits."""
    keys = {"1": ("it was done all the same", DONE), "2": (NOT_YET, NOT_DONE)}
    most = MOST_SAID // max(len(statements), 1)
    said = " · ".join(shorten(one, most, placeholder=" …") for one in statements)
    resting = "; ".join(filter(None, (NOT_YET, stays)))
    return Question(said, keys, resting, about="past")


def to_tick(ticks: Sequence[Tick], at: int) -> Question:
    """Ask for the one of these ticks that comes next."""
    words = f"{at + 1} of {len(ticks)}  {ticks[at].question}"
    keys = {"y": ("yes, tick it", TICKED), "n": ("no", "")}
    return Question(words, keys, "not yet", about="tick")


def why_past(reasons: Reasons) -> Question:
    """Ask why it may go on past what waits; words are a reason too, Enter is none."""
    keys = {key: (words, words) for key, (words, _) in reasons.items()}
    return Question("why?", keys, "no reason, not yet", open_ended=True, about="why")
