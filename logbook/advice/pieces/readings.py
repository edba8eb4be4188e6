"""What the readings of a piece come to, place by place.

Repeats at a place are averaged; places never are. A later reading that differs
by more than both can be wrong puts right what was read there, where it is as near to
the other places as that was; else the piece has changed: then only the later ones
count. So does a rework. Lengths in mm.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache, partial
from typing import NamedTuple

from logbook.advice.ground.refusing import refused
from logbook.advice.ground.register import remembered
from logbook.advice.pieces.in_doubt import Doubted, slips_among
from logbook.advice.pieces.piece_facts import Told, facts_of
from logbook.advice.pieces.uncertainty import Uncertainties, Uncertainty, assumed_of
from logbook.errors import BadInput, Problem
from logbook.quantity import Absent, Quantity
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import Reading, Run
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.workshop import Instrument, Piece
from logbook.records.together.snapshot import Snapshot

COATED = ("coat", "paint", "powder", "anodi", "lacquer", "plated")


class Place(NamedTuple):
    """A place in a state: the mean of its repeats, how sure (1 sd), and how many."""

    name: str
    value: float
    standard: float
    repeats: int = 1


@dataclass(frozen=True, slots=True)
class Measured:
    """What a dimension of a piece was measured as, and the runs it came from.

    `assumed` is what was taken for the instrument, where nobody said how well any of
    it was read; `said` holds that too.
    """

    places: tuple[Place, ...]
    scale: float
    instrument: Instrument | None
    coated: bool
    taken: tuple[Run, ...]
    said: tuple[str, ...]
    room: float | None = None
    assumed: frozenset[str] = frozenset()

    @property
    def runs(self) -> tuple[Ref, ...]:
        """The references of what it came from."""
        return tuple(run.ref for run in self.taken)

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
    uncertainty: Uncertainty
    run: Run
    room: float | None


class Found(NamedTuple):
    """What a dimension of a piece was measured as, and which readings do not count.

    `problems` are of readings that cannot be, `doubted` those that look like slips,
    which nobody has settled yet; `before` says what was read before a rework, where
    nothing was read since.
    """

    measured: Measured | None
    problems: tuple[Problem, ...]
    doubted: Doubted
    before: str = ""


def measured(
    snapshot: Snapshot, piece: Piece, what: Characteristic
) -> tuple[Measured | None, tuple[Problem, ...]]:
    """Give what a dimension of a piece was measured as, and readings that cannot be."""
    return found_of(snapshot, piece, what)[:2]


def found_of(snapshot: Snapshot, piece: Piece, what: Characteristic) -> Found:
    """Give what the readings of a dimension of a piece come to, and which are left."""
    work = partial(_found_of, snapshot, piece, what)
    return remembered(snapshot, "measured", (piece, what), work)


def _found_of(snapshot: Snapshot, piece: Piece, what: Characteristic) -> Found:
    problems: list[Problem] = []
    facts = facts_of(snapshot, piece)
    told = facts.told(what)
    doubted, settled = slips_among(snapshot, piece, what, told, facts.reworked)
    if doubted or settled:  # a slip says nothing of the piece, read again or not
        left_out = {*settled, *(one.id for one, _ in doubted)}
        told = [one for one in told if one[0].id not in left_out]
    ones: Sequence[_One] = list(_ones(snapshot, told, what, problems))
    if facts.reworked is not None:
        ones = [one for one in ones if one.at >= facts.reworked]
    if not ones:
        return Found(None, tuple(problems), doubted, facts.read_before(told))
    said = list(dict.fromkeys(one.uncertainty.said for one in ones))
    ones, changed = _still_so(ones)
    if changed:
        said.append(changed)
    return Found(_summed(ones, said), tuple(problems), doubted)


def _ones(
    snapshot: Snapshot, told: Told, what: Characteristic, problems: list[Problem]
) -> Iterator[_One]:
    """Give the readings, each with how far it can be trusted."""
    sure = Uncertainties(snapshot, problems)
    for reading, run in told:
        try:
            yield _one(reading, run, sure)
        except BadInput as refusal:
            name, found = f"{what.title} {reading.value}", snapshot[run.id]
            problems.append(refused(snapshot, found, "reading", refusal, name))


def _one(reading: Reading, run: Run, sure: Uncertainties) -> _One:
    assert not isinstance(reading.value, Absent)
    value = _mm(reading.value)
    room = float(reading.room.to("°C")) if reading.room else None
    return _One(
        value,
        reading.at,
        _plain(reading.place),
        _plain(reading.state or run.state),
        sure.of(reading, run, value),
        run,
        room,
    )


@lru_cache(maxsize=1024)
def _plain(words: str) -> str:
    return " ".join(words.lower().split())


def _mm(value: Quantity) -> float:
    exact = value.value if value.unit == "mm" else value.to("mm")
    return exact.numerator / exact.denominator


def _still_so(ones: Sequence[_One]) -> tuple[Sequence[_One], str]:
    """Leave out what a later reading shows to be no longer so; they come in order."""
    kept: list[_One] = []
    at = _by_spot(kept)
    said = ""
    for one in ones:
        spot = one.place, one.state
        same = at[spot]
        if same:
            mean = math.fsum([k.value for k in same]) / len(same)
            wide = 2 * math.hypot(
                one.uncertainty.standard, same[0].uncertainty.standard
            )
            if abs(one.value - mean) > wide + 1e-9:
                elsewhere = [k for k in kept if (k.place, k.state) != spot]
                right = _puts_right(one, mean, elsewhere)
                kept = [k for k in elsewhere if right or k.at == one.at]
                said = _said_of_change(one, mean, elsewhere, kept)
                at = _by_spot(kept)
        kept.append(one)
        at[spot].append(one)
    kept = [one for one in kept if _is_coated(one)] or kept
    named = [one for one in kept if one.place]
    if named and len(named) < len(kept):
        kept = [one for one in kept if one.place or _adds(one, named)]
    return kept, said


def _puts_right(one: _One, before: float, elsewhere: Sequence[_One]) -> bool:
    """Tell a slip put right, nearer to the other places, from a piece that changed."""
    sizes = [k.value for k in elsewhere if k.place and k.state == one.state]
    if not one.place or not sizes:
        return False
    low, high = min(sizes), max(sizes)
    was, now = (max(low - at, at - high, 0.0) for at in (before, one.value))
    return now <= was


def _said_of_change(
    one: _One, before: float, elsewhere: Sequence[_One], kept: Sequence[_One]
) -> str:
    """Say which reading counts now, and whether the other places still do."""
    at = f" at {one.place}" if one.place else ""
    said = f"read {before:.2f} mm{at} before; the later reading counts"
    if len(kept) < len(elsewhere):
        return (
            f"{said}, as of a piece worked on since: the others do not, till read anew"
        )
    return f"{said}, and the others as they were read" if kept else said


def _by_spot(ones: Iterable[_One]) -> defaultdict[tuple[str, str], list[_One]]:
    found: defaultdict[tuple[str, str], list[_One]] = defaultdict(list)
    for one in ones:
        found[one.place, one.state].append(one)
    return found


def _adds(one: _One, named: Sequence[_One]) -> bool:
    """Tell whether a later reading without a place says more than those with one."""
    if one.at <= max(other.at for other in named):
        return False
    wide = 2 * math.hypot(one.uncertainty.standard, named[0].uncertainty.standard)
    sizes = [other.value for other in named]
    return not min(sizes) - wide <= one.value <= max(sizes) + wide


def _is_coated(one: _One) -> bool:
    words = one.state.split()
    return "not" not in words and any(word.startswith(COATED) for word in words)


def _summed(ones: Sequence[_One], said: list[str]) -> Measured:
    groups: dict[str, list[_One]] = {}
    tools: dict[str, Instrument] = {}
    runs: dict[str, Run] = {}
    room: float | None = None
    for one in ones:
        both = f"{one.place}, {one.state}" if one.place and one.state else ""
        groups.setdefault(both or one.place or one.state, []).append(one)
        runs[one.run.id] = one.run
        tool = one.uncertainty.instrument
        if tool is not None:
            tools[tool.id] = tool
        if one.room is not None:
            room = one.room
    return Measured(
        tuple([_place(name, groups[name]) for name in sorted(groups)]),
        max([one.uncertainty.scale for one in ones]),
        next(iter(tools.values())) if len(tools) == 1 else None,
        _is_coated(ones[0]),  # then all are: those that are not count no more
        tuple(runs.values()),
        tuple(said),
        room,
        assumed_of(one.uncertainty for one in ones),
    )


def _place(name: str, group: list[_One]) -> Place:
    count = len(group)
    if count == 1:
        return Place(name, group[0].value, group[0].uncertainty.standard)
    mean = math.fsum(one.value for one in group) / count
    steady = max(one.uncertainty.steady for one in group)
    random = max(one.uncertainty.random for one in group)
    spread = math.fsum((one.value - mean) ** 2 for one in group) / (count - 1)
    random = max(random, math.sqrt(spread))
    return Place(name, mean, math.hypot(steady, random / math.sqrt(count)), count)
