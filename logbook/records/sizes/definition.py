"""What a revision defines: its dimensions, the changes of earlier ones included."""

from __future__ import annotations

import re
from dataclasses import dataclass

from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity, quantity
from logbook.records.kinds.design import Change, Characteristic, Part, Revision
from logbook.records.together.references import refers
from logbook.records.together.revisions import line_to
from logbook.records.together.snapshot import Snapshot

OFF_DRAWING = "off drawing"
WITHIN = "within"
TOO_CLOSE = "too close to call"
NO_LIMITS = "no limits drawn"
"""These words stand in releases that went out: they stay as they are."""


@dataclass(frozen=True, slots=True)
class Dimension:
    """A characteristic as one revision defines it, its limits as quantities.

    One made `to_suit` a gap has no size of its own. `general` names the general
    tolerance its limits are by, where the drawing gives none on the size itself.
    """

    characteristic: Characteristic
    nominal: Quantity | None
    lower: Quantity | None
    upper: Quantity | None
    to_suit: bool = False
    general: str = ""

    @property
    def has_limits(self) -> bool:
        """Tell whether there is a limit on either side."""
        return self.lower is not None or self.upper is not None

    @property
    def limits_by(self) -> str:
        """Name the general tolerance the limits are by; empty if they are drawn."""
        named = self.characteristic.limits_from if self.has_limits else ""
        return self.general or named

    @property
    def name(self) -> str:
        """Give the name of the characteristic."""
        return self.characteristic.title

    def verdict(self, value: Quantity) -> str:
        """Say in shop words where a value stands, by its number alone."""
        if not self.has_limits:
            return NO_LIMITS
        low = self.lower is None or value.to(self.lower.unit) >= self.lower.value
        high = self.upper is None or value.to(self.upper.unit) <= self.upper.value
        return WITHIN if low and high else OFF_DRAWING


def characteristics_of(snapshot: Snapshot, part: Part) -> tuple[Characteristic, ...]:
    """Give the characteristics of a part, of whatever revision, oldest first."""
    mentioned = snapshot.mentions(part, Characteristic)
    return tuple(c for c in mentioned if refers(snapshot, c.part, part))


def definition(snapshot: Snapshot, revision: Revision) -> tuple[Dimension, ...]:
    """Give the dimensions a revision defines, changes of earlier ones included."""
    part = snapshot.find(revision.part, Part)
    if part is None:
        return ()
    line = line_to(snapshot, revision)
    reached = {one.id for one in line}
    made: dict[str, Dimension] = {}
    for item in characteristics_of(snapshot, part):
        since = snapshot.find(item.since, Revision)
        if since is None or since.id in reached:
            made[item.id] = Dimension(
                item, item.nominal, item.lower_limit, item.upper_limit
            )
    for one in line:
        for change in one.changes:
            _apply(snapshot, change, made)
    return tuple(made.values())


def _apply(snapshot: Snapshot, change: Change, made: dict[str, Dimension]) -> None:
    target = snapshot.find(change.characteristic, Characteristic)
    if target is None or target.id not in made:
        return
    if change.withdrawn:
        del made[target.id]
        return
    if change.to_suit:
        made[target.id] = Dimension(target, None, None, None, to_suit=True)
        return
    before = made[target.id]
    made[target.id] = Dimension(
        target,
        change.becomes or before.nominal,
        change.lower_limit or _moved(before.lower, before.nominal, change.becomes),
        change.upper_limit or _moved(before.upper, before.nominal, change.becomes),
    )


def _moved(
    limit: Quantity | None, was: Quantity | None, becomes: Quantity | None
) -> Quantity | None:
    """Give a limit moved along with its nominal: the tolerance stays what it was.

    Where the sizes are of different kinds, which is told as a problem, it stays.
    """
    if limit is None or was is None or becomes is None:
        return limit
    try:
        by = becomes.to(limit.unit) - was.to(limit.unit)
    except BadInput:
        return limit
    return quantity(limit.value + by, limit.unit, min(limit.step, becomes.step))


def dimension(
    snapshot: Snapshot, revision: Revision | None, characteristic: Characteristic
) -> Dimension:
    """Give one characteristic as a revision defines it."""
    if revision is not None:
        for found in definition(snapshot, revision):
            if found.characteristic.id == characteristic.id:
                return found
    c = characteristic
    return Dimension(c, c.nominal, c.lower_limit, c.upper_limit)


def drawn_text(drawn: Dimension) -> str:
    """Give nominal and limits as drawn, or say that there are none."""
    if drawn.to_suit:
        return "made to suit"
    if drawn.nominal is None:
        return "no size drawn"
    if drawn.lower is None and drawn.upper is None:
        return f"{drawn.nominal}, {NO_LIMITS}"
    return f"{drawn.nominal} ({drawn.lower or '…'} to {drawn.upper or '…'})"


_SAID = re.compile(r"(?P<nominal>.+?) \((?P<lower>.+?) to (?P<upper>.+?)\)")


def drawn_as_said(item: Characteristic, text: str) -> Dimension | None:
    """Give the dimension that `drawn_text` said so, as a release froze it.

    None where the text says no such thing.
    """
    if text == "made to suit":
        return Dimension(item, None, None, None, to_suit=True)
    if text == "no size drawn":
        return Dimension(item, None, None, None)
    bare, none_drawn, _ = text.partition(f", {NO_LIMITS}")
    found = _SAID.fullmatch(text)
    try:
        if none_drawn:
            return Dimension(item, parse_quantity(bare), None, None)
        if found is None:
            return None
        low, high = (
            None if said == "…" else parse_quantity(said)
            for said in (found["lower"], found["upper"])
        )
        return Dimension(item, parse_quantity(found["nominal"]), low, high)
    except BadInput:
        return None
