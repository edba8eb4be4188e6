"""Two records of one thing made one: a piece, or a dimension, made in two clones.

The older stays, with what only the later says; all that names the later names the
older from then on, and the later goes. What both say differently stays as the older
says it; then the whole of the later is kept in its prose, and what differs is told.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, replace
from typing import Any, TypeVar

from logbook.records.kinds.record import Record
from logbook.records.making.pending import Pending
from logbook.records.making.settling import with_other_side
from logbook.records.together.names import folded
from logbook.records.together.refs_held import pointed, refs_in
from logbook.records.together.shown import shown_fact
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.twins import joined_to

R = TypeVar("R", bound=Record)

_OWN = {"id", "title", "name", "when", "formerly", "prose", "extra", "number", "since"}
"""What is not held against each other: each has its own."""

_DRAWN = ("nominal", "lower_limit", "upper_limit", "limits_from")
"""What is one statement: limits without the size they are of would say another one."""


def make_one(draft: Pending, older: R, later: R) -> tuple[str, ...]:
    """Join the later of two records to the older; give what they say differently."""
    kept, gone = draft.drafted(older), draft.drafted(later)
    for record in draft.snapshot.mentions(later):
        before = draft.drafted(record)
        led = pointed(before, later.id, older.ref)
        if led != before and record not in draft.dropped:
            draft.amend(led)
    changes = dict(_only_later(kept, gone))
    joined = replace(kept, **changes)
    differs = tuple(_differing(joined, gone))
    if differs:
        joined = replace(joined, prose=with_other_side(joined, gone).prose)
    elif gone.prose:
        joined = replace(joined, prose=f"{joined.prose}\n\n{gone.prose}".strip())
    names = (*joined.formerly, *gone.formerly, gone.title, gone.id)
    former = dict.fromkeys(name for name in names if folded(name) != folded(kept.title))
    draft.amend(replace(joined, formerly=tuple(former)))
    draft.amended[:] = [one for one in draft.amended if one.id != later.id]
    draft.drop(later)
    return differs


def led_on(snapshot: Snapshot) -> Iterator[Record]:
    """Give each record that names one which was joined to another, naming that one."""
    for record in snapshot:
        led = record
        for ref in refs_in(record):
            if to := joined_to(snapshot, ref):
                led = pointed(led, ref.id, to.ref)
        if led is not record:
            yield led


def _told(record: Record) -> list[str]:
    return [one.name for one in fields(record) if one.name not in _OWN]


def _only_later(kept: R, gone: R) -> Iterator[tuple[str, Any]]:
    """Give each fact that the later says and the older does not."""
    nominal = getattr(kept, "nominal", None)
    drawn = any(getattr(kept, name, None) for name in _DRAWN)
    for name in _told(kept):
        own, other = getattr(kept, name), getattr(gone, name)
        if isinstance(own, Mapping):
            yield name, {**other, **own}
        elif not own and other:
            if name in _DRAWN and drawn and nominal != getattr(gone, "nominal", None):
                continue
            yield name, other


def _differing(joined: R, gone: R) -> Iterator[str]:
    """Say each fact of the later that the joined record does not hold."""
    for name in _told(joined):
        own, other = getattr(joined, name), getattr(gone, name)
        if isinstance(other, Mapping):
            lost = [f"{key}={said}" for key, said in other.items() if own[key] != said]
            shown = ", ".join(lost)
        else:
            shown = shown_fact(other) if other and other != own else ""
        if shown:
            yield f"{name.replace('_', ' ')}: “{shown}” in {gone.id}, not taken"
