"""Words that are told as done: “drilled it to 6.5”, no “drill it” and no “slotted”."""

from __future__ import annotations

import re

_DONE = re.compile(
    r"(?i)(?!(?:embed|shed|shred|sled)\b)"
    r"(?:\w+[^\We]ed|(?:re)?made|took|bent|(?:re)?drew|bought|(?:re)?built)\b"
)
"""The first word of what is told as done; “feed” and “need” are none."""
_TO_IT = re.compile(r"(?i)\w+\s+(?:it|them|this|that|the|a|an|both|all|my|our)\b")
"""What a past tense was done to: “drilled it”; “slotted holes” are only so called."""


def is_told_done(words: str) -> bool:
    """Tell whether words begin with what was done."""
    return _DONE.match(words) is not None


def says_to_what(words: str) -> bool:
    """Tell whether what it is done to stands behind the first word."""
    return _TO_IT.match(words) is not None
