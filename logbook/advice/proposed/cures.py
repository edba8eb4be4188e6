"""Cures worth asking for: a fault of the drawing that nobody said what to do about.

Everybody who holds the release is told that something goes wrong there; without a
cure that is all he is told.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.faults.drafted import Fault, blamed_entries, cured_by
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.records.kinds.happenings import Deviation
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot

_ACCEPTS = "what helped, or what to do instead, as “print it with 6 walls”"


def cures(snapshot: Snapshot) -> Iterator[Proposal]:
    """Ask what helped of each fault of the drawing that has no cure in any form.

    A size that came out wrong is none: its drawn size is put right by a revision.
    """
    if not snapshot.all(Release):
        return
    saved = {ref.id for one in snapshot.all(Erratum) for ref in one.from_entries}
    for entry in blamed_entries(snapshot):
        measured = isinstance(entry, Deviation) and entry.characteristic is not None
        if entry.cure or entry.id in saved or measured:
            continue
        if cured_by(snapshot, entry) is None:
            yield _asking(entry)


def _asking(entry: Fault) -> Proposal:
    def take(draft: Draft, answer: str) -> None:
        if is_yes(answer) or not answer.strip():
            raise not_accepted("what helped", answer, _ACCEPTS)
        draft.amend(replace(entry, cure=answer.strip()))

    return Proposal(
        key=f"cure {entry.id}",
        topic="known fault",
        about=entry.ref,
        question=f"“{entry.title}”: what helped, or what should a builder do instead?",
        buys="the known fault says what to do, where it is read",
        accepts=_ACCEPTS,
        inputs=(entry.ref,),
        take=take,
    )
