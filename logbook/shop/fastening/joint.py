"""Screw joints in the worst case: how far the screw stands through, or bottoms.

Nominal sizes alone are no answer: with washers and bought sheet the end of an
M4 screw wanders by several pitches. Every layer, the nut and the screw count
with both their limits. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from logbook.shop.fastening.screws import (
    LEAST_PITCHES,
    MOST_PITCHES,
    Nut,
    Screw,
    lengths,
    screw,
)


@dataclass(frozen=True, slots=True)
class Layer:
    """Something clamped: nominal thickness and its limits.

    `known` is False where nobody gave limits, so that nominal stands for both.
    """

    name: str
    thick: float
    low: float
    high: float
    known: bool = True


class Stand(StrEnum):
    """Whether one to three pitches stand through, in the worst case."""

    OK = "ok"
    SHORT = "short"
    MAY_BE_SHORT = "may be short"
    LONG = "long"
    MAY_BE_LONG = "may be long"
    MAY_BE_EITHER = "may be short or long"


class Ring(StrEnum):
    """Where a screw ends in a self-locking nut."""

    THROUGH = "through"
    IN_RING = "in the ring zone"
    BELOW = "below the ring"
    NONE = "no ring"


@dataclass(frozen=True, slots=True)
class Joint:
    """A worked-out through joint.

    `grip` is nominal; `through` values are how far the screw stands beyond the
    nut: nominal (with the nut at its highest), worst low and high; `rss` is the
    half width by root sum of squares about the middle of the worst cases.
    """

    screw: Screw
    nut: Nut
    grip: float
    grip_low: float
    grip_high: float
    through: float
    low: float
    high: float
    rss: float

    @property
    def middle(self) -> float:
        """The middle of the worst cases."""
        return _tidy((self.low + self.high) / 2)

    @property
    def verdict(self) -> Stand:
        """Judge the worst cases against one to three pitches."""
        least = LEAST_PITCHES * self.screw.pitch
        most = MOST_PITCHES * self.screw.pitch
        if self.high < least:
            return Stand.SHORT
        if self.low > most:
            return Stand.LONG
        if self.low < least:
            return Stand.MAY_BE_EITHER if self.high > most else Stand.MAY_BE_SHORT
        return Stand.MAY_BE_LONG if self.high > most else Stand.OK

    @property
    def above_face(self) -> float:
        """Nominal screw end above the nut's bearing face."""
        return _tidy(self.screw.length - self.grip)

    @property
    def above_face_low(self) -> float:
        """Worst-case lowest screw end above the nut's bearing face."""
        return _tidy(self.screw.low - self.grip_high)

    @property
    def ring(self) -> Ring:
        """Where the screw ends, nominally."""
        return self._ring(self.above_face)

    @property
    def ring_worst(self) -> Ring:
        """Where the screw ends in the worst case."""
        return self._ring(self.above_face_low)

    def _ring(self, end: float) -> Ring:
        if not self.nut.ringed:
            return Ring.NONE
        if end >= self.nut.high:
            return Ring.THROUGH
        return Ring.IN_RING if end > self.nut.metal else Ring.BELOW

    @property
    def engagement_low(self) -> float:
        """Thread in the nut in the worst case, at most the nut's least metal."""
        return max(0.0, min(self.above_face_low, self.nut.metal))


def _tidy(value: float) -> float:
    """Take the last bits of binary arithmetic off a length."""
    return round(value, 9)


def work_joint(bolt: Screw, layers: Sequence[Layer], nut: Nut) -> Joint:
    """Work out a through joint: stand-through = length − layers − nut height.

    The low worst case takes the screw short and all else thick, the high one
    the other way round.
    """
    grip = math.fsum(layer.thick for layer in layers)
    low = math.fsum(layer.low for layer in layers)
    high = math.fsum(layer.high for layer in layers)
    halves = [(layer.high - layer.low) / 2 for layer in layers]
    halves += [(bolt.high - bolt.low) / 2, (nut.high - nut.low) / 2]
    return Joint(
        bolt,
        nut,
        _tidy(grip),
        _tidy(low),
        _tidy(high),
        _tidy(bolt.length - grip - nut.high),
        _tidy(bolt.low - high - nut.high),
        _tidy(bolt.high - low - nut.low),
        math.sqrt(math.fsum(half**2 for half in halves)),
    )


def choose_length(
    size: str, layers: Sequence[Layer], nut: Nut, series: str, grade: str = "A"
) -> Joint | None:
    """Give the joint with the shortest listed screw that always stands one pitch.

    None where no listed length is long enough.
    """
    for length in lengths(series):
        found = work_joint(screw(size, length, grade), layers, nut)
        if found.low >= LEAST_PITCHES * found.screw.pitch - 1e-9:
            return found
    return None


@dataclass(frozen=True, slots=True)
class Blind:
    """A screw in a tapped or inserted hole.

    `engaged_low` is the thread that surely bites, `reach_high` how deep the end
    can come below the face, `room` what is then left under it (negative: it
    bottoms).
    """

    engaged_low: float
    reach_low: float
    reach_high: float
    room: float

    @property
    def bottoms(self) -> bool:
        """Whether the screw can touch the bottom before it clamps."""
        return self.room < 0


def blind_joint(
    bolt: Screw, layers: Sequence[Layer], threaded: float, depth: float
) -> Blind:
    """Work out a screw through `layers` into a hole `depth` deep.

    `threaded` is the length of thread in the hole or the insert, from its face.
    """
    low = bolt.low - math.fsum(layer.high for layer in layers)
    high = bolt.high - math.fsum(layer.low for layer in layers)
    return Blind(
        _tidy(max(0.0, min(low, threaded))),
        _tidy(low),
        _tidy(high),
        _tidy(depth - high),
    )
