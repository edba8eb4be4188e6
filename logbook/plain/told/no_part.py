"""A line that says that a part is none, or another one: `window, shell is not a part`.

It tells nothing that happened: what it asks for is done to the part, not put on record.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from logbook.records.kinds.design import Part
from logbook.records.together.snapshot import Snapshot

_NOT = r"(?:(?:is|was) (?:not a|no|no longer a|never a)|(?:is|was)n['’]t a)"
_NONE = re.compile(
    rf"there(?:['’]s no| {_NOT}) part (?:called |named )?(?P<called>.+)|"
    rf"(?P<name>.+?) {_NOT} part(?: at all)?",
    re.IGNORECASE,
)
_SAME = re.compile(
    r"(?P<name>.+?) is (?:the same part as|another name (?:for|of)) (?P<other>.+)|"
    r"(?P<one>.+?) and (?P<two>.+?) are (?:the same|one) part",
    re.IGNORECASE,
)
_AROUND = " \t“”\"'‘’.!"


@dataclass(frozen=True, slots=True)
class NoPart:
    """A part that is said to be none; with `other`, to be that one."""

    part: Part
    other: Part | None = None

    kind = "no part"

    @property
    def facts(self) -> dict[str, object]:
        """The facts as a program reads them."""
        same_as = {"same_as": self.other.title} if self.other else {}
        return {"part": self.part.title, **same_as}

    @property
    def words(self) -> str:
        """Say what is understood."""
        if self.other is None:
            return f"“{self.part.title}” is no part"
        return f"“{self.part.title}” is “{self.other.title}” under a second name"


def no_part_said(line: str, snapshot: Snapshot) -> NoPart | None:
    """Give the part on record a line says is none, or another; None: it says neither.

    Of two that are one it is the later that was typed by a second name.
    """
    words = " ".join(line.split()).rstrip(" .!")
    if said := _SAME.fullmatch(words):
        found = _part(said["name"] or said["one"], snapshot)
        other = _part(said["other"] or said["two"], snapshot)
        if found is None or other is None or found is other:
            return None
        if said["one"] and (found.when, found.id) < (other.when, other.id):
            found, other = other, found
        return NoPart(found, other)
    said = _NONE.fullmatch(words)
    part = _part(said["called"] or said["name"], snapshot) if said else None
    return NoPart(part) if part else None


def _part(words: str, snapshot: Snapshot) -> Part | None:
    """Give the part of exactly this name: what goes is not guessed at."""
    bare = words.strip(_AROUND)
    for name in (bare, re.sub(r"(?i)^(?:the|a|part) ", "", bare)):
        found = snapshot.named(name, Part)
        if len(found) == 1:
            return found[0]
    return None
