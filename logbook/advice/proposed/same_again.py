"""Whether what went wrong is an older fault come back, asked where only words tell it.

The answer decides whether the pages say that its cure has not held, or tell of a known
fault more.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.faults.drafted import Fault, affected_revision, blamed_entries
from logbook.advice.faults.headline import headline
from logbook.advice.faults.same_fault import Same, kept_as, same_as, same_key
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.making.drafts import Draft
from logbook.records.together.references import part_of
from logbook.records.together.revisions import revisions_of
from logbook.records.together.snapshot import Snapshot

_ACCEPTS = "yes"
_OTHERWISE = "another fault"


def same_again(snapshot: Snapshot) -> Iterator[Proposal]:
    """Ask of each fault found on a cure, or after one, that is like what it cured."""
    for entry in blamed_entries(snapshot):
        for first in _cured_before(snapshot, entry):
            ids = {first.id}
            for fault in kept_as(snapshot, first):
                ids |= {fault.id, *(ref.id for ref in fault.from_entries)}
            title = headline(snapshot, first)
            if same_as(snapshot, ids, (first,), title, entry) is Same.BY_WORDS:
                yield _asking(snapshot, first, entry)


def _cured_before(snapshot: Snapshot, entry: Fault) -> Iterator[Fault]:
    """Give the faults that the revision of an entry, or one before, is to cure."""
    found = affected_revision(snapshot, entry)
    part = part_of(snapshot, found) if found else None
    line = revisions_of(snapshot, part) if part else ()
    upto = line[: line.index(found) + 1] if found in line and found else ()
    for revision in upto:
        for ref in revision.because:
            first = snapshot.find(ref)
            if isinstance(first, Deviation | Failure) and first is not entry:
                yield first


def _asking(snapshot: Snapshot, first: Fault, entry: Fault) -> Proposal:
    def take(draft: Draft, answer: str) -> None:
        if not is_yes(answer):
            raise not_accepted(
                "the same fault again", answer, f"{_ACCEPTS}; n: {_OTHERWISE}"
            )
        draft.amend(replace(entry, about=(*entry.about, first.ref)))

    now, then = headline(snapshot, entry), headline(snapshot, first)
    return Proposal(
        key=same_key(first.id, entry),
        topic="known fault",
        about=entry.ref,
        question=f"“{now}”: is that “{then}” come back?",
        buys="the pages say that its cure has not held; else it is a fault of its own",
        accepts=_ACCEPTS,
        inputs=(first.ref, entry.ref),
        take=take,
        otherwise=_OTHERWISE,
    )
