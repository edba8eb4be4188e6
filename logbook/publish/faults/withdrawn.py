"""Revisions that were withdrawn, with the reason, for who holds or made one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from logbook.advice.faults.trying import FAILED, NOBODY, UNUSED, cure_words
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Status
from logbook.records.states.tried import tried_words
from logbook.records.together.revisions import is_withdrawn
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
