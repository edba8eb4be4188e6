"""Which part “it” is, in a line that names none: reworked it, cracked again.

At the bench it is what was told of last. That is offered and never assumed: between two
lines another part may have been taken in hand.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import replace

from logbook.plain.understanding import (
    NO_PART,
    Doubt,
    Kind,
    Understanding,
    Verdict,
)
from logbook.records.together.once import once
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot

_OF = (Kind.DISPOSITION, Kind.FAILURE, Kind.READING, Kind.STEP)
_PRONOUN = re.compile(r"(?i)\b(?:it|them)\b")
_MEANT = re.compile(r"(?i)\b(?:it|them|again)\b")
_MOST = 3
_RECENT = 50
"""So many entries back a part may be meant that was not named again."""


def held_to_it(
    line: Understanding, snapshot: Snapshot, answered: Collection[str] = ()
) -> Understanding:
    """Give the line with the question which part it is of, where it says only “it”.

    What was `answered` is not asked again.
    """
    told = line.verdict is not Verdict.KEPT and line.kind in _OF
    if not told or line.facts.part or line.facts.step or line.facts.stock:
        return line
    if any(doubt.about == "what" or doubt.choices[:1] for doubt in _of_part(line)):
        return line
    if _MEANT.search(line.line) is None:
        return line
    recent = last_parts(snapshot)
    doubt = Doubt("it", "which part is it?", (*recent, NO_PART))
    if not recent or doubt.question in answered:
        return line
    left = (one for one in line.doubts if one not in _of_part(line))
    return replace(line, doubts=(doubt, *left))


def _of_part(line: Understanding) -> list[Doubt]:
    return [one for one in line.doubts if one.about in ("part", "what")]


@once
def last_parts(snapshot: Snapshot) -> tuple[str, ...]:
    """Give the parts that the newest entries are of, the last one first."""
    found: dict[str, None] = {}
    for entry in reversed(snapshot.entries[-_RECENT:]):
        part = part_of(snapshot, entry)
        if part is not None:
            found.setdefault(part.title)
    return tuple(found)[:_MOST]


def with_part_for_it(text: str, part: str) -> str:
    """Put the name of a part where a line says “it”, else before the line."""
    named = f"the {part}"
    if _PRONOUN.search(text):
        return _PRONOUN.sub(lambda _: named, text, count=1)
    return f"{part} {text}"
