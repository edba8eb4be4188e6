"""For which builds a declared hold stands: where its end is a day, for one only.

“Until tomorrow 9:00” is the glue of that day. “12 h”, or “the lamp lights”, is for
whoever does the step.
"""

from __future__ import annotations

import re

from logbook.records.kinds.assembling import Hold
from logbook.records.kinds.workshop import Build
from logbook.records.together.snapshot import Snapshot

_MONTHS = r"(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*"
_DAY = re.compile(
    r"(?i)\b(?:today|tonight|tomorrow|(?:mon|tues|wednes|thurs|fri|satur|sun)day|"
    r"week-?end|(?:this|in the) (?:morning|afternoon|evening)|"
    r"next (?:week|month)|noon|midnight|\d{4}-\d\d-\d\d|\d{1,2}:\d\d|"
    r"\d{1,2} ?[ap]m|\d{1,2} o'?clock|"
    rf"\d{{1,2}}(?:st|nd|rd|th|\.)? (?:of )?{_MONTHS}|{_MONTHS} \d{{1,2}})\b"
)

_SO_LONG = re.compile(r"(?i)\d+(?:[.,]\d+)? ?(?:h|hours?|min(?:utes)?|days?|weeks?)\b")


def is_of_a_day(until: str) -> bool:
    """Tell whether words name a day or an hour, which come once."""
    return _DAY.search(until) is not None


def until_words(hold: Hold) -> str:
    """Say how long it holds: until the lamp lights, for 12 h; empty where unsaid."""
    until = hold.until.strip().removeprefix("until ")
    led = "for" if _SO_LONG.match(until) else "until"
    return f"{led} {until}" if until else ""


def holds_in(snapshot: Snapshot, hold: Hold, build: Build | None) -> bool:
    """Tell whether a hold stands in a build; in that at hand where there is none.

    One that names no build, as records once did, is of those begun before its day.
    """
    own = snapshot.find(hold.build, Build)
    if own is not None or build is None:
        return own is None or build is None or own is build
    return not (is_of_a_day(hold.until) and hold.when < build.when)


def holds_for_all(hold: Hold) -> bool:
    """Tell whether a hold stands for whoever builds it, and is theirs to know."""
    return hold.build is None and not is_of_a_day(hold.until)
