"""A snapshot that notes what is looked at, and what of that changed since.

What changed and what was looked at are spoken of in the same keys: a record's id;
`@id` for what mentions it, `@id Class` for what of a class does; `#` for all records,
`#Class` for those of a class; `=name` for what has a name; `figure:…` for a figure of
the shop; `build` for the current build.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from operator import attrgetter
from typing import Any, TypeVar

from logbook.advice.ground.differing import compared, touched_by
from logbook.advice.ground.kept import Kept, Key, Node
from logbook.records.kinds import happenings
from logbook.records.kinds.design import Project
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build
from logbook.records.states.pieces import current_build
from logbook.records.together.snapshot import Snapshot, Turn

R = TypeVar("R", bound=Record)
T = TypeVar("T")

_ID = attrgetter("id")


@dataclass(frozen=True, slots=True)
class Moved:
    """What going on to another snapshot did: what is new or changed, what was let go.

    What is new or changed is given as ids, by class.
    """

    fresh: Mapping[type[Record], set[str]]
    gone: set[Node]


class Register:
    """A snapshot with what was worked out of it; `update` goes on to another one."""

    def __init__(self) -> None:
        """Begin with nothing."""
        self.snapshot = Snapshot({})
        self.kept = Kept()
        self.build: Build | None = None
        self._seen: Turn | None = None

    def update(self, snapshot: Snapshot, build: Build | None = None) -> Moved:
        """Go on to a snapshot, and let go of what hangs on what differs in it.

        `build` is the one in hand, where that is not the current one.
        """
        before = self.snapshot
        changed = self._go_on(snapshot)
        touched: set[Key] = set()
        for now in (before, self.snapshot) if self.kept.values else ():
            for identity in changed:
                if identity in now:
                    touched.update(touched_by(before, self.snapshot, now[identity]))
        chosen = self.snapshot.find(build.ref, Build) if build else None
        here = chosen or current_build(self.snapshot)
        if here is not self.build:
            self.build = here
            touched.add("build")
        fresh: dict[type[Record], set[str]] = {}
        for identity in changed & self.snapshot.stored.keys():
            cls = type(self.snapshot.stored[identity].record)
            fresh.setdefault(cls, set()).add(identity)
        return Moved(fresh, self.kept.forget(touched))

    def _go_on(self, snapshot: Snapshot) -> frozenset[str]:
        """Take a snapshot in place of the last; give the ids that differ."""
        changed = snapshot.changed_since(self._seen) if self._seen else None
        self._seen = snapshot.trail[-1]
        if changed is None:
            after, changed = compared(self.snapshot.stored, snapshot.stored)
            if after is not None:
                # Its own records are others than ours: the next one is compared too.
                self._seen = None
                snapshot = Snapshot(after, snapshot.problems, snapshot.read_only)
        self.snapshot = snapshot
        return changed


class View(Snapshot):
    """A snapshot over a register that notes in `read` what was looked at."""

    def __init__(
        self, register: Register, figures: Mapping[Any, Any] | None = None
    ) -> None:
        """Look at a register; `figures` are the shop's own, by their key."""
        over = register.snapshot
        super().__init__(over.stored, over.problems, over.read_only, trail=over.trail)
        self.over = over
        self.kept = register.kept
        self._build = register.build
        self.figures = {} if figures is None else figures
        self.read = set()

    # Unlike a snapshot it notes what it is asked, so it can be written to.
    __setattr__ = object.__setattr__

    over: Snapshot
    kept: Kept
    figures: Mapping[Any, Any]
    read: set[Key]
    _build: Build | None

    def __hash__(self) -> int:
        """Be told apart by identity."""
        return id(self)

    def __eq__(self, other: object) -> bool:
        """Be equal to nothing but itself."""
        return self is other

    @property
    def build(self) -> Build | None:
        """Give the current build."""
        self.read.add("build")
        if self._build is not None:
            self.read.add(self._build.id)
        return self._build

    def figure(self, key: Hashable) -> Any:
        """Give a figure of a shop, None where there is none."""
        self.read.add(f"figure:{key}")
        return self.figures.get(key)

    def __getitem__(self, identity: str) -> Record:
        """Give the record with this id."""
        self.read.add(identity)
        return self.stored[identity].record

    def __contains__(self, identity: object) -> bool:
        """Tell whether a record has this id."""
        self.read.add(str(identity))
        return identity in self.stored

    def __iter__(self) -> Iterator[Record]:
        """Go through all records by instant and id."""
        self.read.add("#")
        return iter(self.over)

    @property
    def project(self) -> Project:
        """Give the project record; a plain one where its file cannot be read."""
        self.read.add("#Project")
        return self.over.project

    def all(self, cls: type[R]) -> Sequence[R]:
        """Give all records of one class, by instant and id."""
        self.read.add(f"#{cls.__name__}")
        return self.over.all(cls)

    @property
    def entries(self) -> Sequence[happenings.Entry]:
        """Give everything that happened, in order."""
        self.read.add("#")
        return self.over.entries

    def find(self, ref: Ref | None, cls: type[Record] = Record) -> Any:
        """Follow a reference: by id, or by a name only one such record has."""
        if ref is None:
            return None
        if ref.id:
            self.read.add(ref.id)
            stored = self.stored.get(ref.id)
            if stored is None or not isinstance(stored.record, cls):
                return None
            return stored.record
        if not ref.name:
            return None
        matches = self.named(ref.name, cls)
        return matches[0] if len(matches) == 1 else None

    def bearing(self, name: str) -> tuple[Record, ...]:
        """Give every record that bears a folded name, now or formerly."""
        self.read.add(f"={name}")
        return self.over.bearing(name)

    def mentions(self, record: Record, *classes: type[Record]) -> Sequence[Any]:
        """Give the records that refer to this one, in order; those of some classes.

        A record that changes touches what it mentions, so the ids of those that
        mention this one need not be noted.
        """
        if not classes:
            self.read.add(f"@{record.id}")
            return self.over.mentions(record)
        self.read.update([f"@{record.id} {cls.__name__}" for cls in classes])
        return self.over.mentions(record, *classes)

    def once(
        self, _topic: object, _about: tuple[object, ...], work: Callable[[], T]
    ) -> T:
        """Work it out again: who asks hangs on all that is looked at for it."""
        return work()

    def remembered(
        self, topic: str, about: Sequence[Record], work: Callable[[], T]
    ) -> T:
        """Work something out of some records once, until any it looked at changes."""
        node: Node = (topic, *map(_ID, about))
        outer = self.read
        outer.add(node)
        if node in self.kept.values:
            kept: T = self.kept.values[node]
            return kept
        inner = self.read = set(node[1:])
        try:
            value = work()
        except BaseException:
            outer |= inner  # who asked hangs on what it could not be told from
            raise
        finally:
            self.read = outer
        self.kept.keep(node, value, inner)
        return value


def remembered(
    snapshot: Snapshot,
    topic: str,
    about: tuple[Record, ...],
    work: Callable[[], T],
) -> T:
    """Work something out once; a view keeps it for the snapshots to come, too."""
    if isinstance(snapshot, View):
        return snapshot.remembered(topic, about, work)
    return snapshot.once(topic, about, work)
