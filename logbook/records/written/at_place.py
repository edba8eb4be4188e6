"""A place on a part as it is said behind a fact: at the corner screw, under the bed."""

from __future__ import annotations

import re

_BEGINS_PLACE = re.compile(
    r"(?i)(?:under|over|above|below|beneath|underneath|behind|between|inside|outside|in|"
    r"on|at|near|next|beside|along|across|through|around|round|against|from|within|"
    r"by|before|after|where|all|opposite the|halfway|close)\b"
)
_NAMED = re.compile(
    r"(?i)(?:(?:the|a|an|one|its|each|every|either|both|some)\b|[^\W\d]+ \d+$)"
)
"""Begins with its own “the”, or is one of several by its number: hole 3."""


def at_place(where: str) -> str:
    """Say where, by words that may bring their own “under” or “the”; empty of none."""
    if not where or _BEGINS_PLACE.match(where):
        return where
    return f"at {where}" if _NAMED.match(where) else f"at the {where}"
