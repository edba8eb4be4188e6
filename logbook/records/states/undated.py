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
_MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|march|(?-i:Mar)|apr(?:il)?|(?-i:May)|june?|july?|"
    r"aug(?:ust)?|"
    r"sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\.?"
)
_ORDINAL = r"\d{1,2}(?:st|nd|rd|th)?"
_WEEKDAY = r"(?:(?:last )?(?:mon|tues|wednes|thurs|fri|satur|sun)day)"
_DAY = (
    r"(?:\d{4}-\d\d-\d\d|\d{1,2}\.\d{1,2}\.\d{4}|"
    rf"(?:{_WEEKDAY},? )?(?:the )?{_ORDINAL}(?: of)? {_MONTH}(?:,? \d{{4}})?|"
    rf"{_MONTH} {_ORDINAL}(?:, \d{{4}})?|{_WEEKDAY})"
)
_HOUR = (
    r"(?:(?:[01]?\d|2[0-3]):[0-5]\d(?::[0-5]\d)?(?: ?[ap]m)?|"
    r"(?:1[0-2]|[1-9]) ?[ap]m)(?!\w)"
)
_MOMENT = rf"(?:{_DAY}(?:(?:T|,? (?:(?:at|around) )?){_HOUR})?|{_HOUR})"
_FIRST_TOLD = re.compile(
    rf"(?i)^(?:on |at )?{_MOMENT}\s*[,:–-]?\s+"
    r"(?!(?:to|till|until|and|or|print)\b|[\d–-])"
)
"""Not a span, 9:15 to 9:35, and no time it took: 3:20 print time."""
_LAST_TOLD = re.compile(
    rf"(?i)(?:,? on |, (?=\S* ?\d)){_DAY}(?:(?:T|,? (?:at )?){_HOUR})?(?=\.?$)"
)
"""A day at the end is when it happened where “on” or a comma leads to it."""
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


_FIRST_DAY = re.compile(
    rf"(?i)^(?:on )?{_DAY}(?:T(?=\d)|[,:]?\s+(?:at )?)"
    r"(?!(?:to|till|until|and|or)\b|[–-])"
)


def under_its_day(line: str) -> str:
    """Give a line without the day it begins with; of what stands under that day.

    The hour stays: 8 Nov 14:00 knob split, told as 14:00 knob split.
    """
    rest = undated(line)
    told = _FIRST_DAY.sub("", rest)
    return told if len(told.split()) >= _SAYS_SOMETHING else rest


def of_no_day(line: str) -> str:
    """Give a line without the day and the hour it begins or ends with, either as typed.

    8 Nov 14:00 knob split; for a heading, whose day stands elsewhere or is of no
    interest to who reads it.
    """
    rest = undated(line)
    told = _LAST_TOLD.sub("", _FIRST_TOLD.sub("", rest))
    return told if len(told.split()) >= _SAYS_SOMETHING else rest


_SAYS_SOMETHING = 2
"""Words a line still has without its day; a shorter one would say nothing."""
