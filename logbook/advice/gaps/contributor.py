"""One dimension of a gap: what it is known to be, or what is missing. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

from logbook.advice.pieces.readings import Measured
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.workshop import Piece
from logbook.shop.chains.spread import Contributor


@dataclass(frozen=True, slots=True)
class Known:
    """One dimension of a gap.

    `low` and `high` are the sizes that govern entry and looseness; `half` is ± on
    either, `coverage` how many standard deviations that is. `free` is a size made
    to suit, that no drawing gives. `unread` are those of its `places` at which it was
    not read, though at others it was; `before` says what it read before a rework.
    """

    name: str
    what: Characteristic
    part: Part
    piece: Piece | None
    nominal: float
    low: float
    high: float
    half: float
    coverage: float
    read: Measured | None
    said: str
    inputs: tuple[Ref, ...]
    source: str = ""
    free: bool = False
    unread: tuple[str, ...] = ()
    places: int = 0
    before: str = ""

    @property
    def scale(self) -> float:
        """Half width of the scale error of its readings."""
        return self.read.scale if self.read else 0.0

    def sized(self, slope: float) -> tuple[float, float]:
        """Give the size at the tightest and at the loosest place, for a slope."""
        return (self.low, self.high) if slope > 0 else (self.high, self.low)

    def chained(self, slope: float, setup: str = "") -> Contributor:
        """Give it as a contributor to a chain, centred between its places."""
        middle = (self.low + self.high) / 2
        return Contributor(
            self.name, middle, self.half, self.half, slope,
            coverage=self.coverage, setup=setup,
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Unknown:
    """A dimension of which nothing says how big it is, or how far it may be off.

    The sentence says what is missing; `nominal` is its drawn size, if there is one.
    It is `doubted` where it was read, and a reading looks like a slip; `before` says
    what it read before a rework.
    """

    name: str
    what: Characteristic
    part: Part
    sentence: str
    nominal: float | None = None
    doubted: bool = False
    before: str = ""
