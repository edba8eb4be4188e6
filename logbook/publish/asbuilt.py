"""What the pieces on record became, as examples beside what a release says."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from logbook.quantity import Absent, Quantity
from logbook.records import model
from logbook.records.ids import Ref
from logbook.records.model import Build, Characteristic, Part, Piece, Reading, Revision
from logbook.records.snapshot import Snapshot
from logbook.records.state import (
    Dimension,
    is_of,
    piece_state,
    pieces_of,
    readings_of,
    shown_label,
)
from logbook.records.words import State


def example(
    snapshot: Snapshot, part: Part, item: Characteristic, revision: Revision | None
) -> str:
    """Give what a dimension became on the newest piece that has readings of it.

    A piece of the revision asked for comes first; another revision is named.
    """
    measured = [p for p in pieces_of(snapshot, part) if readings_of(snapshot, p, item)]
    same = [p for p in measured if snapshot.find(p.revision) is revision]
    if not measured:
        return _found(snapshot, item)
    piece = (same or measured)[-1]
    build = snapshot.find(piece.build, Build)
    said = [build.title] if build else []
    made = snapshot.find(piece.revision, Revision)
    if piece not in same and made:
        said.append(shown_label(made))
    taken = [t.reading for t in readings_of(snapshot, piece, item)]
    words = became(taken)
    return f"{words} ({', '.join(said)})" if said else words


def _found(snapshot: Snapshot, item: Characteristic) -> str:
    """Give what a deviation from a dimension was found to be."""
    entries = snapshot.all(model.Deviation)
    told = [e for e in entries if e.found and _means(e.characteristic, item)]
    if not told:
        return ""
    build = snapshot.find(told[-1].build, Build)
    return f"{told[-1].found} ({build.title})" if build else str(told[-1].found)


def _means(ref: Ref | None, record: model.Record) -> bool:
    """Tell whether a reference, where there is one, means this record."""
    return ref is not None and is_of(ref, record)


def became(readings: Iterable[Reading]) -> str:
    """Say the last reading at each place in the state it was last taken in.

    Several places are given as their range: they are never averaged.
    """
    taken = list(readings)
    latest: dict[str, Reading] = {r.place: r for r in taken}
    if len(latest) > 1:
        latest.pop("", None)
    values = [r.value for r in latest.values() if isinstance(r.value, Quantity)]
    if not values:
        return str(next(iter(latest.values())).value) if latest else ""
    last = taken[-1]
    state = f", {last.state}" if last.state else ""
    if last.after and last.room:
        state += f", after {last.after} in a room of {last.room}"
    if len(values) == 1 or len({value.unit for value in values}) > 1:
        return ", ".join(str(value) for value in values) + state
    low, high = min(values, key=_size), max(values, key=_size)
    return f"{low} to {high} at {len(values)} places{state}"


def _size(value: Quantity) -> Fraction:
    return value.value


def verdict(drawn: Dimension, values: Iterable[Quantity | Absent]) -> str:
    """Say how measured values stand to the drawing."""
    found = [v for v in values if not isinstance(v, Absent)]
    if not found:
        return "not measured"
    if drawn.nominal is not None:
        found = [v for v in found if v.dimension == drawn.nominal.dimension]
    said = {drawn.verdict(value) for value in found}
    if "off drawing" in said:
        return "off drawing"
    return said.pop() if said else ""


def used(snapshot: Snapshot, part: Part) -> str:
    """Say how many pieces of a part the newest build that has any took."""
    counts = [c for c in snapshot.all(model.Count) if is_of(c.part, part)]
    if counts:
        count = counts[-1]
        pairs = ((count.used, "used"), (count.scrapped, "scrapped"))
        said = [
            f"{number} {word}" for number, word in pairs if number or word == "used"
        ]
        said += [f"{count.spare} left over"] if count.spare else []
        return ", ".join(said)
    pieces = [p for p in pieces_of(snapshot, part) if p.build]
    if not pieces:
        return ""
    newest = snapshot.find(pieces[-1].build)
    here = [p for p in pieces if snapshot.find(p.build) is newest]
    gone = sum(_is_scrapped(snapshot, piece) for piece in here)
    return f"{len(here)} made" + (f", {gone} scrapped" if gone else "")


def _is_scrapped(snapshot: Snapshot, piece: Piece) -> bool:
    return piece_state(snapshot, piece) is State.SCRAPPED
