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
    as_note,
)
from logbook.records.kinds.words import Source
from logbook.records.making.told_settings import settings_in
from logbook.records.together.once import once
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot

_OF = (Kind.DISPOSITION, Kind.FAILURE, Kind.READING, Kind.STEP)
_PRONOUN = re.compile(r"(?i)\b(?:it|them)\b")
_MEANT = re.compile(r"(?i)\b(?:it|them|again)\b")
_WHICH = "which part is it?"
_SET_FOR = "which part was made with these settings?"
_MOST = 3
_RECENT = 50
"""So many entries back a part may be meant that was not named again."""


def held_to_it(
    line: Understanding, snapshot: Snapshot, answered: Collection[str] = ()
) -> Understanding:
    """Give the line with the question which part it is of, where it says only “it”.

    What was `answered` is not asked again.
    """
    if line.facts.part or (line.verdict is Verdict.ASKED and line.kind is Kind.NOTE):
        return line
    question = _SET_FOR if _sets(line) else _WHICH if _says_it(line) else ""
    recent = last_parts(snapshot, made=_sets(line)) if question else ()
    doubt = Doubt("it", question, (*recent, NO_PART))
    if not recent or doubt.question in answered:
        return line
    left = (one for one in line.doubts if one not in _of_part(line))
    return replace(line, doubts=(doubt, *left))


def _says_it(line: Understanding) -> bool:
    """Tell whether a line of a kind that needs a part says only “it”, or “again”."""
    if line.verdict is Verdict.KEPT or line.kind not in _OF:
        return False
    if line.facts.step or line.facts.stock:
        return False
    if any(doubt.about == "what" or doubt.choices[:1] for doubt in _of_part(line)):
        return False
    return _MEANT.search(line.line) is not None or _orders_only(line)


def _orders_only(line: Understanding) -> bool:
    """Tell whether a line is the one word of what to do, as `scrap`: of nothing yet."""
    return line.kind is Kind.DISPOSITION and len(line.line.split()) == 1


def of_none(line: Understanding, doubt: Doubt) -> Understanding:
    """Give a line that is of no part: what is done with nothing is only a note."""
    if line.kind is Kind.DISPOSITION:
        return as_note(line)
    left = tuple(one for one in line.doubts if one != doubt)
    return replace(line, doubts=left, confidence=1.0)


def _sets(line: Understanding) -> bool:
    """Tell whether a note tells how a machine was set: nozzle 230, bed 70."""
    return line.kind is Kind.NOTE and bool(settings_in(line.line))


def of_it(
    line: Understanding, doubt: Doubt, part: str, *, known: bool
) -> Understanding:
    """Give a note as of a part, which its settings are then offered to."""
    left = tuple(one for one in line.doubts if one is not doubt)
    facts = replace(line.facts, part=part, part_is_new=not known)
    return replace(line, facts=facts, doubts=left)


def _of_part(line: Understanding) -> list[Doubt]:
    return [one for one in line.doubts if one.about in ("part", "what")]


@once
def last_parts(snapshot: Snapshot, *, made: bool = False) -> tuple[str, ...]:
    """Give the parts that the newest entries are of, or those made, the last first."""
    found: dict[str, None] = {}
    for entry in reversed(snapshot.entries[-_RECENT:]):
        part = part_of(snapshot, entry)
        if part is not None and not (made and part.source is Source.BOUGHT):
            found.setdefault(part.title)
    return tuple(found)[:_MOST]


def with_part_for_it(text: str, part: str) -> str:
    """Put the name of a part where a line says “it”, else before the line."""
    named = f"the {part}"
    if _PRONOUN.search(text):
        return _PRONOUN.sub(lambda _: named, text, count=1)
    return f"{part} {text}"
