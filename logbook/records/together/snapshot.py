"""All records at one moment: immutable, looked up by id, name, kind and mention.

A snapshot is what advice, publishing and screens work from. Two records with
one id, or two parts with one name, are problems here, naming both.
"""

from __future__ import annotations

import dataclasses
import typing
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from functools import cached_property, lru_cache
from heapq import merge
from itertools import islice
from typing import Any, TypeVar, overload

from logbook.errors import NotFound, Problem
from logbook.records.kinds import assembling, design, happenings, made_public, workshop
from logbook.records.kinds.design import Project
from logbook.records.kinds.ids import SHORTEST_PREFIX, Ref, spoken
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import KINDS, kind_of
from logbook.records.together.sharing import age, in_order
from logbook.records.written.text import FORMAT, Parsed

R = TypeVar("R", bound=Record)

Links = tuple[Mapping[str, Sequence[Record]], Mapping[str, frozenset[str]]]
"""The records that refer to an id; the ids of those that refer to a name alone."""

SORTED_AT_ONCE = 4000
"""Records sorted without a pause; it takes some milliseconds."""

Parted = tuple[Sequence[happenings.Entry], Sequence[happenings.Entry]]
"""The entries of a build, or of none, and those of other builds; each in order."""

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


@dataclass(frozen=True, slots=True)
class Stored:
    """A record with the file it stands in and the SHA-256 of that file."""

    record: Record
    path: str
    sha256: str


@dataclass(frozen=True, slots=True, eq=False)
class Turn:
    """One turn the records took: the ids of what came, went or changed.

    Each is only equal to itself, so that two snapshots with one turn in common are
    known to be of one line.
    """

    changed: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Checked:
    """Where problems were found, so that later only what changed is checked again.

    They are by file, by the id of a record that refers to nothing, of equal labels
    and of equal revisions. `twice` tells whether two files have one id.
    """

    files: Mapping[str, tuple[Problem, ...]]
    dangling: Mapping[str, tuple[Problem, ...]]
    labels: tuple[Problem, ...]
    revisions: tuple[Problem, ...]
    twice: bool = False

    def in_order(self, snapshot: Snapshot) -> tuple[Problem, ...]:
        """Give all of them: by file, then by record."""
        problems = [one for path in sorted(self.files) for one in self.files[path]]
        for record in sorted((snapshot[key] for key in self.dangling), key=age):
            problems += self.dangling[record.id]
        return (*problems, *self.labels, *self.revisions)


@dataclass(frozen=True)
class Snapshot:
    """All records of a project at one moment; `trail` are the last turns to it."""

    stored: Mapping[str, Stored]
    problems: tuple[Problem, ...] = ()
    read_only: bool = False
    checked: Checked | None = field(default=None, compare=False, repr=False)
    trail: tuple[Turn, ...] = field(
        default_factory=lambda: (Turn(),), compare=False, repr=False
    )

    def changed_since(self, turn: Turn) -> frozenset[str] | None:
        """Give the ids that changed after a turn, None where that is not known."""
        if turn not in self.trail:
            return None
        later = self.trail[self.trail.index(turn) + 1 :]
        return frozenset().union(*(one.changed for one in later))

    # -- looking up --------------------------------------------------------------

    def __getitem__(self, identity: str) -> Record:
        """Give the record with this id."""
        return self.stored[identity].record

    def __contains__(self, identity: object) -> bool:
        """Tell whether a record has this id."""
        return identity in self.stored

    def __iter__(self) -> Iterator[Record]:
        """Go through all records by instant and id."""
        return iter(self._ordered)

    def __len__(self) -> int:
        """Count the records."""
        return len(self.stored)

    @cached_property
    def _ordered(self) -> Sequence[Record]:
        # In pieces: to sort all at once would hold up every other thread meanwhile.
        records = (stored.record for stored in self.stored.values())
        pieces = iter(lambda: sorted(islice(records, SORTED_AT_ONCE), key=age), [])
        return in_order(merge(*pieces, key=age))

    def last_within(self, start: datetime, end: datetime) -> datetime | None:
        """Give the last instant from `start` to before `end` that a record has."""
        at = bisect_left(self._ordered, end, key=lambda record: record.when)
        last = self._ordered[at - 1].when if at else None
        return last if last is not None and last >= start else None

    @cached_property
    def _by_type(self) -> Mapping[type[Record], Sequence[Record]]:
        found: dict[type[Record], list[Record]] = defaultdict(list)
        for record in self._ordered:
            found[type(record)].append(record)
        return {cls: in_order(records) for cls, records in found.items()}

    @cached_property
    def _by_name(self) -> Mapping[str, tuple[Record, ...]]:
        found: dict[str, list[Record]] = defaultdict(list)
        for record in self._ordered:
            for name in names_of(record):
                found[name].append(record)
        return {name: tuple(records) for name, records in found.items()}

    @cached_property
    def _links(self) -> Links:
        found: dict[str, dict[str, Record]] = defaultdict(dict)
        by_name: dict[str, set[str]] = defaultdict(set)
        for record in self._ordered:
            for ref in refs_in(record):
                if ref.id:
                    if ref.id in self.stored:
                        found[ref.id][record.id] = record
                    continue
                by_name[folded(ref.name)].add(record.id)
                target = self.find(ref)
                if target is not None:
                    found[target.id][record.id] = record
        mentions = {key: in_order(held.values()) for key, held in found.items()}
        return mentions, {name: frozenset(ids) for name, ids in by_name.items()}

    @property
    def project(self) -> Project:
        """Give the project record; a plain one where its file cannot be read."""
        found = self.all(Project)
        return found[0] if found else Project(id="00000000", title="untitled")

    def all(self, cls: type[R]) -> Sequence[R]:
        """Give all records of one class, by instant and id."""
        return self._by_type.get(cls, ())  # type: ignore[return-value]

    @cached_property
    def entries(self) -> Sequence[happenings.Entry]:
        """Give everything that happened, in order."""
        return in_order(r for r in self._ordered if isinstance(r, happenings.Entry))

    @cached_property
    def _parted(self) -> dict[str, Parted]:
        return {}

    def parted(self, build: str) -> Parted:
        """Give the entries of the build with this id, and those of other builds."""
        if build not in self._parted:
            own: list[happenings.Entry] = []
            others: list[happenings.Entry] = []
            for entry in self.entries:
                (own if is_for(entry, build) else others).append(entry)
            self._parted[build] = in_order(own), in_order(others)
        return self._parted[build]

    @overload
    def find(self, ref: Ref | None) -> Record | None: ...
    @overload
    def find(self, ref: Ref | None, cls: type[R]) -> R | None: ...
    def find(self, ref: Ref | None, cls: type[Record] = Record) -> Record | None:
        """Follow a reference: by id, or by a name only one such record has."""
        if ref is None or not ref:
            return None
        if ref.id:
            stored = self.stored.get(ref.id)
            fits = stored is not None and isinstance(stored.record, cls)
            return stored.record if stored and fits else None
        matches = self.named(ref.name, cls)
        return matches[0] if len(matches) == 1 else None

    def named(self, name: str, cls: type[R]) -> tuple[R, ...]:
        """Give the records called `name`, now or formerly, letter case aside."""
        kept = [r for r in self.bearing(folded(name)) if isinstance(r, cls)]
        now = [r for r in kept if folded(name) in current_names(r)]
        return tuple(now or kept)

    def bearing(self, name: str) -> tuple[Record, ...]:
        """Give every record that bears a folded name, now or formerly."""
        return self._by_name.get(name, ())

    @overload
    def mentions(self, record: Record) -> Sequence[Record]: ...
    @overload
    def mentions(self, record: Record, cls: type[R], /) -> Sequence[R]: ...
    @overload
    def mentions(
        self, record: Record, /, *classes: type[Record]
    ) -> Sequence[Record]: ...
    def mentions(self, record: Record, *classes: type[Record]) -> Sequence[Record]:
        """Give the records that refer to this one, in order; those of some classes."""
        found = self._links[0].get(record.id, ())
        return tuple([r for r in found if isinstance(r, classes)]) if classes else found

    def by_name_alone(self, name: str) -> frozenset[str]:
        """Give the ids of the records that refer to something by this folded name."""
        return self._links[1].get(name, frozenset())

    def path(self, record: Record) -> str:
        """Give the file of a record, relative to the project's folder."""
        return self.stored[record.id].path

    # -- what the user names -----------------------------------------------------

    @overload
    def lookup(self, words: str) -> Record: ...
    @overload
    def lookup(self, words: str, cls: type[R]) -> R: ...
    def lookup(self, words: str, cls: type[Record] = Record) -> Record:
        """Give the one record the user means: an id, its beginning, or a name.

        Raises:
            NotFound: no record, or several, are meant.
        """
        kind = next((k.shown for k in KINDS.values() if k.type is cls), "record")
        matches = self.named(words, cls)
        key = spoken(words.rsplit(maxsplit=1)[-1]) if words.split() else ""
        if not matches and len(key) >= SHORTEST_PREFIX:
            hits = (r for r in self._ordered if r.id.startswith(key))
            matches = tuple(r for r in hits if isinstance(r, cls))
        if not matches:
            known = [r.title for r in self.all(cls)[:12]]
            accepted = ", ".join(known) or "a name or the first 4 letters of an id"
            raise NotFound(f"no {kind} is called “{words}”; accepted: {accepted}")
        if len(matches) > 1:
            which = ", ".join(f"{r.title} {r.id}" for r in matches[:6])
            raise NotFound(f"“{words}” can mean {which}; accepted: one of these ids")
        return matches[0]


def is_for(entry: happenings.Entry, build: str) -> bool:
    """Tell whether an entry is of the build with this id, or of none."""
    return entry.build is None or entry.build.id == build


@lru_cache(maxsize=1 << 15)
def folded(name: str) -> str:
    """Give a name as names are compared: letter case, `_` and `-` aside."""
    return " ".join(name.casefold().replace("_", " ").replace("-", " ").split())


def current_names(record: Record) -> set[str]:
    """Give the names a record has now, folded: title, name, aliases."""
    names = [record.title, *[getattr(record, n) for n in _called_by(type(record))]]
    if isinstance(record, design.Part):
        names += record.aliases
    return set(map(folded, filter(None, names)))


_CALLED_BY: dict[type, tuple[str, ...]] = {design.Revision: ()}
"""The facts that records of a class are called by, beside their title. The label of
a revision is one among those of its part."""


def _called_by(cls: type) -> tuple[str, ...]:
    found = _CALLED_BY.get(cls)
    if found is None:
        found = tuple(name for name in ("name", "label") if hasattr(cls, name))
        _CALLED_BY[cls] = found
    return found


def names_of(record: Record) -> set[str]:
    """Give the names a record answers to, folded: title, name, aliases, former."""
    names = current_names(record)
    return (
        names | {folded(name) for name in record.formerly} if record.formerly else names
    )


def refs_in(value: Any) -> list[Ref]:
    """Give every reference a record holds, in nested tables too, in order."""
    found: list[Ref] = []
    _gather(value, found)
    return found


def _gather(value: Any, found: list[Ref]) -> None:
    cls = type(value)
    if cls is Ref:
        found.append(value)
    elif cls is tuple:
        for item in value:
            _gather(item, found)
    else:
        for name in _referring(cls):
            held = getattr(value, name)
            if type(held) is Ref:
                found.append(held)
            elif held:
                _gather(held, found)


_REFERRING: dict[type, tuple[str, ...]] = {}


def _referring(cls: type) -> tuple[str, ...]:
    """Name the fields of a class that can hold a reference, at whatever depth."""
    found = _REFERRING.get(cls)
    if found is None:
        found = _REFERRING[cls] = tuple(_worked_out(cls))
    return found


def _worked_out(cls: type) -> Iterator[str]:
    if dataclasses.is_dataclass(cls):
        hints = typing.get_type_hints(cls)
        for field in dataclasses.fields(cls):
            if _can_refer(hints[field.name]):
                yield field.name


def _can_refer(hint: Any) -> bool:
    inner = typing.get_args(hint)
    if inner:
        return any(_can_refer(one) for one in inner)
    return hint is Ref or (isinstance(hint, type) and bool(_referring(hint)))


def make_snapshot(files: Iterable[tuple[str, str, Parsed]]) -> Snapshot:
    """Put read files together: (path, SHA-256, what was read)."""
    stored: dict[str, Stored] = {}
    found: dict[str, tuple[Problem, ...]] = {}
    read_only = twice = False
    for path, sha256, parsed in sorted(files, key=lambda file: file[0]):
        problems = parsed.problems
        record = parsed.record
        if isinstance(record, Project) and record.format > FORMAT:
            read_only = True
            accepted = f"format {FORMAT} or lower; the project opens read-only"
            newer = Problem(path, 0, "format", str(record.format), accepted)
            problems = (*problems, newer)
        if record is not None and record.id in stored:
            twice = True
            other = stored[record.id].path
            accepted = f"an id of its own ({other} has the same)"
            problems = (*problems, Problem(path, 0, "id", record.id, accepted))
        elif record is not None:
            stored[record.id] = Stored(record, path, sha256)
        if problems:
            found[path] = problems
    plain = Snapshot(stored, (), read_only)
    labels, revisions = tuple(same_labels(plain)), tuple(same_revisions(plain))
    checked = Checked(found, dangling(plain, plain), labels, revisions, twice)
    return with_problems(plain, checked)


def with_problems(snapshot: Snapshot, checked: Checked) -> Snapshot:
    """Give a snapshot with its problems; what it has worked out already stays."""
    problems = checked.in_order(snapshot)
    made = replace(snapshot, problems=problems, checked=checked)
    own = {key: held for key, held in vars(snapshot).items() if key not in vars(made)}
    vars(made).update(own)
    return made


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
            yield Problem(path, 0, "reference", f"“{ref}”", accepted)


def same_labels(snapshot: Snapshot) -> Iterator[Problem]:
    """Give a problem for each record that has the title of an older one."""
    seen: dict[tuple[type[Record], str], Record] = {}
    named = (one for cls in NAMED for one in snapshot.all(cls))
    for record in sorted(named, key=age):
        key = (type(record), folded(record.title))
        if key in seen:
            path, other = snapshot.path(record), snapshot.path(seen[key])
            found = f"{kind_of(record).shown} “{record.title}”, as in {other}"
            yield Problem(path, 1, "title", found, "a name of its own (settle)")
        else:
            seen[key] = record


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
