"""A part that is none, made of a slip: what goes with it, and what would be lost.

What the program made with it alone goes too. Where something was said of it, it stays,
until that is given to another part (`same_part.py`) or stays on record without it.
"""

from __future__ import annotations

import shlex
from collections.abc import Collection, Iterator
from dataclasses import fields, replace
from typing import Any

from logbook.errors import BadInput, NeedsAnswer, Refused
from logbook.records.kinds.assembling import Fit, Line, Step
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.happenings import (
    Decision,
    Declined,
    Failure,
    Note,
    Order,
    Question,
    StepDone,
    Work,
)
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import EPOCH, Record
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.making.settling import parts_released
from logbook.records.together.names import folded
from logbook.records.together.references import refers
from logbook.records.together.refs_held import refs_in
from logbook.records.together.revisions import is_withdrawn
from logbook.records.together.snapshot import Snapshot
from logbook.shop.chains.formula import read_formula

_OF_PART: tuple[type[Record], ...] = (Piece, Characteristic, Line, Revision)
"""What is nothing without its part, in the order in which it goes."""
_MADE = {"id", "title", "when", "name", "part"}
_ALONE = {
    Part: {"source"},
    Revision: {"label", "follows", "files"},
    Piece: {"revision", "build", "number"},
    Characteristic: {"since"},
    Line: {"assembly", "quantity", "spare"},
}
"""What the program says of itself in a record it makes; how many of what is none."""
_STAYS = (Note, StepDone, Work, Decision, Failure, Order, Question, Step)
"""What tells something of itself, without the part it names."""
_SAYS_ONLY_SO = ("part", "new part")


def own_of(snapshot: Snapshot, part: Part) -> tuple[Record, ...]:
    """Give what is nothing without a part, its pieces first, the part itself last."""
    named = snapshot.mentions(part, *_OF_PART)
    own = [one for one in named if refers(snapshot, getattr(one, "part", None), part)]
    return (*sorted(own, key=lambda one: _OF_PART.index(type(one))), part)


def said_of(snapshot: Snapshot, part: Part) -> tuple[Record, ...]:
    """Give the records that say something which would be lost with a part."""
    own = own_of(snapshot, part)
    found = {one.id: one for one in own if not is_bare(one)}
    found |= {one.id: one for one in _naming(snapshot, own)}
    only_so = {one.id for one in _only_so(snapshot, part)}
    said = (one for one in found.values() if one.id not in only_so)
    return tuple(sorted(said, key=lambda one: (one.when, one.id)))


def is_bare(record: Record) -> bool:
    """Tell whether a record says no more than the program makes of itself."""
    alone = _MADE | _ALONE[type(record)]
    if isinstance(record, Revision) and any(file.unit for file in record.files):
        return False
    return all(
        getattr(record, one.name) in (None, "", (), False, EPOCH)
        or (one.name in {"extra", "settings"} and not getattr(record, one.name))
        for one in fields(record)
        if one.name not in alone
    )


def can_stay(snapshot: Snapshot, part: Part) -> bool:
    """Tell whether all that is said of a part can stay on record without it."""
    own = own_of(snapshot, part)
    said = said_of(snapshot, part)
    return all(_without(snapshot, one, own) is not None for one in said)


def released(snapshot: Snapshot, part: Part) -> str:
    """Say with which releases a part went out, that name it; empty: with none."""
    labels = parts_released(snapshot).get(part.id, [])
    if not labels:
        return ""
    went = f"“{part.title}” went out in release {', '.join(labels)}, which names it"
    return f"{went}; accepted: logbook status {part.id} withdrawn --because …"


def said_words(said: Collection[Record]) -> str:
    """Name what is said, the first of it in its words."""
    named = [
        f"what is told of “{one.title}”" if isinstance(one, Part) else f"“{one.title}”"
        for one in said
    ]
    more = f" and {len(named) - 3} more" if len(named) > 3 else ""
    return ", ".join(named[:3]) + more


def take_away(draft: Draft, part: Part, *, stays: bool = False) -> tuple[Record, ...]:
    """Draft that a part is none; give what goes with it.

    Where it `stays`, what was said of it stays on record, of no part.

    Raises:
        Refused: a release names it.
        NeedsAnswer: something is said of it, and nobody said what becomes of that, or
            it is nothing without the part.
    """
    snapshot = draft.snapshot
    if why := released(snapshot, part):
        raise Refused(why)
    said, own = said_of(snapshot, part), own_of(snapshot, part)
    if said and not stays:
        why = f"“{part.title}” is not taken away: {said_words(said)} would be lost"
        raise _asked(snapshot, part, why)
    for one in said:
        freed = _without(snapshot, one, own)
        if freed is None:
            why = f"“{one.title}” is nothing without “{part.title}”"
            raise _asked(snapshot, part, why)
        draft.amend(freed)
    away = (*_only_so(snapshot, part), *own)
    for one in away:
        draft.drop(one)
    return away


def _asked(snapshot: Snapshot, part: Part, why: str) -> NeedsAnswer:
    """Ask what becomes of what was said: each way is one that can be gone here."""
    verb = f"logbook part {shlex.quote(part.title)}"
    ways = [f"{verb} --same-as PART (all of it is of that part then)"]
    if can_stay(snapshot, part):
        stay = "--no-part --entries-stay (what was said stays, of no part)"
        ways.append(f"{verb} {stay}")
    if not is_withdrawn(snapshot, part):
        ways.append(
            f"logbook status {part.id} withdrawn (the part stays, out of lists and the "
            "next release)"
        )
    return NeedsAnswer(f"{why}; accepted: {', or '.join(ways)}", tuple(ways))


def _naming(snapshot: Snapshot, own: Collection[Record]) -> Iterator[Record]:
    """Give what names a part or what is of it, and is not of it; formulas too."""
    ids = {one.id for one in own}
    names = {one.name for one in own if isinstance(one, Part)}
    for record in own:
        yield from (one for one in snapshot.mentions(record) if one.id not in ids)
    for gap in snapshot.all(Fit):
        if names & parts_named(gap):
            yield gap


def parts_named(gap: Fit) -> set[str]:
    """Give the names of the parts in the formula of a gap; none where it is no formula.

    What is wrong with it is a problem of its own.
    """
    try:
        return {name.part for name in read_formula(gap.formula).names}
    except BadInput:
        return set()


def _only_so(snapshot: Snapshot, part: Part) -> tuple[Record, ...]:
    """Give what says no more than that it is a part, or what is not asked of it."""
    own = own_of(snapshot, part)
    words = {f"{word} {folded(part.title)}" for word in _SAYS_ONLY_SO}
    naming = {one.id: one for record in own for one in snapshot.mentions(record)}
    return tuple(
        one
        for one in naming.values()
        if isinstance(one, Declined)
        or (isinstance(one, Note) and folded(one.title) in words and not one.prose)
    )


def _without(
    snapshot: Snapshot, record: Record, own: Collection[Record]
) -> Record | None:
    """Give a record naming nothing that goes; None where it would say nothing then."""
    gone = {one.id for one in own}

    def goes(value: Any) -> bool:
        found = (snapshot.find(ref) for ref in refs_in(value))
        return any(one is not None and one.id in gone for one in found)

    if not isinstance(record, _STAYS):
        return None
    changes: dict[str, Any] = {}
    for one in fields(record):
        held = getattr(record, one.name)
        if isinstance(held, tuple) and any(map(goes, held)):
            changes[one.name] = tuple(item for item in held if not goes(item))
        elif isinstance(held, Ref) and goes(held):
            changes[one.name] = None
    if isinstance(record, Order) and record.part and "part" in changes:
        changes["item"] = record.item or record.part.name
    return replace(record, **changes)
