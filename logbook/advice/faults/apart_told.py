"""What sets pieces that failed apart from the others, told to who may meet it too."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from logbook.advice.faults.apart import SETTING, apart
from logbook.records.kinds.happenings import Failure
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.together.snapshot import Snapshot

_FEW = 2
"""Of fewer pieces on one side nothing is shown by what differs."""


def apart_words(snapshot: Snapshot, failure: Failure) -> str:
    """Tell what sets apart the pieces that failed so from the others; else nothing."""
    found = apart(snapshot, failure)
    if found is None:
        return ""
    failed, sound = _named(snapshot, found.failed), _named(snapshot, found.sound)
    differs = [f"{_name(what)} {a}, not {b}" for what, a, b in found.differs]
    said = [f"{failed} had it, {sound} not"]
    said += [f"what differs: {'; '.join(differs)}"] if differs else []
    if found.same:
        said.append(f"the same as far as recorded: {_names(found.same)}")
    said += _one_sided(found.one_sided, failed, sound)
    if found.unsaid:
        said.append(f"not on record: {_names(found.unsaid)}")
    if differs and min(len(found.failed), len(found.sound)) < _FEW:
        said.append("so few prove nothing, it is where to look first")
    return ". ".join(one[:1].upper() + one[1:] for one in said)


def _one_sided(
    told: Sequence[tuple[str, str, str]], failed: str, sound: str
) -> Iterator[str]:
    """Give what is on record of one side only, with of which."""
    for side, who in ((1, failed), (2, sound)):
        own = [f"{_name(one[0])} {one[side]}" for one in told if one[side]]
        if own:
            yield f"on record only of {who}: {', '.join(own)}"


def _name(what: str) -> str:
    return what.removeprefix(SETTING)


def _names(told: Iterable[str]) -> str:
    return ", ".join(map(_name, told))


def _named(snapshot: Snapshot, pieces: Sequence[Piece]) -> str:
    told = []
    for piece in pieces:
        build = snapshot.find(piece.build, Build)
        told.append(f"{piece.title} ({build.title})" if build else piece.title)
    *most, last = told
    return f"{', '.join(most)} and {last}" if most else last
