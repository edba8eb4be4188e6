"""Revision labels: letters by ASME Y14.35 practice, or what the design uses.

The original issue is `-`; the first revision is A. I, O, Q, S, X and Z are not
used; after Y follows AA. A repository that already counts v1, v2 or rev 3 keeps
counting its own way.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

LETTERS = "ABCDEFGHJKLMNPRTUVWY"
ORIGINAL = "-"

_NUMBERED = re.compile(r"(?P<before>.*?)(?P<number>[0-9]+)(?P<after>[^0-9]*)")


def next_label(labels: Sequence[str]) -> str:
    """Give the label that follows those already used, in the order they came.

    A label that was used once is never given again.
    """
    if not labels:
        return ORIGINAL
    label = labels[-1]
    while label in labels:
        label = _successor(label)
    return label


def _successor(label: str) -> str:
    if label == ORIGINAL:
        return LETTERS[0]
    if label and all(letter in LETTERS for letter in label):
        return _next_letters(label)
    match = _NUMBERED.fullmatch(label)
    if match:
        number = str(int(match["number"]) + 1).zfill(len(match["number"]))
        return f"{match['before']}{number}{match['after']}"
    return f"{label}-2"


def _next_letters(label: str) -> str:
    rest, last = label[:-1], label[-1]
    if last != LETTERS[-1]:
        return rest + LETTERS[LETTERS.index(last) + 1]
    return (_next_letters(rest) if rest else LETTERS[0]) + LETTERS[0]


def label_words(label: str) -> str:
    """Give a label as it is said: “first issue”, “rev B”."""
    return "first issue" if label == ORIGINAL else f"rev {label}"
