"""Which reading of a line a wanted size is of: 23.9 wide, drawing 24, height 9.15."""

from __future__ import annotations

from logbook.plain.understanding import Facts, Reading, Understanding
from logbook.quantity import Quantity


def unpaired(facts: Facts) -> bool:
    """Tell whether several wanted sizes cannot be told apart by their order."""
    return len(facts.wanted) not in (1, len(facts.readings))


def wanted_of(line: Understanding, at: int) -> Quantity | None:
    """Give what was wanted of a reading: the size in its place, or the only one.

    The only one is of the dimension told right before it, at whatever places.
    """
    facts = line.facts
    if not facts.wanted or unpaired(facts):
        return None
    if len(facts.wanted) > 1:
        return _like(facts, at, facts.wanted[at])
    [wanted] = facts.wanted
    if len({one.what for one in facts.readings}) < 2 or not facts.readings:
        return _like(facts, at, wanted)
    meant = _told_before(line) or _nearest(facts.readings, wanted)
    told_of = meant and facts.readings[at].what == meant.what
    return _like(facts, at, wanted) if told_of else None


def _like(facts: Facts, at: int, wanted: Quantity) -> Quantity | None:
    """Give the wanted size where the reading is of its dimension: no volts of mm."""
    if at >= len(facts.readings):
        return wanted
    return wanted if facts.readings[at].value.dimension == wanted.dimension else None


def _told_before(line: Understanding) -> Reading | None:
    """Give the reading told last before the wanted size, else the first one."""
    read, readings = line.words.get("readings", ()), line.facts.readings
    wanted = line.words.get("wanted", ())
    if len(read) != len(readings) or not wanted:
        return None
    said = max(one.start for one in wanted)
    before = [at for at, one in enumerate(read) if one.start < said]
    return readings[before[-1] if before else 0]


def _nearest(readings: tuple[Reading, ...], wanted: Quantity) -> Reading | None:
    """Give the reading nearest to the wanted size, None where none is comparable."""
    alike = [
        one
        for one in readings
        if not (one.value.metal or wanted.metal)
        and one.value.dimension == wanted.dimension
    ]
    key = {id(one): abs(one.value.to(wanted.unit) - wanted.value) for one in alike}
    return min(alike, key=lambda one: key[id(one)], default=None)
