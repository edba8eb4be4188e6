"""A line that only tells why the last failure came about, or what cures it."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import replace

from logbook.plain.answers.amended import OF_THAT, OWN_LINE, asked_to_amend
from logbook.plain.understanding import Doubt, Understanding
from logbook.records.kinds.happenings import Cause, Failure
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot

_TELLS = re.compile(
    r"(?i)\s*(?:(?:cause|reason)\s*:|because(?! of\b)|(?P<cure>cure|fix|remedy)\s*:)"
    r"\s*(?P<said>\S.*)"
)
_OF_ITS_FAILURE = re.compile(
    r"(?i)\s*(?:(?:i )?forgot(?: to say)?[:,]?\s+)?(?:the )?[^,;:.]+? (?:failure|crack|"
    r"split|break|fault|problem|leak|warp|sag|trouble|damage|dent|burn|scratch|rattle)"
    r" (?:was|were|is|comes|came)\s+(?P<said>(?:my|our|because of|due to|down to|from|"
    r"caused by|the)\b[^\d,;]*)(?:[,;].*)?"
)
"""The drawer crack was my clamping: of the failure of the drawer, and no second one."""


def held_to_untold(
    line: Understanding, snapshot: Snapshot, answered: Collection[str] = ()
) -> Understanding:
    """Give the line, asked first whether it is of the last failure that lacks it."""
    match = _TELLS.fullmatch(line.line)
    of_one = _OF_ITS_FAILURE.fullmatch(line.line) if match is None else None
    told = match or (of_one if line.facts.part else None)
    if told is None or line.amends is not None:
        return line
    said, cures = told["said"].strip(), match is not None and bool(match["cure"])
    for failure in reversed([e for e in snapshot.entries if isinstance(e, Failure)]):
        part = part_of(snapshot, failure)
        other = of_one is not None and (part is None or part.title != line.facts.part)
        if other or (failure.cure if cures else failure.cause):
            continue
        word = "cure" if cures else "cause"
        question = f"is that the {word} of “{failure.title}”?"
        if question in answered:
            return line
        amended = (
            replace(failure, cure=said)
            if cures
            else replace(failure, cause=Cause(said=said))
        )
        doubt = Doubt("amend", question, (OF_THAT, OWN_LINE))
        return asked_to_amend(line, doubt, failure, amended)
    return line
