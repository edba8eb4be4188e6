"""Revisions that were withdrawn, with the reason, for who holds or made one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from logbook.advice.faults.failing import own_faults
from logbook.advice.faults.trying import FAILED, NOBODY, UNUSED, cure_words
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Status
from logbook.records.kinds.made_public import Release
from logbook.records.states.tried import tried_words
from logbook.records.together.references import part_of
from logbook.records.together.revisions import (
    is_withdrawn,
    last_revision,
    revisions_in,
)
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class Withdrawn:
    """A revision that is not to be made any more: since when, and why."""

    revision: str
    day: date
    because: str


def withdrawn_among(
    snapshot: Snapshot, revisions: Iterable[Revision]
) -> Iterator[Withdrawn]:
    """Give those of these revisions that were withdrawn."""
    for revision in revisions:
        said = _last_word(snapshot, revision)
        if said is not None:
            why = said.because or said.title
            yield Withdrawn(revision.title, said.when.date(), why)


def not_to_be_made(snapshot: Snapshot, revision: Revision) -> str:
    """Say of a withdrawn revision since when, why, and which is left; else empty.

    Which is left is the newest that was not withdrawn: it is said where it stands, and
    what is wrong with it, for it may be the very one this was to put right.
    """
    said = _last_word(snapshot, revision)
    if said is None:
        return ""
    why = said.because or said.title
    return f"withdrawn on {said.when:%Y-%m-%d}, {why}; {_left(snapshot, revision)}"


def withdrawn_parts(
    snapshot: Snapshot, revisions: Iterable[Revision]
) -> dict[str, str]:
    """Give the parts whose revision among these was withdrawn, with what is left."""
    pairs = ((part_of(snapshot, one), one) for one in revisions)
    found = ((part, not_to_be_made(snapshot, one)) for part, one in pairs)
    return {part.title: said for part, said in found if part and said}


def _left(snapshot: Snapshot, revision: Revision) -> str:
    part = part_of(snapshot, revision)
    left = last_revision(snapshot, part) if part else None
    if left is None:
        return "none is left to be made"
    held = [r for r in snapshot.all(Release) if left in revisions_in(snapshot, r)]
    newest = max(held, key=lambda one: (one.when, one.id), default=None)
    place = f"of release {newest.label}" if newest else "in no release yet"
    wrong = own_faults(snapshot, left)
    known = f", with a known fault: {wrong[-1].title}" if wrong else ""
    return f"the newest that is not withdrawn is {left.title}, {place}{known}"


def standing_of(snapshot: Snapshot, revision: Revision) -> str:
    """Say tried, untried or withdrawn, and why where that is more than “not made”."""
    said = _last_word(snapshot, revision)
    if said is not None:
        return f"withdrawn: {said.because or said.title}"
    word, _, why = cure_words(snapshot, revision).partition(": ")
    word = tried_words(snapshot, revision) if word == "tried" else word
    return f"{word} ({why})" if why not in {"", NOBODY, UNUSED, FAILED} else word


def _last_word(snapshot: Snapshot, revision: Revision) -> Status | None:
    """Give the entry that withdrew a revision, None where it is not withdrawn."""
    if not is_withdrawn(snapshot, revision):
        return None
    said = [s for s in snapshot.mentions(revision) if isinstance(s, Status)]
    return [s for s in said if snapshot.find(s.of) is revision][-1]
