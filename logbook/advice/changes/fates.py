"""What a change means for each piece that is made: fine, rework, remake, or look.

Only proposed: the maker decides. What he said in the revision (remake: yes, no,
only if …) comes first, then the piece's own readings against the new limits.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from logbook.advice.changes.impact import Change, Moved
from logbook.advice.faults.failing import brought_back
from logbook.advice.faults.headline import headline
from logbook.advice.ground.lengths import shown_in
from logbook.advice.pieces.judging import Judged, Rule, Word, judged
from logbook.errors import BadInput
from logbook.records.kinds.words import Trim
from logbook.records.kinds.workshop import Piece
from logbook.records.sizes.definition import TOO_CLOSE, Dimension
from logbook.records.sizes.limits_held import held_text
from logbook.records.states.pieces import is_on_hand, pieces_of
from logbook.records.together.snapshot import Snapshot


class Fate(StrEnum):
    """What is proposed for a piece."""

    REMAKE = "remake"
    REWORK = "rework"
    LOOK = "look at it"
    FINE = "fine"


_WORST = tuple(Fate)


@dataclass(frozen=True, slots=True)
class Proposed:
    """What is proposed for a piece of an earlier revision, and why."""

    piece: Piece
    fate: Fate
    because: str


def proposed(snapshot: Snapshot, change: Change) -> tuple[Proposed, ...]:
    """Propose what becomes of each piece on hand that is not of the new revision."""
    found = []
    for piece in pieces_of(snapshot, change.part):
        same = change.after and snapshot.find(piece.revision) is change.after
        if not same and is_on_hand(snapshot, piece):
            fate, because = _fate(snapshot, change, piece)
            found.append(Proposed(piece, fate, because))
    return tuple(found)


def _fate(snapshot: Snapshot, change: Change, piece: Piece) -> tuple[Fate, str]:
    revision = change.after
    if revision and (again := brought_back(snapshot, revision)):
        back = f"what it was to cure is back: {headline(snapshot, again)}"
        return Fate.LOOK, f"not to {revision.title}: {back}"
    said = " ".join(revision.remake.casefold().split()) if revision else ""
    if revision and said == "yes":
        return Fate.REMAKE, f"{revision.title} says so"
    if revision and said == "no":
        return Fate.FINE, f"{revision.title} says that nothing is to be remade"
    reasons = list(_reasons(snapshot, change, piece))
    if not reasons:
        reasons = [(Fate.LOOK, _nothing_known(change))]
    fate = min((fate for fate, _ in reasons), key=_WORST.index)
    because = "; ".join(why for one, why in reasons if one is fate)
    if revision and said:
        because += f"; {revision.title} says: {revision.remake}"
        fate = min(fate, Fate.LOOK, key=_WORST.index)
    return fate, because


def _nothing_known(change: Change) -> str:
    if change.files:
        return f"{', '.join(change.files)} changed, and no dimension says how"
    return "nothing on record says what changes"


def _reasons(
    snapshot: Snapshot, change: Change, piece: Piece
) -> Iterator[tuple[Fate, str]]:
    if change.material:
        was, becomes = change.material
        yield (
            Fate.REMAKE,
            f"it is made of {was or 'another material'}, not of {becomes}",
        )
    for moved in change.moved:
        yield _by_size(snapshot, piece, moved)


def _by_size(snapshot: Snapshot, piece: Piece, moved: Moved) -> tuple[Fate, str]:
    name, after = moved.what.title, moved.after
    if after is None:
        return Fate.FINE, f"{name} is drawn no more"
    if after.to_suit:
        return Fate.FINE, f"{name} is made to suit, its gap decides"
    found = judged(snapshot, piece, after, Rule(assumed=True))
    if found.word is Word.ACCEPT:
        return Fate.FINE, f"{name} as read is within {held_text(after)}"
    if found.word is Word.REJECT:
        return _off(found, after)
    if found.word is Word.CLOSE:
        return Fate.LOOK, f"{name} as read is {TOO_CLOSE} for {held_text(after)}"
    if found.word is Word.UNMEASURED and _inside(moved):
        return Fate.FINE, f"every {name} the old limits allow is within the new ones"
    what = "was not measured" if found.word is Word.UNMEASURED else "has no limits"
    return Fate.LOOK, f"{name} {what}, and becomes {held_text(after)}"


def _off(found: Judged, after: Dimension) -> tuple[Fate, str]:
    """Tell whether what is off can still be taken away: a bar filed, a hole opened."""
    values = [spot.value for spot in found.spots]
    low, high = (
        None if one is None else one.to(found.unit)
        for one in (after.lower, after.upper)
    )
    over = max(values) - high if high is not None else Fraction(-1)
    under = low - min(values) if low is not None else Fraction(-1)
    what, trim = after.characteristic, after.characteristic.trim
    name = what.title
    if over > 0 and under <= 0 and trim is Trim.SMALLER:
        return Fate.REWORK, f"take {_said(over, found.unit)} off its {name}"
    if under > 0 and over <= 0 and trim is Trim.LARGER:
        return Fate.REWORK, f"open its {name} by {_said(under, found.unit)}"
    by = _said(max(over, under), found.unit)
    side = "over" if over > under else "under"
    if trim is None and (over > 0) != (under > 0):
        return Fate.LOOK, (
            f"{name} is {by} {side} {held_text(after)}: nobody said whether it can "
            "still be brought to size"
        )
    return Fate.REMAKE, f"{name} is {by} {side} {held_text(after)}"


def _said(by: Fraction, unit: str) -> str:
    return shown_in("mm", None)(float(by)) if unit == "mm" else f"{float(by):g} {unit}"


def _inside(moved: Moved) -> bool:
    """Tell whether the new limits hold every size that the old ones allowed."""
    old, new = moved.before, moved.after
    if old is None or new is None:
        return False
    try:
        low = new.lower is None or (
            old.lower is not None and old.lower.to(new.lower.unit) >= new.lower.value
        )
        high = new.upper is None or (
            old.upper is not None and old.upper.to(new.upper.unit) <= new.upper.value
        )
    except BadInput:
        return False
    return low and high and new.has_limits
