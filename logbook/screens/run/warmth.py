"""How warm the room is while one measures, and how long what is measured was warm.

Told once in a run, it goes on record with each reading that follows, for as long as it
may still be so: a shop warms up over a morning, and what runs warms up within minutes.
It is always shown with the time it was told at.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from itertools import islice

from logbook.advice.proposed.conditions import read_conditions
from logbook.errors import BadInput
from logbook.quantity import Absent, Quantity
from logbook.records.kinds.happenings import Reading, Run
from logbook.records.together.snapshot import Snapshot
from logbook.screens.ruled.asking import Question

ROOM_HOLDS = timedelta(hours=2)
"""So long a room may be taken for as warm as told (common practice, no source)."""
HOURS_HOLD = timedelta(minutes=15)
"""So long a part may be taken for as long warm as told, likewise."""
RUNS = 20
"""So many of the newest runs are looked through for what the room was last."""
UNSAID = "unsaid"
ACCEPTS = "how warm the room is, and after how long, as 22 °C, 2 h"


@dataclass(frozen=True, slots=True)
class Warmth:
    """What was told of the room and how long something had been warm, and when."""

    room: Quantity | None = None
    after: Quantity | None = None
    told: datetime | None = None

    @property
    def kept(self) -> tuple[str, str]:
        """Give it as it is kept while a run is interrupted; `kept_warmth` reads it."""
        both = ", ".join(one.text for one in (self.room, self.after) if one)
        return both, self.told.isoformat() if self.told else ""

    def holds(self, now: datetime) -> Warmth:
        """Give what of it may still be taken for so."""
        if self.told is None or not timedelta(0) <= now - self.told <= ROOM_HOLDS:
            return Warmth()
        return self if now - self.told <= HOURS_HOLD else replace(self, after=None)

    def with_reading(
        self, value: Quantity | Absent, now: datetime
    ) -> tuple[Quantity | None, Quantity | None]:
        """Give the room and the hours that go on record with a value.

        A length is not read after hours of anything.
        """
        still = self.holds(now)
        return still.room, still.after if is_warmth(value) else None

    def words(self, now: datetime) -> str:
        """Say what holds, and since when; of what holds no more, that it was told."""
        if self.told is None:
            return ""
        at, still = f"{self.told.astimezone():%H:%M}", self.holds(now)
        held = [str(still.room)] if still.room else []
        held += [f"after {still.after}"] if still.after else []
        gone = [f"after {self.after}"] if self.after and not still.after else []
        gone = [str(self.room), *gone] if self.room and not still.room else gone
        said = [f"{', '.join(held)}, told {at}"] if held else []
        said += [f"{', '.join(gone)} was told {at} and holds no more"] if gone else []
        return "; ".join(said)


def is_warmth(value: object) -> bool:
    """Tell whether a value is a temperature."""
    return isinstance(value, Quantity) and value.dimension == "temperature"


def told_before(snapshot: Snapshot, now: datetime) -> Warmth:
    """Give what the readings on record tell of the room as it is by now.

    It was told when the first of those that say the same was taken.
    """
    newest = islice(reversed(snapshot.all(Run)), RUNS)
    read = sorted((one for run in newest for one in run.readings), key=_at)
    found = Warmth()
    for one in read:
        if one.room is None or one.room == found.room:
            continue
        found = Warmth(one.room, None, one.at)
    return found if found.holds(now).room else Warmth()


def _at(reading: Reading) -> datetime:
    return reading.at


def read_warmth(text: str, now: datetime) -> Warmth:
    """Read what is told of the room and the hours.

    Raises:
        BadInput: it is something else; the sentence says what is accepted.
    """
    found = read_conditions(text)
    if not found.place:
        return Warmth(found.room, found.after, now)
    why = "a temperature has its unit"
    if not any(sign.isdigit() for sign in found.place):
        why = "a place is typed before what is read there: face 51 °C"
    raise BadInput(f"found “{found.place}”; accepted: {ACCEPTS}; {why}")


def kept_warmth(text: str, told: str) -> Warmth:
    """Give what was kept of a run that was interrupted."""
    return read_warmth(text, datetime.fromisoformat(told)) if text else Warmth()


def how_warm(now: datetime) -> Question:
    """Ask how warm the room is."""

    def refuses(said: str) -> str:
        try:
            read_warmth(said, now)
        except BadInput as refusal:
            return str(refusal).partition("accepted: ")[2]
        return ""

    return Question(
        "how warm is the room, and after how long is it read?",
        {"x": ("not told any more", UNSAID)},
        "as it is",
        open_ended=True,
        refuses=refuses,
    )
