"""Likely mates: a measured size that looks like the other side of another part's.

A mate is one size taken inside (an opening) and one taken outside (a length) of
two parts, flat with flat or round with round, and nearly equal. Sizes alone prove
little: without anything that names the two together only a pair is likely of
which neither has another candidate. How near is near, is our own choice.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from logbook.records.kinds.assembling import Joint, Step
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Entry, Run
from logbook.records.sizes.definition import dimension
from logbook.records.together.refs_held import refs_in
from logbook.records.together.revisions import current_revision
from logbook.records.together.snapshot import Snapshot

NEAR = 0.01
"""Difference up to which two sizes alone can suggest a mate, as a share."""
NEAR_NAMED = 0.05
"""The same where something names the two parts together."""
NEIGHBOURS = 0.10
"""Sizes alone say nothing where a third part has one as near as this."""
LEAST_MM = 10.0
"""Below this, equal sizes are too common to say anything by themselves."""
NEWEST = 8
"""How many of the last readings of a dimension count."""

INSIDE = {
    "opening": "flat", "slot": "flat", "channel": "flat", "groove": "flat",
    "recess": "flat", "pocket": "flat", "rebate": "flat", "mortise": "flat",
    "inside": "flat", "bore": "round", "hole": "round", "socket": "round",
}  # fmt: skip
OUTSIDE = {
    "length": "flat", "width": "flat", "thickness": "flat", "height": "flat",
    "size": "flat", "outside": "flat", "tongue": "flat", "tenon": "flat",
    "diameter": "round", "shaft": "round", "pin": "round", "spigot": "round",
}  # fmt: skip
WHERE_ONLY = frozenset(
    ("inset", "centre", "centres", "center", "centers", "distance", "spacing",
     "pitch", "depth", "edge", "position", "offset", "radius", "lean", "count")
)  # fmt: skip
"""Words that make of a dimension a place, not a size that anything goes into."""


@dataclass(frozen=True, slots=True)
class Side:
    """A dimension that could be one side of a gap; sizes in mm, the newest last."""

    what: Characteristic
    part: Part
    shape: str
    sizes: tuple[float, ...]
    measured: bool

    @property
    def words(self) -> frozenset[str]:
        """The words that tell this side from others."""
        every = {*words_of(self.part.title), *words_of(self.what.title)}
        return frozenset(every - INSIDE.keys() - OUTSIDE.keys() - WHERE_ONLY)


@dataclass(frozen=True, slots=True)
class Pair:
    """Two sides that could be mates; `apart` is a share, `named` if told together."""

    outer: Side
    inner: Side
    apart: float
    named: bool

    @property
    def key(self) -> str:
        """What the two sides are, by their ids."""
        return f"{self.outer.what.id} {self.inner.what.id}"

    @property
    def near(self) -> bool:
        """Whether the sizes, one of them measured, are near enough to ask about."""
        if not (self.outer.measured or self.inner.measured):
            return False
        if self.named:
            return self.apart <= NEAR_NAMED
        return self.apart <= NEAR and max(self.outer.sizes) >= LEAST_MM


def mates(snapshot: Snapshot) -> Iterator[Pair]:
    """Give each likely mate, at most one of two parts, the likeliest first."""
    outer, inner = _sides(snapshot)
    if outer and inner:
        yield from _likely(list(_pairs(outer, inner, _together(snapshot))))


# -- the sides ---------------------------------------------------------------------


def _sides(snapshot: Snapshot) -> tuple[list[Side], list[Side]]:
    readings = _readings(snapshot)
    outer: list[Side] = []
    inner: list[Side] = []
    for what in snapshot.all(Characteristic):
        words = words_of(what.title)
        if not WHERE_ONLY.isdisjoint(words):
            continue
        inside = next((INSIDE[word] for word in words if word in INSIDE), "")
        outside = next((OUTSIDE[word] for word in words if word in OUTSIDE), "")
        part = snapshot.find(what.part, Part)
        if part is None or not (inside or outside):
            continue
        if inside == "flat" and outside == "round":
            inside = "round"
        found = readings.get(what.id, [])
        sizes = (*_drawn(snapshot, part, what), *found[-NEWEST:])
        if sizes and min(sizes) > 0:
            side = Side(what, part, inside or outside, sizes, bool(found))
            (outer if inside else inner).append(side)
    return outer, inner


def _readings(snapshot: Snapshot) -> Mapping[str, list[float]]:
    """Give the lengths read of each dimension, in mm, the newest last."""
    found: dict[str, list[float]] = defaultdict(list)
    for run in snapshot.all(Run):
        for reading in run.readings:
            size = getattr(reading.value, "dimension", "")
            if size == "length" and reading.what.id:
                found[reading.what.id].append(float(reading.value.to("mm")))  # type: ignore[union-attr]
    return found


def _drawn(snapshot: Snapshot, part: Part, what: Characteristic) -> Iterator[float]:
    drawn = dimension(snapshot, current_revision(snapshot, part), what)
    if drawn.nominal is not None and drawn.nominal.dimension == "length":
        yield float(drawn.nominal.to("mm"))


def words_of(title: str) -> list[str]:
    """Give the words of a title that can tell it from another."""
    return re.findall(r"[^\W\d_]{2,}", title.casefold())


# -- the pairs ---------------------------------------------------------------------


def _pairs(
    outer: Iterable[Side], inner: Sequence[Side], together: set[frozenset[str]]
) -> Iterator[Pair]:
    """Give everything near enough to be a mate, or to be mistaken for one."""
    for one in outer:
        for other in inner:
            if one.shape != other.shape or one.part.id == other.part.id:
                continue
            apart = min(abs(a - b) / max(a, b) for a in one.sizes for b in other.sizes)
            if apart <= NEIGHBOURS:
                both = frozenset((one.part.id, other.part.id))
                named = bool(one.words & other.words) or both in together
                yield Pair(one, other, apart, named)


def _likely(pairs: Sequence[Pair]) -> Iterator[Pair]:
    """Give at most one pair of two parts, and none where another would do as well."""
    rivals: dict[tuple[str, bool], set[str]] = defaultdict(set)
    for pair in pairs:
        for mine, its in ((pair.outer, pair.inner), (pair.inner, pair.outer)):
            rivals[mine.what.id, False].add(its.part.id)
            if pair.named and pair.apart <= NEAR_NAMED:
                rivals[mine.what.id, True].add(its.part.id)
    seen: set[frozenset[str]] = set()
    for pair in sorted(pairs, key=lambda p: (not p.named, p.apart, p.key)):
        parts = frozenset((pair.outer.part.id, pair.inner.part.id))
        sides = (pair.outer, pair.inner)
        alone = all(len(rivals[one.what.id, pair.named]) == 1 for one in sides)
        if alone and pair.near and parts not in seen:
            seen.add(parts)
            yield pair


def _together(snapshot: Snapshot) -> set[frozenset[str]]:
    """Give the pairs of parts that a joint, a step or an entry names together."""
    found: set[frozenset[str]] = set()
    for record in snapshot:
        if isinstance(record, Joint | Step | Entry) and not isinstance(record, Run):
            refs = {ref.id for ref in refs_in(record) if ref.id}
            parts = sorted(i for i in refs if _is_part(snapshot, i))
            if len(parts) == 2:
                found.add(frozenset(parts))
    return found


def _is_part(snapshot: Snapshot, identity: str) -> bool:
    stored = snapshot.stored.get(identity)
    return stored is not None and isinstance(stored.record, Part)
