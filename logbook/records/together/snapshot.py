"""All records at one moment: immutable, looked up by id, name, kind and mention.

A snapshot is what advice, publishing and screens work from. Two records with
one id, or two parts with one name, are problems here, naming both.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from functools import cached_property
from heapq import merge
from itertools import islice
from typing import TypeVar, overload

from logbook.errors import NotFound, Problem
from logbook.records.kinds import happenings
from logbook.records.kinds.design import Project
from logbook.records.kinds.ids import SHORTEST_PREFIX, Ref, spoken
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import KINDS
from logbook.records.together.checked import Checked
from logbook.records.together.names import current_names, folded, names_of
from logbook.records.together.ordered import age, in_order
from logbook.records.together.refs_held import refs_in

R = TypeVar("R", bound=Record)
T = TypeVar("T")

Links = tuple[Mapping[str, Sequence[Record]], Mapping[str, frozenset[str]]]
"""The records that refer to an id; the ids of those that refer to a name alone."""

SORTED_AT_ONCE = 4000
"""Records sorted without a pause; it takes some milliseconds."""

Parted = tuple[Sequence[happenings.Entry], Sequence[happenings.Entry]]
"""The entries of a build, or of none, and those of other builds; each in order."""


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


@dataclass(frozen=True)
class Snapshot:
    """All records of a project at one moment; `trail` are the last turns to it.

    `read_only` says why nothing may be logged, and nothing where it may.
    """

    stored: Mapping[str, Stored]
    problems: tuple[Problem, ...] = ()
    read_only: str = ""
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

    @overload
    def by_id(self, identity: str) -> Record | None: ...
    @overload
    def by_id(self, identity: str, cls: type[R]) -> R | None: ...
    def by_id(self, identity: str, cls: type[Record] = Record) -> Record | None:
        """Give the record with this id, if it is there and of this class."""
        return self.find(Ref("", identity), cls)

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

    @cached_property
    def _once(self) -> dict[tuple[object, ...], tuple[tuple[object, ...], object]]:
        return {}

    def once(
        self, topic: object, about: tuple[object, ...], work: Callable[[], T]
    ) -> T:
        """Work something out of these records once, since nothing here ever changes.

        It is kept by the very records, not by their ids: a draft is not what is saved.
        """
        key = (topic, *map(id, about))
        if key not in self._once:
            self._once[key] = about, work()
        value: T = self._once[key][1]  # type: ignore[assignment]
        return value

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
