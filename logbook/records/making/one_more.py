"""Whether words of work make one more piece of a part, or the same one anew."""

from __future__ import annotations

import re

_ONE_MORE = re.compile(
    r"(?i)\b(?:reprinted|remade|(?<!to )recast|had to (?:reprint|remake|recast)|"
    r"(?:printed|made|cast|cut|sawed|folded|milled|turned|sewed|sewn|welded|soldered|"
    r"bent|forged|carved|moulded|molded|wound|lasered|routed|laminated|built|crimped|"
    r"punched) (?P<new>another|a (?:new|second|third))"
    r"(?! (?:hole|slot|thread|chamfer|notch)))\b"
)
_LEADS_ELSEWHERE = "in|on|for|of|to|into|onto|from|through|at|under|with"
"""What may not stand between “new” and the thing: it is then new in or on that."""


def makes_one_more(words: str, part: str = "") -> bool:
    """Tell whether words of work make one more piece; rework makes the same anew.

    Of `part`, where it is given: a new pocket in the base is no new base.
    """
    found = _ONE_MORE.search(words)
    if found is None or not found["new"] or not part:
        return found is not None
    name = re.escape(part.rsplit(maxsplit=1)[-1])
    led = rf"(?:\s+(?!(?:{_LEADS_ELSEWHERE})\b)[\w-]+){{0,3}}?"
    behind = rf"(?i){led}\s+(?:one|{name})s?\b"
    return re.match(behind, words[found.end() :]) is not None
