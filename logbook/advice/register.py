"""Records laid out for looking up, kept up to date by what changed.

A `View` is a snapshot that notes what was looked at, so that whatever was worked
out from it can be told to be out of date. What changed and what was looked at
are spoken of in the same keys: a record's id; `@id` for what mentions it; `#Class`
for all of a class; `=name` for what has a name; `~name` for references that give
only this name; `figure:…` for a figure of the shop; `build` for the current build.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any, TypeVar

from logbook.records import model
from logbook.records.ids import Ref
from logbook.records.model import Build, Entry, Project, Record
from logbook.records.snapshot import (
    Snapshot,
    Stored,
    age,
    current_names,
    folded,
    names_of,
    refs_in,
)

R = TypeVar("R", bound=Record)
T = TypeVar("T")


class Register:
    """All records by class, name and mention; `update` lays out another snapshot."""

    def __init__(self) -> None:
        """Begin with nothing."""
        self.snapshot = Snapshot({})
        self._refs: dict[str, tuple[Ref, ...]] = {}
        self._kinds: dict[type[Record], dict[str, Record]] = {}
        self._sorted: dict[type[Record], tuple[Record, ...]] = {}
        self._names: dict[str, dict[str, None]] = {}
        self._mentions: dict[str, dict[str, None]] = {}
        self._nameless: dict[str, dict[str, None]] = {}
        self._found: dict[str, tuple[Record, ...]] = {}
        self._keys: dict[str, tuple[str, ...]] = {}
        self.kept: dict[tuple[str, ...], tuple[Any, frozenset[str]]] = {}
        self.build: Build | None = None
        self._chosen = False
        self._last: Entry | None = None
        self._last_known = True

    def update(self, snapshot: Snapshot, build: Build | None = None) -> set[str]:
        """Lay out a snapshot in place of the last; give the keys that changed.

        `build` is the one in hand, where that is not the current one.
        """
        before = self.snapshot.stored
        after, changed = _compared(before, snapshot.stored)
        snapshot = Snapshot(after, snapshot.problems, snapshot.read_only)
        touched: set[str] = set()
        for identity in changed:
            if identity in before:
                self._take_away(before[identity].record, touched)
        self.snapshot = snapshot
        if not before:
            self._sorted.clear()
            self.kept.clear()
        for identity in changed:
            if identity in after:
                self._lay_out(after[identity].record, touched if before else None)
        here = self._in_hand(build) if changed or build or self._chosen else self.build
        self._chosen = build is not None
        if here is not self.build:
            self.build = here
            touched.add("build")
        self._forget(changed, touched)
        return touched

    def _forget(self, changed: Iterable[str], touched: set[str]) -> None:
        """Let go of what was worked out from what changed."""
        for identity in changed:
            self._keys.pop(identity, None)
            self._found.pop(identity, None)
        for key in touched:
            for identity in self._led_to(key):
                self._found.pop(identity, None)
        if touched:
            old = [k for k, one in self.kept.items() if not one[1].isdisjoint(touched)]
            for one in old:
                del self.kept[one]

    def _led_to(self, key: str) -> Iterable[str]:
        """Give the ids of what can be mentioned otherwise after a key was touched."""
        if key.startswith("@"):
            return (key[1:],)
        return self._names.get(key[1:], ()) if key[0] in "=~" else ()

    def _in_hand(self, build: Build | None) -> Build | None:
        chosen = self._by_ref(build.ref, Build) if build else None
        return chosen if isinstance(chosen, Build) else self._current_build()

    def _take_away(self, record: Record, touched: set[str]) -> None:
        identity = record.id
        self._kinds[type(record)].pop(identity, None)
        for name in names_of(record):
            self._names[name].pop(identity, None)
        for ref in self._refs.pop(identity, ()):
            held, key = self._place(ref)
            held.get(key, {}).pop(identity, None)
        if record is self._last:
            self._last_known = False
        self._touch(record, refs_in(record), touched)

    def _lay_out(self, record: Record, touched: set[str] | None) -> None:
        """Take a record in; where there was none before, nothing hangs on any."""
        identity = record.id
        self._kinds.setdefault(type(record), {})[identity] = record
        for name in names_of(record):
            self._names.setdefault(name, {})[identity] = None
        if isinstance(record, Entry) and record.build:
            self._last = max(self._last or record, record, key=age)
        refs = tuple(refs_in(record))
        self._refs[identity] = refs
        for ref in refs:
            held, key = self._place(ref)
            held.setdefault(key, {})[identity] = None
        if touched is not None:
            self._touch(record, refs, touched)

    def _place(self, ref: Ref) -> tuple[dict[str, dict[str, None]], str]:
        if ref.id:
            return self._mentions, ref.id
        return self._nameless, folded(ref.name)

    def _touch(self, record: Record, refs: Iterable[Ref], touched: set[str]) -> None:
        touched.add(record.id)
        touched.add(f"#{type(record).__name__}")
        self._sorted.pop(type(record), None)
        touched.update(f"={name}" for name in names_of(record))
        for ref in refs:
            touched.add(f"@{ref.id}" if ref.id else f"~{folded(ref.name)}")

    def _current_build(self) -> Build | None:
        """Give the build the last entry belongs to, else the newest build."""
        if not self._last_known:
            self._last, self._last_known = self._last_entry(), True
        last = self._last
        builds = [b for b in self.all(Build) if isinstance(b, Build)]
        found = self._by_ref(last.build, Build) if last else None
        if found is None or not builds or last is None:
            return builds[-1] if builds else None
        return builds[-1] if builds[-1].when > last.when else found

    def _last_entry(self) -> Entry | None:
        """Give the last entry that says to which build it belongs."""
        every = (one for held in self._kinds.values() for one in held.values())
        entries = (one for one in every if isinstance(one, Entry) and one.build)
        return max(entries, key=age, default=None)

    # -- looking up, for a view ------------------------------------------------------

    def all(self, cls: type[R]) -> tuple[R, ...]:
        """Give all records of exactly this class, by instant and id."""
        found = self._sorted.get(cls)
        if found is None:
            found = tuple(sorted(self._kinds.get(cls, {}).values(), key=age))
            self._sorted[cls] = found
        return found  # type: ignore[return-value]

    def called(self, name: str, cls: type[R]) -> tuple[R, ...]:
        """Give the records of a class with this folded name, now or formerly."""
        stored = self.snapshot.stored
        found = [stored[identity].record for identity in self._names.get(name, ())]
        kept = sorted((r for r in found if isinstance(r, cls)), key=age)
        now = [r for r in kept if name in current_names(r)]
        return tuple(now or kept)

    def mentioning(self, record: Record) -> tuple[Record, ...]:
        """Give the records that refer to this one, in order."""
        held = self._found.get(record.id)
        if held is None:
            held = self._found[record.id] = self._mentioning(record)
        return held

    def _mentioning(self, record: Record) -> tuple[Record, ...]:
        found = dict(self._mentions.get(record.id, {}))
        for name in names_of(record):
            for identity in self._nameless.get(name, ()):
                if any(self._by_ref(r) is record for r in self._refs[identity]):
                    found[identity] = None
        stored = self.snapshot.stored
        return tuple(sorted((stored[i].record for i in found), key=age))

    def mention_keys(self, record: Record) -> tuple[str, ...]:
        """Give the keys that are touched when what mentions a record changes."""
        keys = self._keys.get(record.id)
        if keys is None:
            names = names_of(record)
            keys = (
                f"@{record.id}", *(f"~{n}" for n in names), *(f"={n}" for n in names)
            )  # fmt: skip
            self._keys[record.id] = keys
        return keys

    def _by_ref(self, ref: Ref | None, cls: type[Record] = Record) -> Any:
        if ref is None or not ref:
            return None
        if ref.id:
            held = self.snapshot.stored.get(ref.id)
            return held.record if held and isinstance(held.record, cls) else None
        matches = self.called(folded(ref.name), cls)
        return matches[0] if len(matches) == 1 else None


def _compared(
    before: Mapping[str, Stored], now: Mapping[str, Stored]
) -> tuple[dict[str, Stored], list[str]]:
    """Give what is stored now, and the ids of what changed.

    A file read again is another object; what did not change stays the same.
    """
    after, changed = dict(now), []
    for identity, stored in now.items():
        held = before.get(identity)
        if held is stored:
            continue
        if held is not None and _same(held, stored):
            after[identity] = held
        else:
            changed.append(identity)
    changed += before.keys() - after.keys()
    return after, changed


def _same(one: Stored, other: Stored) -> bool:
    return one.sha256 == other.sha256 and one.path == other.path


class View(Snapshot):
    """A snapshot over a register that notes in `read` what was looked at."""

    def __init__(
        self, register: Register, figures: Mapping[str, Any] | None = None
    ) -> None:
        """Look at a register; `figures` are the shop's own, by their key."""
        snapshot = register.snapshot
        super().__init__(snapshot.stored, snapshot.problems, snapshot.read_only)
        object.__setattr__(self, "register", register)
        object.__setattr__(self, "figures", figures or {})
        object.__setattr__(self, "read", set())

    register: Register
    figures: Mapping[str, Any]
    read: set[str]

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
        if self.register.build is not None:
            self.read.add(self.register.build.id)
        return self.register.build

    def figure(self, key: str) -> Any:
        """Give a figure of the shop, None where there is none."""
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
        every = (one for cls in self.register._kinds for one in self.all(cls))  # noqa: SLF001
        return iter(sorted(every, key=age))

    @property
    def project(self) -> Project:
        """Give the project record; a plain one where its file cannot be read."""
        found = self.all(Project)
        return found[0] if found else Project(id="00000000", title="untitled")

    def all(self, cls: type[R]) -> tuple[R, ...]:
        """Give all records of one class, by instant and id."""
        self.read.add(f"#{cls.__name__}")
        return self.register.all(cls)

    @property
    def entries(self) -> tuple[model.Entry, ...]:
        """Give everything that happened, in order."""
        return tuple(one for one in self if isinstance(one, model.Entry))

    def find(self, ref: Ref | None, cls: type[Record] = Record) -> Any:
        """Follow a reference: by id, or by a name only one such record has."""
        if ref is None or not ref:
            return None
        if ref.id:
            self.read.add(ref.id)
            stored = self.stored.get(ref.id)
            fits = stored is not None and isinstance(stored.record, cls)
            return stored.record if stored and fits else None
        matches = self.named(ref.name, cls)
        return matches[0] if len(matches) == 1 else None

    def named(self, name: str, cls: type[R]) -> tuple[R, ...]:
        """Give the records called `name`, now or formerly, letter case aside."""
        word = folded(name)
        self.read.add(f"={word}")
        found = self.register.called(word, cls)
        self.read.update(record.id for record in found)
        return found

    def mentions(self, record: Record) -> tuple[Record, ...]:
        """Give the records that refer to this one, in order."""
        # A record that changes touches what it mentions, so the ids of those that
        # mention this one need not be noted.
        self.read.update(self.register.mention_keys(record))
        return self.register.mentioning(record)

    def remembered(
        self, topic: str, about: Sequence[Record | None], work: Callable[[], T]
    ) -> T:
        """Work something out of some records once, until any it looked at changes.

        What it looked at is noted as if it had been worked out here. Figures of the
        shop must not be asked for in it.
        """
        key = (topic, *(one.id if one else "" for one in about))
        held = self.register.kept.get(key)
        if held is None:
            outer = self.read
            object.__setattr__(self, "read", {one.id for one in about if one})
            try:
                value = work()
                inner = frozenset(self.read)
            finally:
                object.__setattr__(self, "read", outer)
            held = self.register.kept[key] = (value, inner)
        self.read |= held[1]
        kept: T = held[0]
        return kept


def remembered(
    snapshot: Snapshot,
    topic: str,
    about: Sequence[Record | None],
    work: Callable[[], T],
) -> T:
    """Work something out, once where the snapshot is a view that remembers."""
    if isinstance(snapshot, View):
        return snapshot.remembered(topic, about, work)
    return work()
