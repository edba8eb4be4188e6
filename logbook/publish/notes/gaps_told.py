"""How each gap came out whose pieces were all measured, as the bench reckons it."""

from __future__ import annotations

from dataclasses import dataclass

from logbook.advice.gaps.came_out import came_out
from logbook.records.kinds.assembling import Fit
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class GapTold:
    """One gap as it came out in a build, and what that rests on."""

    says: str
    rests_on: tuple[str, ...]


def gaps_told(snapshot: Snapshot) -> tuple[GapTold, ...]:
    """Give how each gap came out, in every build that measured all of it."""
    return tuple(
        GapTold(one.statement, one.assumed)
        for one in came_out(snapshot, *snapshot.all(Fit))
    )
