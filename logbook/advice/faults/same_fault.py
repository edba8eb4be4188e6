"""Whether one fault is another come back: as something names it, else by its words.

What its author said decides: both under one known fault, the one named by the other,
the answer to the question whether it is. So do the same dimension, and the same trouble
at the same step or place, or where the line says “again”. Where only words speak for it
the pages warn of it all the same, as what seems so, and its author is asked.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from enum import Enum, auto

from logbook.advice.faults.headline import headline
from logbook.advice.faults.trying import Fault, entries_of
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Declined, Deviation, Failure
from logbook.records.kinds.made_public import Erratum
from logbook.records.together.likeness import same_trouble
from logbook.records.together.names import folded
from logbook.records.together.same_faults import kept_fault
from logbook.records.together.snapshot import Snapshot

_AGAIN = re.compile(
    r"(?i)\b(?:again|once more|(?:a )?(?:second|third|fourth|\d+(?:nd|rd|th)) time|"
    r"(?:came|come|is) back)\b"
)


class Same(Enum):
    """How a later entry stands to a fault; `ANOTHER` where its author said so."""

    NAMED = auto()
    BY_WORDS = auto()
    UNLIKE = auto()
    ANOTHER = auto()

    @property
    def holds(self) -> bool:
        """Whether it is taken for the fault come back, for sure or by its words."""
        return self in {Same.NAMED, Same.BY_WORDS}

    @property
    def said(self) -> str:
        """Say that it came back, or where only words tell it that it seems so."""
        seems = self is Same.BY_WORDS
        return "it seems to have come back" if seems else "it came back"


def sameness(snapshot: Snapshot, erratum: Erratum, entry: Fault) -> Same:
    """Tell whether an entry is a known fault come back."""
    ids = {erratum.id, *(ref.id for ref in erratum.from_entries)}
    firsts = entries_of(snapshot, erratum)
    return same_as(snapshot, ids, firsts, erratum.title, entry)


def same_as(
    snapshot: Snapshot, ids: set[str], firsts: Sequence[Fault], title: str, entry: Fault
) -> Same:
    """Tell it of the fault of these ids and entries, with this title."""
    if entry.id in ids or any(ref.id in ids for ref in entry.about):
        return Same.NAMED
    others = {one.id for one in kept_as(snapshot, entry)} - ids
    if others or _refused(snapshot, ids, entry):
        return Same.ANOTHER
    if any(_same_size(one, entry) for one in firsts):
        return Same.NAMED
    line = headline(snapshot, entry)
    names = [part.title for part in snapshot.all(Part)]
    names += _sizes_in(snapshot, title, line)
    if not same_trouble(title, line, names):
        return Same.UNLIKE
    told = says_again(entry) or any(_same_place(one, entry) for one in firsts)
    return Same.NAMED if told else Same.BY_WORDS


def _sizes_in(snapshot: Snapshot, one: str, other: str) -> Iterator[str]:
    """Give the names of sizes in both lines: the seat is where, not what happened.

    A word of another form tells what happened: a bow of 2 mm, and bowed.
    """
    both = {*folded(one).split()} & {*folded(other).split()}
    for item in snapshot.all(Characteristic):
        yield from both & {*folded(item.title).split()}


def says_again(entry: Fault) -> bool:
    """Tell whether a line itself says that it is not the first time."""
    return _AGAIN.search(entry.title) is not None


def kept_as(snapshot: Snapshot, entry: Fault) -> Iterator[Erratum]:
    """Give the known faults saved from an entry."""
    for one in snapshot.mentions(entry, Erratum):
        if any(snapshot.find(ref) is entry for ref in one.from_entries):
            yield kept_fault(snapshot, one)


def same_key(first: str, entry: Fault) -> str:
    """Give the key of the question whether an entry is the fault of this id again."""
    return f"same again {first} {entry.id}"


def _refused(snapshot: Snapshot, ids: Iterable[str], entry: Fault) -> bool:
    asked = {same_key(one, entry) for one in ids}
    return any(one.proposal in asked for one in snapshot.mentions(entry, Declined))


def _same_size(one: Fault, other: Fault) -> bool:
    if not isinstance(one, Deviation) or not isinstance(other, Deviation):
        return False
    named = one.characteristic, other.characteristic
    return all(named) and len({ref.id for ref in named if ref}) == 1


def _same_place(one: Fault, other: Fault) -> bool:
    """Tell whether both were met at one step, or at one place of the part."""
    if not isinstance(one, Failure) or not isinstance(other, Failure):
        return False
    if one.step and other.step and one.step.id == other.step.id:
        return True
    return bool(one.where) and folded(one.where) == folded(other.where)
