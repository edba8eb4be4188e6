"""Where records contradict each other: references to nothing, equal labels, twins."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from logbook.errors import Problem
from logbook.records.kinds import assembling, design, made_public, workshop
from logbook.records.kinds.ids import formula_name
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import kind_of
from logbook.records.together.names import current_names, folded
from logbook.records.together.ordered import age
from logbook.records.together.refs_held import refs_in
from logbook.records.together.same_faults import saved_twice
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.twins import joined_to, twin_sizes

NAMED = (
    design.Part,
    workshop.Build,
    workshop.Piece,
    workshop.Machine,
    workshop.Instrument,
    assembling.Step,
    assembling.Joint,
    assembling.Fit,
    made_public.Release,
)
"""Kinds whose titles are labels: two with the same one are a problem."""


def dangling(
    snapshot: Snapshot, records: Iterable[Record]
) -> dict[str, tuple[Problem, ...]]:
    """Give a problem for each reference to an id that is not here, by record."""
    return {
        record.id: problems
        for record in records
        if (problems := tuple(_unresolved(snapshot, record)))
    }


def _unresolved(snapshot: Snapshot, record: Record) -> Iterator[Problem]:
    for ref in refs_in(record):
        if ref.id and ref.id not in snapshot:
            path, accepted = snapshot.path(record), "the id of a record that is here"
            if to := joined_to(snapshot, ref):
                accepted = f"“{to.ref}”, which it was joined to (settle)"
            yield Problem(path, 0, "reference", f"“{ref}”", accepted)


def same_labels(snapshot: Snapshot) -> Iterator[Problem]:
    """Give a problem for each record that has the title of an older one."""
    seen: dict[tuple[type[Record], str], Record] = {}
    named = (one for cls in NAMED for one in snapshot.all(cls))
    for record in sorted(named, key=age):
        called, field = record.title, "title"
        if isinstance(record, made_public.Release):  # its tag and folder go by it
            called, field = f"release {record.label}", "label"
        key = (type(record), folded(called))
        if key in seen:
            path, other = snapshot.path(record), snapshot.path(seen[key])
            found = f"{kind_of(record).shown} “{called}”, as in {other}"
            accepted = "a name of its own (settle)"
            if isinstance(record, (design.Part, workshop.Build, workshop.Piece)):
                kind = kind_of(record).shown
                accepted = f"a name of its own, or one {kind} of both (settle)"
            yield Problem(path, 1, field, found, accepted)
        else:
            seen[key] = record
    yield from _same_names(snapshot)


def namesake(snapshot: Snapshot, before: Record, after: Record) -> Record | None:
    """Give the record that has the name which this one is given; None: none has it."""
    if not isinstance(after, NAMED):
        return None
    fresh = current_names(after) - current_names(before)
    others = (one for one in snapshot.all(type(after)) if one.id != after.id)
    return next((one for one in others if fresh & current_names(one)), None)


def _same_names(snapshot: Snapshot) -> Iterator[Problem]:
    """Give a problem for each part that was given the name of another one.

    A name made of a title, of now or before it was settled, may be that of another
    title; only what is given is told.
    """
    for part in snapshot.all(design.Part):
        if part.name in map(formula_name, (part.title, *part.formerly)):
            continue
        for other in snapshot.named(part.name, design.Part):
            if other is not part and folded(part.name) in current_names(other):
                found = f"“{part.name}”, as {other.title} in {snapshot.path(other)}"
                accepted = "a name of its own, or one part of both (part --same-as)"
                yield Problem(snapshot.path(part), 0, "name", found, accepted)


def same_revisions(snapshot: Snapshot) -> Iterator[Problem]:
    """Give a problem for each revision that has the label of an older one."""
    seen: dict[tuple[str, str], Record] = {}
    for revision in snapshot.all(design.Revision):
        key = (revision.part.id or folded(revision.part.name), revision.label)
        if key in seen:
            path, other = snapshot.path(revision), snapshot.path(seen[key])
            found = f"rev {revision.label} of {revision.part.name}, as in {other}"
            yield Problem(path, 1, "label", found, "a label of its own (settle)")
        else:
            seen[key] = revision


def same_sizes(snapshot: Snapshot) -> Iterator[Problem]:
    """Give a problem for each dimension that has the name of an older one."""
    for older, later in twin_sizes(snapshot):
        path, other = snapshot.path(later), snapshot.path(older)
        found = f"dimension “{later.title}” of {later.part.name}, as in {other}"
        accepted = "one dimension of a name (settle joins them)"
        yield Problem(path, 1, "title", found, accepted)


def same_faults(snapshot: Snapshot) -> Iterator[Problem]:
    """Give a problem for each known fault saved of the entry of an older one."""
    for older, later in saved_twice(snapshot):
        path, other = snapshot.path(later), snapshot.path(older)
        found = f"known fault “{later.title}”, of the same entry as {other}"
        accepted = "one known fault of an entry (settle joins them)"
        yield Problem(path, 1, "from_entries", found, accepted)
