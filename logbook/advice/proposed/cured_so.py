"""Whether work that holds is what cured an older failure of its part, asked once.

“Soldered it anew, it lights” says so to who was there. Unless it is tied to what
failed, a release goes out saying that nothing cures it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.faults.held_words import says_held
from logbook.advice.faults.helped import NOT_KNOWN, NOT_TRIED, helped
from logbook.advice.proposed.proposal import Proposal, is_yes
from logbook.records.kinds.happenings import (
    Disposal,
    Entry,
    Failure,
    Note,
    Status,
    StepDone,
)
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import State
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.states.pieces import is_gone, pieces_of
from logbook.records.together.likeness import stems
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot

_ACCEPTS = "yes, or what cured it, in other words"
_OTHERWISE = "not what cured it"
_CURED = re.compile(r"(?i)\b(?:cured|fixed|solved|got rid of)\b")


def cured_so(snapshot: Snapshot) -> Iterator[Proposal]:
    """Ask of the newest work that holds whether it cured the failure before it.

    Of a failure with a cure that nobody has seen to hold: whether this was that cure.
    """
    faults = list(snapshot.all(Failure))
    if not faults:
        return
    asked: set[str] = set()
    for entry in reversed(snapshot.entries):
        if not _says_so(entry):
            continue
        failure = _cured(snapshot, entry, faults)
        if failure is not None and failure.id not in asked:
            asked.add(failure.id)
            if not failure.cure or helped(snapshot, failure) in (NOT_TRIED, NOT_KNOWN):
                yield _asking(failure, entry)


def _says_so(entry: Entry) -> bool:
    """Tell whether an entry is work or a note that says that it holds, or cures."""
    if not isinstance(entry, StepDone | Note | Disposal):
        return False
    if isinstance(entry, StepDone) and entry.undone:
        return False
    return says_held(entry.title) or bool(_CURED.search(entry.title))


def _cured(snapshot: Snapshot, entry: Entry, faults: list[Failure]) -> Failure | None:
    """Give the failure that an entry may have cured: of its part, with no newer one.

    Of several the one whose words it has; of an entry of no part the last in its build,
    which nothing else was told after.
    """
    part = part_of(snapshot, entry)
    before = [one for one in faults if one.when < entry.when]
    if part is None:
        return (
            before[-1]
            if before and _right_behind(snapshot, entry, before[-1])
            else None
        )
    own = [one for one in before if part_of(snapshot, one) is part]
    failed = [one for one in snapshot.all(Failure) if part_of(snapshot, one) is part]
    if not own or any(one.when > entry.when for one in failed):
        return None
    said = stems(entry.title) - stems(part.title)
    return max(own, key=lambda one: (len(said & stems(one.title)), one.when))


def _right_behind(snapshot: Snapshot, entry: Entry, failure: Failure) -> bool:
    """Tell whether an entry is the next one that its build has after a failure."""
    build = snapshot.find(entry.build)
    here = [one for one in snapshot.entries if snapshot.find(one.build) is build]
    between = [one for one in here if failure.when < one.when < entry.when]
    return failure in here and not between


def _asking(failure: Failure, entry: Entry) -> Proposal:
    def take(draft: Draft, answer: str) -> None:
        # The words that say what came of it stay: they say that it holds.
        named = entry.title if is_yes(answer) else answer.strip()
        if not (failure.cure and is_yes(answer)):
            draft.amend(replace(failure, cure=named))
        piece = _piece(draft.snapshot, entry, failure)
        if piece is not None:
            _worked_on(draft, entry, piece)
            draft.add(
                Status(
                    id=new_id(),
                    title=f"{piece.title} {State.CONFIRMED.value}",
                    when=draft.when,
                    build=entry.build,
                    of=piece.ref,
                    state=State.CONFIRMED,
                )
            )

    return Proposal(
        key=f"cured so {failure.id} {entry.id}",
        topic="known fault",
        about=failure.ref,
        question=_question(failure, entry),
        buys="it stands as what helped, and no release says that nothing cures it",
        accepts=_ACCEPTS,
        inputs=(failure.ref, entry.ref),
        take=take,
        otherwise=_OTHERWISE,
    )


def _question(failure: Failure, entry: Entry) -> str:
    if failure.cure:
        named = f"“{failure.cure}”, named for “{failure.title}”"
        return f"“{entry.title}”: is that with {named}, and does it hold?"
    return f"“{entry.title}”: is that what cured “{failure.title}”?"


def _piece(snapshot: Snapshot, entry: Entry, failure: Failure) -> Piece | None:
    """Give the piece that holds: the one worked on, else the newest that is there."""
    own = snapshot.find(getattr(entry, "piece", None), Piece)
    failed = snapshot.find(failure.piece, Piece)
    if own is not None:
        return own
    if failed is not None and not is_gone(snapshot, failed):
        return failed
    part = part_of(snapshot, failure)
    here = (
        [one for one in pieces_of(snapshot, part) if not is_gone(snapshot, one)]
        if part
        else []
    )
    return here[-1] if here else None


def _worked_on(draft: Draft, entry: Entry, piece: Piece) -> None:
    """Say of work of which nobody said to which piece it was done that it was this."""
    if not isinstance(entry, StepDone) or entry.piece is not None:
        return
    if entry.part is not None and entry.part.id == piece.part.id:
        draft.amend(replace(entry, piece=piece.ref))
