"""Settings of the piece in service, from the words an entry tells its making in."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace

from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Note, StepDone
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.making.told_settings import settings_in
from logbook.records.states.pieces import is_on_hand, pieces_of
from logbook.records.together.snapshot import Snapshot

_ACCEPTS = "“yes”, or the piece it was, as gate-2"
_FAILED = re.compile(
    r"(?i)\b(?:too (?:soft|weak|brittle|hot)|broke|broken|cracks?|cracked|"
    r"fail(?:s|ed)?|sag(?:s|ged)|warp(?:s|ed)|split|delaminated)\b"
)
"""Words of a line whose settings are, or may be, those that did not do."""


"""States of a piece that is not in service."""


def settings(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose told settings to the newest piece that is here of the part told of."""
    told: tuple[Note | StepDone, ...] = (*snapshot.all(StepDone), *snapshot.all(Note))
    for entry in told:
        part = snapshot.find(entry.part, Part)
        found = settings_in(entry.title)
        if part is None or not found or _FAILED.search(entry.title):
            continue
        pieces = pieces_of(snapshot, part)
        if not any(found.items() <= dict(one.settings).items() for one in pieces):
            here = [one for one in pieces if is_on_hand(snapshot, one)]
            if here or not pieces:
                yield _proposal(entry, part, here[-1] if here else None, found)


def _proposal(
    entry: Note | StepDone, part: Part, piece: Piece | None, found: Mapping[str, str]
) -> Proposal:
    name = piece.title if piece else f"the {part.title}"
    shown = ", ".join(f"{key} {value}" for key, value in found.items())

    def take(draft: Draft, answer: str) -> None:
        meant = _meant(draft, part, piece, answer)
        draft.amend(replace(meant, settings={**meant.settings, **found}))

    return Proposal(
        key=f"settings {entry.id}",
        topic="piece",
        about=entry.ref,
        question=f"was {name} made with {shown}?",
        buys="guide and notes give the settings of the piece that is in service",
        accepts=_ACCEPTS,
        inputs=tuple(one.ref for one in (entry, part, piece) if one),
        take=take,
    )


def _meant(draft: Draft, part: Part, piece: Piece | None, answer: str) -> Piece:
    if is_yes(answer):
        return piece or draft.piece(part)
    for one in pieces_of(draft.snapshot, part):
        if one.title.casefold() == answer.strip().casefold():
            return one
    raise not_accepted("the piece", answer, _ACCEPTS)
