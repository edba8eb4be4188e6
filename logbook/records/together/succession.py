"""The snapshot after a change, made from the one before and the files that changed.

It is what putting all files together anew would give. What has been worked out of
the snapshot before goes over, put right where a record came, went or changed.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from logbook.records.kinds.design import Characteristic, Project, Revision
from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.place import PROJECT_FILE
from logbook.records.kinds.record import Record
from logbook.records.together.checked import Checked
from logbook.records.together.clashes import (
    NAMED,
    dangling,
    same_faults,
    same_labels,
    same_revisions,
    same_sizes,
)
from logbook.records.together.from_files import make_snapshot, with_problems
from logbook.records.together.names import folded, names_of
from logbook.records.together.ordered import put_right
from logbook.records.together.refs_held import refs_in
from logbook.records.together.snapshot import (
    Links,
    Parted,
    Snapshot,
    Stored,
    Turn,
    is_for,
)
from logbook.records.together.spread import with_changes
from logbook.records.written.text import Parsed

K = TypeVar("K")

Read = tuple[str, Parsed]
"""A file that was read: its SHA-256 and its content."""

MANY = 2000
"""Changed files from which on it is quicker to put everything together anew."""
LONGEST = 64
"""Turns that are remembered; who looks more seldom has to look at everything."""


@dataclass(frozen=True, slots=True)
class _Change:
    """The records that are no more as they were, and those that are so now."""

    went: Mapping[str, Record]
    came: Mapping[str, Record]

    @property
    def both(self) -> tuple[Record, ...]:
        return (*self.went.values(), *self.came.values())

    @property
    def gone(self) -> list[Record]:
        return [one for key, one in self.went.items() if key not in self.came]


def next_snapshot(
    before: Snapshot,
    old: Mapping[str, Read],
    new: Mapping[str, Read],
    paths: Iterable[str],
) -> Snapshot:
    """Give the snapshot of the files `new`.

    `before` is that of the files `old`; they differ at most in `paths`.
    """
    changed = [p for p in dict.fromkeys(paths) if old.get(p) != new.get(p)]
    if not changed:
        return before
    change = _change(before, old, new, changed)
    if before.checked is None or change is None or len(changed) > MANY:
        return make_snapshot((path, *read) for path, read in new.items())
    fresh: dict[str, Stored] = {}
    found = dict(before.checked.files)
    for path in changed:
        found.pop(path, None)
        if path not in new:
            continue
        sha256, parsed = new[path]
        if parsed.problems:
            found[path] = parsed.problems
        if parsed.record is not None:
            fresh[parsed.record.id] = Stored(parsed.record, path, sha256)
    stored = with_changes(before.stored, [one.id for one in change.gone], fresh)
    after = Snapshot(stored, (), before.read_only, trail=_trail(before, change))
    _carry(before, after, change)
    checked = replace(before.checked, files=found)
    return with_problems(after, _checked(before, after, change, checked))


def with_records(before: Snapshot, changed: Iterable[Stored]) -> Snapshot:
    """Give a snapshot with some records more or changed, its problems left as known."""
    fresh = {one.record.id: one for one in changed}
    went = {key: before.stored[key].record for key in fresh if key in before.stored}
    change = _Change(went, {key: one.record for key, one in fresh.items()})
    after = replace(
        before,
        stored=with_changes(before.stored, (), fresh),
        trail=_trail(before, change),
    )
    if before.checked is not None:
        _carry(before, after, change)
    return after


def _trail(before: Snapshot, change: _Change) -> tuple[Turn, ...]:
    changed = frozenset(change.went.keys() | change.came.keys())
    return (*before.trail[1 - LONGEST :], Turn(changed))


def _change(
    before: Snapshot,
    old: Mapping[str, Read],
    new: Mapping[str, Read],
    paths: Iterable[str],
) -> _Change | None:
    """Give what changed; None where it needs a look at all files.

    That is so where two files have one id, and for the project's own record.
    """
    if before.checked is None or before.checked.twice:
        return None
    went: dict[str, Record] = {}
    came: dict[str, Record] = {}
    for files, held in ((old, went), (new, came)):
        for path in paths:
            record = files[path][1].record if path in files else None
            if isinstance(record, Project) or path.endswith(f"/{PROJECT_FILE}"):
                return None
            if record and record.id in held:
                return None
            if record is not None:
                held[record.id] = record
    if any(key in before.stored and key not in went for key in came):
        return None
    return _Change(went, came)


def _reparted(
    parted: Parted, build: str, went: Iterable[Entry], came: Iterable[Entry]
) -> Parted:
    """Give the entries of a build, and those of others, put right."""

    def reparted(held: Sequence[Entry], *, own: bool) -> Sequence[Entry]:
        changed = ([e for e in es if is_for(e, build) is own] for es in (went, came))
        return put_right(held, *changed)

    own, others = parted
    return reparted(own, own=True), reparted(others, own=False)


def _carry(before: Snapshot, after: Snapshot, change: _Change) -> None:
    """Put right in the new snapshot what the one before has worked out."""
    known, made = vars(before), vars(after)
    went, came = change.went.values(), change.came.values()
    if "_ordered" in known:
        made["_ordered"] = put_right(known["_ordered"], went, came)
    if "entries" in known:
        ones = [[r for r in every if isinstance(r, Entry)] for every in (went, came)]
        made["entries"] = put_right(known["entries"], *ones)
        parts = [*known.get("_parted", {}).items()]
        made["_parted"] = {key: _reparted(held, key, *ones) for key, held in parts}
    if "_by_type" in known:
        made["_by_type"] = _regrouped(
            known["_by_type"],
            _grouped((type(r), r) for r in went),
            _grouped((type(r), r) for r in came),
        )
    if "_by_name" in known:
        made["_by_name"] = _regrouped(
            known["_by_name"],
            _grouped((name, r) for r in went for name in names_of(r)),
            _grouped((name, r) for r in came for name in names_of(r)),
        )
    if "_links" in known:
        made["_links"] = _linked(before, after, known["_links"], change)


def _grouped(pairs: Iterable[tuple[K, Record]]) -> dict[K, list[Record]]:
    found: dict[K, list[Record]] = defaultdict(list)
    for key, record in pairs:
        found[key].append(record)
    return found


def _regrouped(
    held: Mapping[K, Sequence[Record]],
    went: Mapping[K, list[Record]],
    came: Mapping[K, list[Record]],
) -> Mapping[K, Sequence[Record]]:
    """Give groups of ordered records put right; one that is empty goes."""
    groups = {
        key: put_right(held.get(key, ()), went.get(key, ()), came.get(key, ()))
        for key in went.keys() | came.keys()
    }
    gone = [key for key, records in groups.items() if not records]
    return with_changes(held, gone, {k: one for k, one in groups.items() if one})


def _linked(before: Snapshot, after: Snapshot, links: Links, change: _Change) -> Links:
    mentions, nameless = links
    # A reference leads elsewhere where its own record changed, where an id came or
    # went, and, if it gives a name alone, where the bearers of that name changed.
    affected = {one.id for one in change.both} | _at_loose_ends(before, change)
    for record in change.both:
        for name in names_of(record):
            affected |= nameless.get(name, frozenset())
    went: list[tuple[str, Record]] = []
    came: list[tuple[str, Record]] = []
    for identity in affected:
        was, now = _led(before, identity), _led(after, identity)
        went += ((key, r) for key, r in was.items() if now.get(key) is not r)
        came += ((key, r) for key, r in now.items() if was.get(key) is not r)
    found = _regrouped(mentions, _grouped(went), _grouped(came))
    return found, _renamed(nameless, change)


def _led(snapshot: Snapshot, identity: str) -> dict[str, Record]:
    """Give the ids a record leads to, each with that record."""
    record = snapshot.by_id(identity)
    if record is None:
        return {}
    found = (snapshot.find(ref) for ref in refs_in(record))
    return {target.id: record for target in found if target is not None}


def _renamed(
    nameless: Mapping[str, frozenset[str]], change: _Change
) -> dict[str, frozenset[str]]:
    """Give who refers to a name alone, put right."""
    found = dict(nameless)
    for record in change.went.values():
        for name in _names_alone(record):
            found[name] -= {record.id}
    for record in change.came.values():
        for name in _names_alone(record):
            found[name] = found.get(name, frozenset()) | {record.id}
    return {name: ids for name, ids in found.items() if ids}


def _names_alone(record: Record) -> set[str]:
    return {folded(ref.name) for ref in refs_in(record) if not ref.id}


def _at_loose_ends(before: Snapshot, change: _Change) -> set[str]:
    """Give the records that led to what is gone, or to nothing until now.

    What is gone may have been joined to another, which is then called so formerly.
    """
    assert before.checked is not None
    found = {one.id for record in change.gone for one in before.mentions(record)}
    renamed = any(one.formerly for one in change.both)
    if renamed or change.came.keys() - change.went.keys():
        found |= before.checked.dangling.keys()
    return found


def _checked(
    before: Snapshot, after: Snapshot, change: _Change, checked: Checked
) -> Checked:
    """Check again what a change can have put wrong or right."""
    again = _at_loose_ends(before, change) | change.went.keys() | change.came.keys()
    kept = {key: held for key, held in checked.dangling.items() if key not in again}
    loose = dangling(after, (after[key] for key in again if key in after))
    labels, revisions = checked.labels, checked.revisions
    if any(isinstance(one, NAMED) for one in change.both):
        labels = tuple(same_labels(after))
    if any(isinstance(one, Revision) for one in change.both):
        revisions = tuple(same_revisions(after))
    faults = checked.faults
    if any(isinstance(one, Erratum) for one in change.both):
        faults = tuple(same_faults(after))
    sizes = checked.sizes
    if any(isinstance(one, Characteristic) for one in change.both):
        sizes = tuple(same_sizes(after))
    loose |= kept
    return Checked(checked.files, loose, labels, revisions, faults, sizes)
