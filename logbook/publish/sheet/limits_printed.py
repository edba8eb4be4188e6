"""Sizes and limits as a job sheet prints them: on one line, nothing in them unseen."""

from __future__ import annotations

from logbook.publish.pages import visible
from logbook.records.sizes.definition import NO_LIMITS, Dimension


def suit_words(rough: str, held: Dimension) -> str:
    """Say the sizes that what is made to suit is brought to, one after the other."""
    first = f"rough {rough}, " if rough else ""
    return f"to suit: {first}finish {held.nominal}"


def limits_words(drawn: Dimension) -> str:
    """Say what is accepted of a size, its unit named once."""
    by = f" by {drawn.limits_by}" if drawn.limits_by else ""
    if not drawn.has_limits:
        return NO_LIMITS
    if drawn.lower is None:
        return line_of(f"up to {drawn.upper}{by}")
    if drawn.upper is None:
        return line_of(f"from {drawn.lower}{by}")
    low = str(drawn.lower)
    if drawn.lower.unit == drawn.upper.unit and not drawn.upper.metal:
        low = low.removesuffix(drawn.upper.unit).rstrip()
    return line_of(f"{low} to {drawn.upper}{by}")


def line_of(words: str) -> str:
    """Give words as they are printed: on one line, nothing in them unseen."""
    return visible(" ".join(words.split()))
