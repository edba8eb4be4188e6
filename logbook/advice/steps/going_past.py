"""What an act goes past, asked about in one order by whatever tells that it is done.

First whether it was done though it waits, and why; then what is to be seen before it
closes, one by one and by name; last whether it was done though something was not seen,
and why. Whoever said why once is not asked for a second reason.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import Enum, auto

from logbook.advice.ground.advice import Advice
from logbook.advice.steps.passing import (
    Reasons,
    WaitSort,
    Why,
    pass_all,
    passing,
    reasons_for,
    sort_of,
    why_of,
)
from logbook.advice.steps.ticks import (
    Tick,
    go_past_ticks,
    not_ticked_words,
    put_ticks,
    to_tick,
)
from logbook.records.making.drafts import Draft


class Ask(Enum):
    """What is to be asked next."""

    WHETHER = auto()
    WHY = auto()
    TICK = auto()
    NOTHING = auto()


@dataclass(slots=True)
class GoingPast:
    """The waits and ticks of an act, and what was answered about them so far."""

    waits: tuple[Advice, ...] = ()
    ticks: tuple[Tick, ...] = ()
    done: bool = False
    why: Why | None = None
    said: str = ""
    looked_at: list[bool] = field(default_factory=list)

    @property
    def asks(self) -> Ask:
        """Tell what is to be asked next."""
        if self.waits and self.why is None:
            return Ask.WHY if self.done else Ask.WHETHER
        if len(self.looked_at) < len(self.ticks):
            return Ask.TICK
        if self.unticked and self.why is None:
            return Ask.WHY if self.done else Ask.WHETHER
        return Ask.NOTHING

    @property
    def ticked(self) -> tuple[Tick, ...]:
        """Give what was seen."""
        return tuple(tick for tick, seen in self._answered if seen)

    @property
    def unticked(self) -> tuple[Tick, ...]:
        """Give what was asked about and not seen."""
        return tuple(tick for tick, seen in self._answered if not seen)

    @property
    def _answered(self) -> Iterable[tuple[Tick, bool]]:
        return zip(self.ticks, self.looked_at, strict=False)

    @property
    def against(self) -> list[str]:
        """Say what stands against it: what waits, and what was not seen."""
        said = [wait.statement for wait in self.waits]
        return said + ([not_ticked_words(self.unticked)] if self.unticked else [])

    @property
    def reasons(self) -> Reasons:
        """Give the reasons that fit what it goes past."""
        if self.waits:
            return reasons_for(map(sort_of, self.waits))
        closes, held = WaitSort.CLOSING, WaitSort.HOLD
        return reasons_for(closes if tick.sort else held for tick in self.unticked)

    def reasoned(self, said: str) -> bool:
        """Take a reason as answered; tell whether it is one."""
        self.why, self.said = why_of(said, self.reasons), said
        return self.why is not None

    def told(self, said: str) -> None:
        """Take the reason that came with the act; what was not told was not seen."""
        self.looked_at = [False] * len(self.ticks)
        self.done = self.reasoned(said)

    def reasoned_before(self, said: str, against: str) -> None:
        """Take the reason of another time, where the same stood against it then."""
        if said and self.asks is Ask.WHETHER and against == " · ".join(self.against):
            self.done = self.reasoned(said)

    def put(self, draft: Draft) -> None:
        """Put on record what was seen, and what was gone past with its reason."""
        put_ticks(draft, self.ticked)
        if self.why is not None:
            pass_all(draft, self.waits, self.why)
            if self.unticked:
                go_past_ticks(draft, self.why)


def going_past(draft: Draft, advice: Iterable[Advice]) -> GoingPast:
    """Give what the steps in a draft go past, nothing answered yet."""
    every = tuple(advice)
    return GoingPast(passing(draft, every), to_tick(draft, every))
