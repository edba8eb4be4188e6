"""Words that tell what came of a cure: “it holds now”, “held for an hour”."""

from __future__ import annotations

import re

_HELD = re.compile(
    r"(?i)\b(?:fixed|cured|solved|stopped|settled)\s+(?:it|that|this|them)\b|"
    r"\bhelped\b|"
    r"\b(?:works|holds|fits|runs|slides|turns|moves|spins|sits|stays|closes)\s+"
    r"(?:(?:free|freely|smooth|smoothly|true|quiet|quietly|straight|flush|tight)\s*)?"
    r"(?:now|again|fine|well|since)\b|"
    r"\b(?:runs|slides|turns|moves|spins|sits|stays)\s+"
    r"(?:free|freely|smooth|smoothly|true|quiet|quietly|straight|flush|tight)\s*[.!]?$|"
    r"(?:[,;]|\band|\d\S*(?:\s\S{1,3})?)\s+(?:(?:it|this|that)\s+(?:fits|fitted)|"
    r"(?:(?:it|this|that)\s+)?(?:holds|held|works|worked)|they\s+(?:hold|work|fit)|"
    r"(?:it|this|that)\s+(?:lights|lit|seals|sealed|latches|clicks|charges|starts|heats|"
    r"cools|closes|opens|goes\s+(?:in|on|over|through)))(?:\s+(?:up|now|again))?"
    r"\s*[.!]?$"
)
"""The last stands at the end: “press it till it holds” only says what to do."""
_TRIED = re.compile(r"(?i)\b(?:held|worked|ran)\s+(?:for|since|all)\b")
_BEGINS = re.compile(
    r"(?i)(?:and\s+)?(?:(?:it|this|that|they)\s+)?(?:now\s+)?"
    r"(?:held|holds?|works?|worked|fits?|fitted|ran|runs|slides|turns|moves|spins|sits|"
    r"stays|closes|helped|lights|lit|seals|sealed|latches|clicks|charges|starts|heats|"
    r"cools|opens|goes)\b"
)
_NOT = re.compile(
    r"(?i)\b(?:not|never|no|nothing|hardly|barely|only|just|should|would|may|might|"
    r"until|till|then|but|before)\b|n't\b"
)


def says_held(words: str) -> bool:
    """Tell whether words say that something helped: “a rubber strip fixed it”."""
    helped = _HELD.search(words) or _TRIED.search(words)
    return helped is not None and not _NOT.search(words)


def was_tried(words: str) -> bool:
    """Tell whether words say that it was tried for some time, whatever came of it."""
    return _TRIED.search(words) is not None


def tells_of_outcome(clause: str) -> bool:
    """Tell whether a clause behind a cure says what came of it, and that it held."""
    begins = _BEGINS.match(clause) is not None
    return begins and says_held(f", {clause}")
