"""Joining known faults that two clones saved of one entry apart.

The older stays, under its id: what only the later says goes over to it, and the
later, left as it was typed, says that it repeats the older. What both say
differently stays as the older says it, but the graver word on how bad it is counts;
all that differs is told, so that it can be said anew.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from typing import Any

from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import ErratumStatus, Severity, WayRound
from logbook.records.together.same_faults import saved_twice
from logbook.records.together.snapshot import Snapshot

_OWN = {"id", "when", "formerly", "extra", "published", "same_as", "part"}
"""What is not held against each other: each has its own."""

_UNSAID = (Severity.UNKNOWN, WayRound.UNKNOWN, ErratumStatus.REPORTED)
"""Words that stand there where nobody has said anything yet."""

_GRAVITY = list(Severity)


@dataclass(frozen=True, slots=True)
class Joined:
    """An older known fault with what later ones say, these, and what differs."""

    kept: Erratum
    later: tuple[Erratum, ...]
    differs: tuple[str, ...]


def joined_faults(snapshot: Snapshot) -> Iterator[Joined]:
    """Give each known fault that was saved more than once, joined."""
    found: dict[str, Joined] = {}
    for older, later in saved_twice(snapshot):
        held = found.get(older.id, Joined(older, (), ()))
        kept, differs = _with(held.kept, later)
        repeats = replace(later, same_as=older.ref)
        found[older.id] = Joined(
            kept, (*held.later, repeats), (*held.differs, *differs)
        )
    yield from found.values()


def _with(kept: Erratum, later: Erratum) -> tuple[Erratum, tuple[str, ...]]:
    """Take over what only the later says; give what both say differently."""
    changes: dict[str, Any] = {}
    differs = []
    for name in (one.name for one in fields(Erratum) if one.name not in _OWN):
        own, other = getattr(kept, name), getattr(later, name)
        if isinstance(own, tuple):
            changes[name] = tuple(dict.fromkeys((*own, *other)))
        elif not own or own in _UNSAID:
            changes[name] = other or own
        elif other and other not in _UNSAID and other != own:
            graver = name == "severity" and _GRAVITY.index(other) < _GRAVITY.index(own)
            changes[name] = other if graver else own
            what = "taken, the graver" if graver else "not taken"
            differs.append(f"{name.replace('_', ' ')}: “{other}” in {later.id}, {what}")
    days = [one.published for one in (kept, later) if one.published]
    changes["published"] = max(days, default=None)
    return replace(kept, **changes), tuple(differs)
