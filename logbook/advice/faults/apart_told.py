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
    failed = _named(snapshot, found.failed)
    differs = [f"{_name(what)} {a}, not {b}" for what, a, b in found.differs]
    said = [f"{failed} had it"]
    if found.sound:
        said[0] += f", {_named(snapshot, found.sound)} not"
    if found.unseen:
        unseen = _named(snapshot, found.unseen)
        said[0] += f", of {unseen} nobody has said"
    said += [f"what differs: {'; '.join(differs)}"] if differs else []
    if found.same:
        said.append(f"the same as far as recorded: {_names(found.same)}")
    said += _one_sided(snapshot, found.one_sided)
    if found.unsaid:
        said.append(f"not on record: {_names(found.unsaid)}")
    compared = found.sound or found.unseen
    if differs and min(len(found.failed), len(compared)) < _FEW:
        said.append("so few prove nothing, it is where to look first")
    return ". ".join(one[:1].upper() + one[1:] for one in said)


def _one_sided(
    snapshot: Snapshot, told: Sequence[tuple[str, str, tuple[Piece, ...]]]
) -> Iterator[str]:
    """Give what is on record of one side only, with of which pieces."""
    known: dict[str, list[str]] = {}
    for name, value, of in told:
        known.setdefault(_named(snapshot, of), []).append(f"{_name(name)} {value}")
    for pieces, own in known.items():
        yield f"on record only of {pieces}: {', '.join(own)}"


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
