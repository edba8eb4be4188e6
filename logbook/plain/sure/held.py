"""A line that tells of a part that it held: drove the screw in, it held."""

from __future__ import annotations

import re

_HELD = re.compile(
    r"(?i)(?:^|[,;.:]\s*|\b(?:and|but)\s+)(?:now\s+|this time\s+)?"
    r"(?:it|they)(?:\s+(?:has|have|all|both))*(?:\s+(?:held|still\s+h(?:eld|olds?)))"
    r"(?:\s+(?:up|fine|well|so far|this time|now))*\s*(?:$|[.,;!])"
)
_UNSURE = re.compile(
    r"(?i)\b(?:if|hope|hoped|hoping|whether|until|till|unless|maybe|perhaps|think|"
    r"thought|seems?|guess|would|should|could|might|not)\b|\?"
)


def says_held(line: str) -> bool:
    """Tell whether a clause says that something held, and no more of it.

    Not of what held a while or held something else, nor of what is hoped or unseen.
    """
    return _HELD.search(line) is not None and _UNSURE.search(line) is None
