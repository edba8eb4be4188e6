"""A line that only tells why the last failure came about, or what cures it."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import replace

from logbook.plain.answers.amended import OF_THAT, OWN_LINE, asked_to_amend
from logbook.plain.understanding import Doubt, Understanding
from logbook.records.kinds.happenings import Cause, Failure
from logbook.records.together.snapshot import Snapshot

_TELLS = re.compile(
    r"(?i)\s*(?:(?:cause|reason)\s*:|because(?! of\b)|(?P<cure>cure|fix|remedy)\s*:)"
    r"\s*(?P<said>\S.*)"
)


def held_to_untold(
    line: Understanding, snapshot: Snapshot, answered: Collection[str] = ()
) -> Understanding:
    """Give the line, asked first whether it is of the last failure that lacks it."""
    match = _TELLS.fullmatch(line.line)
    if match is None or line.amends is not None:
        return line
    said = match["said"].strip()
    for failure in reversed([e for e in snapshot.entries if isinstance(e, Failure)]):
        if failure.cure if match["cure"] else failure.cause:
            continue
        word = "cure" if match["cure"] else "cause"
        question = f"is that the {word} of “{failure.title}”?"
        if question in answered:
            return line
        told = (
            replace(failure, cure=said)
            if match["cure"]
            else replace(failure, cause=Cause(said=said))
        )
        doubt = Doubt("amend", question, (OF_THAT, OWN_LINE))
        return asked_to_amend(line, doubt, failure, told)
    return line
