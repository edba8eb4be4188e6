"""The reading taken last, as drawn and judged, or held to its gap."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from logbook.advice.advisor import Told
from logbook.advice.gaps.held_to_gap import held_to_gap, suited_word
from logbook.advice.pieces.uncertainty import judged_by
from logbook.quantity import Absent, Quantity
from logbook.records.kinds import design, happenings
from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.workshop import Build, Instrument, Piece
from logbook.records.sizes.definition import Dimension, dimension
from logbook.records.sizes.limits_held import as_held, held_text
from logbook.records.sizes.verdict_word import judged
from logbook.records.states.wanted import only_wanted
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class LastValue:
    """The reading taken last: what of, its figures, how it was drawn, its verdict.

    `tool` is the instrument it was read with, `held` the size with its limits.
    """

    owner: str
    what: str
    value: Quantity
    drawn: str
    verdict: str
    tool: Instrument | None = None
    held: Dimension | None = None
    piece: Piece | None = None


def last_value(snapshot: Snapshot, entries: Sequence[Entry]) -> LastValue | None:
    """Give the last reading that has a value."""
    for entry in reversed(entries):
        if not isinstance(entry, happenings.Run):
            continue
        for reading in reversed(entry.readings):
            if not isinstance(reading.value, Absent):
                return _told(snapshot, entry, reading)
    return None


def _told(
    snapshot: Snapshot, run: happenings.Run, reading: happenings.Reading
) -> LastValue:
    assert isinstance(reading.value, Quantity)
    part = part_of(snapshot, run)
    piece = snapshot.find(run.piece, Piece)
    drawn = drawn_for(snapshot, piece, reading.what)
    at = f" at {reading.place}" if reading.place else ""
    tool = snapshot.find(reading.instrument or run.instrument, Instrument)
    doubt = judged_by(tool, reading.value, drawn)
    return LastValue(
        owner=piece.title if piece else part.title if part else "",
        what=f"{reading.what.name}{at}",
        value=reading.value,
        drawn=drawn_words(snapshot, drawn) if drawn else "",
        verdict=suited_word(drawn, judged(drawn, reading.value, doubt)),
        tool=tool,
        held=drawn,
        piece=piece,
    )


def suited_last(
    told: Told, snapshot: Snapshot, build: Build | None, last: LastValue | None
) -> LastValue | None:
    """Give the last reading held to its gap, where its size was made to suit one."""
    if last is None or last.held is None:
        return last
    held = held_to_gap(snapshot, told.advice, last.held, last.piece, build)
    if held is last.held:
        return last
    doubt = judged_by(last.tool, last.value, held)
    return replace(
        last,
        drawn=f"made to suit, {held.lower} to {held.upper}",
        verdict=suited_word(held, judged(held, last.value, doubt)),
    )


def drawn_words(snapshot: Snapshot, drawn: Dimension) -> str:
    """Say how a size is drawn; of one that no drawing gives, what was wanted."""
    if drawn.nominal is not None and only_wanted(snapshot, drawn.characteristic):
        return f"wanted {drawn.nominal}, not drawn"
    return held_text(drawn)


def drawn_for(
    snapshot: Snapshot, piece: Piece | None, what: object
) -> Dimension | None:
    """Give a dimension as the piece's own revision draws it, as far as it holds."""
    item = snapshot.find(what, design.Characteristic)  # type: ignore[call-overload]
    if item is None:
        return None
    revision = snapshot.find(piece.revision, design.Revision) if piece else None
    return as_held(snapshot, dimension(snapshot, revision, item))
