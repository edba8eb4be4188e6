"""A line on the bench that is a command of the shell: said so, never read as work."""

from __future__ import annotations

import re

from logbook.records.kinds.design import Part
from logbook.records.together.snapshot import Snapshot

VERBS = (
    "release", "guide", "notes", "errata", "climate", "check", "impact",
    "conformity", "counts", "verdicts", "pages",
)  # fmt: skip
"""Verbs that no plain line begins with and nothing else follows."""

_LINE = re.compile(rf"(?:logbook )?({'|'.join(VERBS)})(?: v?\d[\w.]*)?", re.IGNORECASE)


def in_the_shell(line: str, snapshot: Snapshot) -> str:
    """Say how the shell takes a line that is a verb of its own; else nothing.

    A part of that name is meant before the verb.
    """
    words = " ".join(line.split())
    found = _LINE.fullmatch(words)
    if found is None or snapshot.named(found[1], Part):
        return ""
    verb, rest = found[1].casefold(), words[found.end(1) :]
    return f"in the shell: logbook {verb}{rest}"
