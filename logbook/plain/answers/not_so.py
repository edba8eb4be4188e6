"""A line that says an entry is not so: that was no failure; we will not after all.

The newest entry of which it says that is asked about; it becomes a note that says why.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from itertools import islice

from logbook.plain.answers.amended import RETRACT, asked_to_amend
from logbook.plain.sure.unread import SO_OR_NOTE
from logbook.plain.understanding import Doubt, Understanding, Verdict
from logbook.records.kinds.happenings import Decision, Deviation, Failure
from logbook.records.making.retracting import Retractable, retracted
from logbook.records.together.likeness import stems
from logbook.records.together.snapshot import Snapshot

_NO_FAULT = re.compile(
    r"(?i)^(?:no,?\s+)?(?:that|it|this)\s+(?:(?:was|is)\s+(?:no|not(?:\s+really)?\s+an?|"
    r"never\s+an?)|(?:was|is)n['’]t\s+an?)\s+(?:failure|fault|defect|deviation)\b"
    r"(?:\s*[,;:–-]\s*|\s+)?(?:because\s+)?(?P<why>.*)$"
)
_AFTER_ALL = re.compile(r"(?i)\bafter all\b")
_DENIES = re.compile(r"(?i)\b(?:not|no|never|cannot|\w+n['’]t)\b")
_BESIDE = stems("after all decided will we do does did not no never be is was are were")
"""Words that say nothing of what is decided or failed."""
_LOOKED_AT = 1000
_SHARED = 2
"""So many words at least a line has in common with the entry it denies, and half of
those of the entry. Common practice, no source."""


def held_to_not_so(
    line: Understanding, snapshot: Snapshot, answered: Collection[str] = ()
) -> Understanding:
    """Give the line, asked first where it says that an entry on record is not so.

    What was `answered` is not asked again.
    """
    if line.amends is not None:
        return line
    found = _denied(line.line, snapshot)
    if found is None:
        return line
    entry, why = found
    question = f"does this say that “{entry.title}” {entry.id} is not so?"
    if question in answered:
        return line
    note = SO_OR_NOTE if line.verdict is Verdict.TAKEN else SO_OR_NOTE[1:]
    doubt = Doubt("amend", question, (RETRACT, *note))
    return asked_to_amend(line, doubt, entry, retracted(snapshot, entry, why))


def _denied(line: str, snapshot: Snapshot) -> tuple[Retractable, str] | None:
    """Give the entry a line denies, and why it is not so."""
    if said := _NO_FAULT.match(line.strip()):
        kinds: tuple[type[Retractable], ...] = (Failure, Deviation)
        newest = (one for one in _newest(snapshot) if isinstance(one, kinds))
        entry = next(newest, None)
        return (entry, said["why"].strip(" .")) if entry else None
    if not _AFTER_ALL.search(line):
        return None
    denies = bool(_DENIES.search(line))
    words = stems(line) - _BESIDE
    for one in _newest(snapshot):
        own = stems(one.title) - _BESIDE
        shared = len(own & words)
        other_way = bool(_DENIES.search(one.title)) is not denies
        if other_way and shared >= _SHARED and 2 * shared >= len(own):
            return one, f"“{line.strip()}”"
    return None


def _newest(snapshot: Snapshot) -> list[Retractable]:
    newest = islice(reversed(snapshot.entries), _LOOKED_AT)
    return [one for one in newest if isinstance(one, Failure | Decision | Deviation)]
