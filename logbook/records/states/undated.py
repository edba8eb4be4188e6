"""A line without the words that count days back from when it was typed.

On a page they would count from whenever it is read. The record keeps them; what is told
of it stands under its day, or has the day beside it.
"""

from __future__ import annotations

import re

_HOW_MANY = (
    r"(?:[\d.,]+|half an|an?|a few|some|a couple of|two|three|four|five|six|ten|twenty)"
)
_DAY_BEFORE = re.compile(
    r"(?i)(?<!from )(?<!since )(?<!until )(?<!till )(?<!of )(?<!than )(?<!like )"
    r"(?<!as )(?:\bon )?\b(?:(?:the day before )?yesterday|last night|"
    rf"{_HOW_MANY} ?(?:min(?:ute)?|h(?:our)?|day|night|week)s?(?: and a half)? ago|"
    r"a (?:moment|while) ago)\b(?!['’])"
)
_OF_THAT_DAY = (
    r"(?:just now|right now|earlier today|today|tonight|"
    r"this (?:morning|afternoon|evening))"
)
_AT_AN_END = re.compile(rf"(?i)^{_OF_THAT_DAY}[,:]\s+|[\s,]+{_OF_THAT_DAY}(?=\.?$)")
"""Words of the day itself: inside a sentence they may be what it is about."""


def undated(line: str) -> str:
    """Give a line without such words; every other word stays, the hour too."""
    rest = _AT_AN_END.sub("", _DAY_BEFORE.sub("", line))
    if rest == line:
        return line
    rest = re.sub(r"\s+(?=[,;.])|(?<=\s)\s+", "", rest)
    rest = re.sub(r",+(?=,)", "", rest)
    return rest.strip().lstrip(",;:– ") or line
