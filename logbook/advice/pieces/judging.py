"""One dimension of one piece judged: accept, reject, too close to call.

Plain acceptance compares the readings alone and marks what lies within their
uncertainty U of a limit, where somebody said that. A critical dimension is judged
with a guard band of U (ISO 14253-1); by choice the conformance probability decides
(JCGM 106). The worst place decides; places are never averaged. What somebody logged
as off its drawing without a reading is judged plainly by the size that was given.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction

from logbook.advice.pieces.readings import found_of, measured
from logbook.advice.pieces.uncertainty import UNSAID, is_banded
from logbook.errors import BadInput
from logbook.quantity import Quantity
from logbook.records.kinds.happenings import Run
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.workshop import Instrument, Piece
from logbook.records.sizes import definition
from logbook.records.sizes.definition import Dimension
from logbook.records.states.pieces import readings_of
from logbook.records.together.snapshot import Snapshot
from logbook.shop.fitting.decision import (
    Decision,
    Limits,
    Proof,
    Verdict,
    conformance_probability,
    decide,
)

PLAIN = "plain acceptance, marked where a limit is within U"
GUARDED = "guard band w = U (ISO 14253-1)"


class Word(StrEnum):
    """What is said of one dimension of a piece."""

    ACCEPT = "accept"
    REJECT = "reject"
    CLOSE = definition.TOO_CLOSE
    UNMEASURED = "unmeasured"
    NO_LIMITS = definition.NO_LIMITS
    SUIT = "made to suit"


@dataclass(frozen=True, slots=True)
class Rule:
    """How readings are judged; `chance` (0.5 to 1) is wanted of conformance.

    `assumed` takes a caliper's uncertainty where nobody said how well it was read.
    """

    guard: bool = False
    chance: float | None = None
    assumed: bool = False

    def said(self, *, critical: bool) -> str:
        """Say the rule as a dimension is judged by it."""
        if self is _LOGGED:
            return "as the deviation gives it, without a reading"
        if self.chance is not None:
            return f"conformance probability of {self.chance:.0%} (JCGM 106, 7)"
        return GUARDED if self.guard or critical else PLAIN


_LOGGED = Rule()


@dataclass(frozen=True, slots=True)
class Spot:
    """A value at a place, exact in the unit of the limits, with its U (k = 2)."""

    place: str
    value: Fraction
    wide: Fraction


@dataclass(frozen=True, slots=True)
class Judged:
    """What the readings of a dimension come to.

    `plain` is the verdict of the readings alone; `chance` the conformance
    probability at the worst place, None without limits or uncertainty.
    """

    word: Word
    plain: Verdict | None
    spots: tuple[Spot, ...]
    unit: str
    tool: Instrument | None
    chance: float | None
    runs: tuple[Ref, ...]
    said: tuple[str, ...]


def judged(snapshot: Snapshot, piece: Piece, drawn: Dimension, rule: Rule) -> Judged:
    """Judge a dimension of a piece by the limits it comes with, drawn or general."""
    size = drawn.nominal or drawn.lower or drawn.upper
    size = size or _newest(snapshot, piece, drawn)
    length = size is None or size.dimension == "length"
    unit = "mm" if length or size is None else size.unit
    chosen = rule.guard or rule.assumed or rule.chance is not None
    band = chosen or is_banded(drawn)
    found = (
        _length(snapshot, piece, drawn, band=band)
        if length or size is None
        else _other(snapshot, piece, drawn, size)
    )
    if found is None:
        before = found_of(snapshot, piece, drawn.characteristic).before
        told = tuple(filter(None, (before,)))
        return Judged(Word.UNMEASURED, None, (), unit, None, None, (), told)
    spots, tool, runs, said = found
    if not drawn.has_limits:
        return Judged(Word.NO_LIMITS, None, spots, unit, tool, None, runs, said)
    try:
        limits = Limits(_in(drawn.lower, unit), _in(drawn.upper, unit))
    except BadInput as refusal:
        told = (*said, str(refusal))
        return Judged(Word.NO_LIMITS, None, spots, unit, tool, None, runs, told)
    if not any(isinstance(snapshot.find(ref), Run) for ref in runs):
        spots = tuple(replace(spot, wide=Fraction(0)) for spot in spots)
        said, rule = (), _LOGGED
    critical = drawn.characteristic.critical and rule is not _LOGGED
    guarded = rule.guard or critical
    each = [_decided(spot, limits, guarded=guarded) for spot in spots]
    chance = min((one for one in _chances(spots, limits)), default=None)
    out = any(one.verdict is Verdict.REJECT for one in each)
    return Judged(
        _by_chance(chance, rule.chance)
        if rule.chance is not None and chance is not None
        else _word(each, guarded=guarded),
        Verdict.REJECT if out else Verdict.ACCEPT,
        spots,
        unit,
        tool,
        chance,
        runs,
        (*said, rule.said(critical=critical)),
    )


def _in(limit: Quantity | None, unit: str) -> Fraction | None:
    return None if limit is None else limit.to(unit)


def _decided(spot: Spot, limits: Limits, *, guarded: bool) -> Decision:
    return decide(spot.value, limits, spot.wide, None if guarded else Fraction(0))


def _word(each: list[Decision], *, guarded: bool) -> Word:
    if guarded:
        if any(one.proof is Proof.DOES_NOT_CONFORM for one in each):
            return Word.REJECT
        proved = all(one.proof is Proof.CONFORMS for one in each)
        return Word.ACCEPT if proved else Word.CLOSE
    if any(one.verdict is Verdict.REJECT and not one.too_close for one in each):
        return Word.REJECT
    return Word.CLOSE if any(one.too_close for one in each) else Word.ACCEPT


def _by_chance(chance: float, wanted: float) -> Word:
    if chance >= wanted:
        return Word.ACCEPT
    return Word.REJECT if chance <= 1 - wanted else Word.CLOSE


def _chances(spots: tuple[Spot, ...], limits: Limits) -> Iterator[float]:
    low, high = (None if x is None else float(x) for x in (limits.lower, limits.upper))
    for spot in spots:
        if spot.wide > 0:
            standard = float(spot.wide) / 2
            yield conformance_probability(float(spot.value), standard, low, high)


_Found = tuple[tuple[Spot, ...], Instrument | None, tuple[Ref, ...], tuple[str, ...]]


def _length(
    snapshot: Snapshot, piece: Piece, drawn: Dimension, *, band: bool
) -> _Found | None:
    """Give what was read of a length; an assumed uncertainty only where it is wanted.

    A guard `band` needs one; else what nobody said is not held against a reading, as
    it is not where the reading is typed.
    """
    read, _problems = measured(snapshot, piece, drawn.characteristic)
    if read is None:
        return None
    unsaid = bool(read.assumed) and not band
    spots = []
    for place in read.places:
        wide = 0 if unsaid else math.hypot(place.standard, read.scale / math.sqrt(3))
        value = Fraction(f"{place.value:.9f}")
        spots.append(Spot(place.name, value, Fraction(f"{2 * wide:.9f}")))
    said = tuple(one for one in read.said if not (unsaid and one in read.assumed))
    said += (UNSAID,) if unsaid else ()
    return tuple(spots), read.instrument, read.runs, said


def _newest(snapshot: Snapshot, piece: Piece, drawn: Dimension) -> Quantity | None:
    """Give the newest value of a dimension that is drawn with no size at all."""
    for taken in reversed(readings_of(snapshot, piece, drawn.characteristic)):
        if isinstance(taken.reading.value, Quantity):
            return taken.reading.value
    return None


def _other(
    snapshot: Snapshot, piece: Piece, drawn: Dimension, size: Quantity
) -> _Found | None:
    """Give what is no length, the newest reading of each place and state."""
    newest: dict[tuple[str, str], Spot] = {}
    runs: dict[Ref, None] = {}
    tool = None
    for taken in readings_of(snapshot, piece, drawn.characteristic):
        value = taken.reading.value
        if not isinstance(value, Quantity) or value.dimension != size.dimension:
            continue
        held = snapshot.find(taken.reading.instrument or taken.run.instrument)
        tool = held if isinstance(held, Instrument) else tool
        wide = tool.uncertainty if tool else None
        known = wide is not None and wide.dimension == size.dimension
        place = " ".join(taken.reading.place.lower().split())
        state = taken.state
        newest[place, state] = Spot(
            place,
            value.to(size.unit),
            # A difference: of a scale with an offset only the step counts.
            wide.value if known and wide and wide.unit == size.unit else Fraction(0),
        )
        runs[taken.run.ref] = None
    if not newest:
        return None
    return tuple(newest.values()), tool, tuple(runs), ()
