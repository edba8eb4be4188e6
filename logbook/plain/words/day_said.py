"""The day that what is typed next is of, said once for all of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, time, timedelta


@dataclass(frozen=True, slots=True)
class DaySaid:
    """The instant `at` that was told, and when that was `said`; `exact` with its hour.

    What follows keeps its order: it goes on from that instant as the clock does.
    """

    at: datetime
    said: datetime
    exact: bool

    def instant(self, now: datetime) -> datetime:
        """Give the instant that what is typed now is of: that day, never to come."""
        gone = max(now - self.said, timedelta(0))
        last = datetime.combine(self.at.date(), time(23, 59, 59), self.at.tzinfo)
        return min(self.at + gone, last, now)
