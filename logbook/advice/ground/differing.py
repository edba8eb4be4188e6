"""What differs between two snapshots, in the keys of what was looked at.

The keys are those of `logbook.advice.ground.register`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from logbook.advice.ground.kept import Key
from logbook.records.kinds.record import Record
from logbook.records.together.names import folded, names_of
from logbook.records.together.refs_held import refs_in
from logbook.records.together.snapshot import Snapshot, Stored


def touched_by(before: Snapshot, after: Snapshot, record: Record) -> Iterator[Key]:
    """Give the keys of what is found otherwise for a record that differs."""
    yield from (record.id, "#", f"#{type(record).__name__}")
    for ref in refs_in(record):
        named = (before, after) if not ref.id else ()
        ids = [ref.id] if ref.id else []
        ids += [one.id for s in named for one in s.bearing(folded(ref.name))]
        for identity in ids:
            yield from _mentioned(identity, record)
    for name in names_of(record):
        yield f"={name}"
        # Who refers to this name alone may mean another now that has it.
        for snapshot in (before, after):
            for one in snapshot.by_name_alone(name):
                for bearer in (*before.bearing(name), *after.bearing(name)):
                    yield from _mentioned(bearer.id, snapshot[one])


def _mentioned(identity: str, by: Record) -> Iterator[Key]:
    yield f"@{identity}"
    for cls in type(by).__mro__:  # it may have been asked for as an entry
        yield f"@{identity} {cls.__name__}"


def compared(
    before: Mapping[str, Stored], now: Mapping[str, Stored]
) -> tuple[dict[str, Stored] | None, frozenset[str]]:
    """Give the ids of what differs, and what is stored now where that is mixed.

    A file read again is another object; what did not change stays the same.
    """
    same: dict[str, Stored] = {}
    changed = set(before.keys() - now.keys())
    for identity, stored in now.items():
        held = before.get(identity)
        if held is stored:
            continue
        if held is not None and _same(held, stored):
            same[identity] = held
        else:
            changed.add(identity)
    return {**now, **same} if same else None, frozenset(changed)


def _same(one: Stored, other: Stored) -> bool:
    return one.sha256 == other.sha256 and one.path == other.path
