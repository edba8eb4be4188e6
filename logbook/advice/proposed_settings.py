"""Settings of the piece in service, from the words an entry tells its making in."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace

from logbook.advice.proposal import Proposal, is_yes, not_accepted
from logbook.records.making import Draft
from logbook.records.model import Note, Part, Piece, StepDone
from logbook.records.snapshot import Snapshot
from logbook.records.state import pieces_of

_NUMBER = r"\d+(?:[.,]\d+)?"
_SETTINGS: tuple[tuple[str, re.Pattern[str]], ...] = tuple(
    (name, re.compile(pattern, re.IGNORECASE))
    for name, pattern in (
        ("walls", r"\b(\d+)\s*(?:walls?|perimeters?)\b"),
        ("infill", rf"\b({_NUMBER}\s*%)\s*infill\b"),
        ("infill", rf"\binfill\s*(?:of\s*)?({_NUMBER}\s*%)"),
        ("layers", rf"\b({_NUMBER}(?:\s*mm)?)\s*layers?\b"),
        ("nozzle", rf"\b({_NUMBER}(?:\s*mm)?)\s*nozzle\b"),
        ("lying on", r"\b(\w+(?: side| face)?) down\b"),
        ("supports", r"\b(no|without)\s+supports?\b"),
        ("passes", r"\b(\d+)\s*passes\b"),
        ("power", rf"\b({_NUMBER}\s*%)\s*power\b"),
    )
)
_NOT_SIDES = frozenset({"filed", "cut", "sanded", "it", "sat", "broke", "turned"})
_ACCEPTS = "“yes”, or the piece it was, as gate-2"


def settings(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose told settings to the newest piece of the part they were told of."""
    told: tuple[Note | StepDone, ...] = (*snapshot.all(StepDone), *snapshot.all(Note))
    for entry in told:
        part = snapshot.find(entry.part, Part)
        found = told_in(entry.title)
        if part is None or not found:
            continue
        pieces = pieces_of(snapshot, part)
        if not any(found.items() <= dict(one.settings).items() for one in pieces):
            yield _proposal(entry, part, pieces[-1] if pieces else None, found)


def told_in(title: str) -> Mapping[str, str]:
    """Give the settings that words tell, by name."""
    found: dict[str, str] = {}
    for name, pattern in _SETTINGS:
        match = pattern.search(title)
        if match is None or match[1].casefold() in _NOT_SIDES:
            continue
        value = "none" if name == "supports" else " ".join(match[1].split())
        found.setdefault(name, value)
    # “face down” alone may be anything; beside another setting it is how it lay.
    return found if found.keys() - {"lying on"} else {}


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
