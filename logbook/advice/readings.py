"""What the readings of a piece come to, place by place.

Repeats at a place are averaged; places never are. A later reading that differs
by more than both can be wrong means that the piece has changed: then only the
later ones count. So does a rework. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache, partial
from typing import NamedTuple

from logbook.advice.doubt import Doubt, doubt
from logbook.advice.in_doubt import open_slips
from logbook.advice.piece_facts import Facts, facts_of, of_size
from logbook.advice.refusing import refused
from logbook.advice.register import remembered
from logbook.errors import BadInput, Problem
from logbook.quantity import Absent, Quantity
from logbook.records.design import Characteristic
from logbook.records.happenings import Reading, Run
from logbook.records.ids import Ref
from logbook.records.snapshot import Snapshot
from logbook.records.workshop import Instrument, Piece

COATED = ("coat", "paint", "powder", "anodi", "lacquer", "plated")


@dataclass(frozen=True, slots=True)
class Place:
    """A place in a state: the mean of its repeats and its standard uncertainty."""

    name: str
    value: float
    standard: float
    count: int


@dataclass(frozen=True, slots=True)
class Measured:
    """What a dimension of a piece was measured as; `runs` are what it came from."""

    places: tuple[Place, ...]
    scale: float
    instrument: Instrument | None
    coated: bool
    runs: tuple[Ref, ...]
    said: tuple[str, ...]
    room: float | None = None

    @property
    def low(self) -> float:
        """The smallest place."""
        return min(place.value for place in self.places)

    @property
    def high(self) -> float:
        """The largest place."""
        return max(place.value for place in self.places)

    @property
    def standard(self) -> float:
        """The largest standard uncertainty of a place."""
        return max(place.standard for place in self.places)

    @property
    def smallest(self) -> Place:
        """The place that reads smallest."""
        return min(self.places, key=lambda place: place.value)

    @property
    def largest(self) -> Place:
        """The place that reads largest."""
        return max(self.places, key=lambda place: place.value)

    @property
    def disagree(self) -> bool:
        """Whether two places differ by more than both can be wrong (k = 2)."""
        return self.high - self.low > 2 * math.sqrt(2) * self.standard


class _One(NamedTuple):
    value: float
    at: datetime
    place: str
    state: str
    doubt: Doubt
    run: Run
    room: float | None


def measured(
    snapshot: Snapshot, piece: Piece, what: Characteristic
) -> tuple[Measured | None, tuple[Problem, ...]]:
    """Give what a dimension of a piece was measured as, and readings that cannot be."""
    work = partial(_measured, snapshot, piece, what)
    return remembered(snapshot, "measured", (piece, what), work)


def _measured(
    snapshot: Snapshot, piece: Piece, what: Characteristic
) -> tuple[Measured | None, tuple[Problem, ...]]:
    problems: list[Problem] = []
    facts = facts_of(snapshot, piece)
    doubted = {one.id for one, _ in open_slips(snapshot, piece, what)}
    ones = list(_ones(snapshot, facts, what, doubted, problems))
    ones = _after_rework(ones, facts.reworks)
    if not ones:
        return None, tuple(problems)
    said = list(dict.fromkeys(one.doubt.said for one in ones))
    ones, changed = _still_so(ones)
    if changed:
        said.append(changed)
    return _summed(ones, said), tuple(problems)


def _ones(
    snapshot: Snapshot,
    facts: Facts,
    what: Characteristic,
    doubted: Collection[str],
    problems: list[Problem],
) -> Iterator[_One]:
    """Give the readings; a deviation's figure counts where nothing was read.

    What looks like a slip that nobody settled counts for nothing yet.
    """
    told = of_size(facts.readings, what) or of_size(facts.deviations, what)
    for reading, run in told:
        if reading.id in doubted:
            continue
        try:
            yield _one(snapshot, reading, run, problems)
        except BadInput as refusal:
            name, found = f"{what.title} {reading.value}", snapshot[run.id]
            problems.append(refused(snapshot, found, "reading", refusal, name))


def _one(
    snapshot: Snapshot, reading: Reading, run: Run, problems: list[Problem]
) -> _One:
    assert not isinstance(reading.value, Absent)
    value = _mm(reading.value)
    room = float(reading.room.to("°C")) if reading.room else None
    return _One(
        value,
        reading.at,
        _plain(reading.place),
        _plain(reading.state or run.state),
        doubt(snapshot, reading, run, value, problems),
        run,
        room,
    )


@lru_cache(maxsize=1024)
def _plain(words: str) -> str:
    return " ".join(words.lower().split())


def _mm(value: Quantity) -> float:
    exact = value.value if value.unit == "mm" else value.to("mm")
    return exact.numerator / exact.denominator


def _after_rework(ones: list[_One], reworks: Sequence[datetime]) -> list[_One]:
    last = max(reworks, default=None)
    return ones if last is None else [one for one in ones if one.at >= last]


def _still_so(ones: list[_One]) -> tuple[list[_One], str]:
    """Leave out what a later reading shows to be no longer so."""
    ones = sorted(ones, key=lambda one: one.at)
    kept: list[_One] = []
    said = ""
    for one in ones:
        same = [k for k in kept if k.place == one.place and k.state == one.state]
        if same:
            mean = math.fsum(k.value for k in same) / len(same)
            wide = 2 * math.hypot(one.doubt.standard, same[0].doubt.standard)
            if abs(one.value - mean) > wide + 1e-9:
                said = f"read {mean:.2f} mm before; the later reading counts"
                kept = [k for k in kept if k.at == one.at and k not in same]
        kept.append(one)
    kept = [one for one in kept if _is_coated(one)] or kept
    named = [one for one in kept if one.place]
    if named:
        kept = [one for one in kept if one.place or _adds(one, named)]
    return kept, said


def _adds(one: _One, named: Sequence[_One]) -> bool:
    """Tell whether a later reading without a place says more than those with one."""
    if one.at <= max(other.at for other in named):
        return False
    wide = 2 * math.hypot(one.doubt.standard, named[0].doubt.standard)
    sizes = [other.value for other in named]
    return not min(sizes) - wide <= one.value <= max(sizes) + wide


def _is_coated(one: _One) -> bool:
    return bool(one.state) and any(word in one.state for word in COATED)


def _summed(ones: list[_One], said: list[str]) -> Measured:
    groups: dict[str, list[_One]] = {}
    for one in ones:
        name = (
            f"{one.place}, {one.state}"
            if one.place and one.state
            else (one.place or one.state)
        )
        groups.setdefault(name, []).append(one)
    tools = {one.doubt.instrument.id: one.doubt.instrument
             for one in ones if one.doubt.instrument}  # fmt: skip
    return Measured(
        tuple(_place(name, group) for name, group in sorted(groups.items())),
        max(one.doubt.scale for one in ones),
        next(iter(tools.values())) if len(tools) == 1 else None,
        _is_coated(ones[0]),  # then all are: those that are not count no more
        tuple([run.ref for run in {one.run.id: one.run for one in ones}.values()]),
        tuple(said),
        next((one.room for one in reversed(ones) if one.room is not None), None),
    )


def _place(name: str, group: list[_One]) -> Place:
    count = len(group)
    if count == 1:
        return Place(name, group[0].value, group[0].doubt.standard, 1)
    mean = math.fsum(one.value for one in group) / count
    steady = max(one.doubt.steady for one in group)
    random = max(one.doubt.random for one in group)
    spread = math.fsum((one.value - mean) ** 2 for one in group) / (count - 1)
    random = max(random, math.sqrt(spread))
    return Place(name, mean, math.hypot(steady, random / math.sqrt(count)), count)
