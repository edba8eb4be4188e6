"""What the pieces on record became, as examples beside what a release says."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from logbook.advice.faults.drafted import affected_revision, same_size
from logbook.advice.pieces.uncertainty import reading_judged_by
from logbook.counting import so_many
from logbook.quantity import Quantity
from logbook.records.kinds import happenings
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Source
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.sizes.definition import (
    OFF_DRAWING,
    TOO_CLOSE,
    WITHIN,
    Dimension,
    dimension,
)
from logbook.records.sizes.verdict_word import judged
from logbook.records.states.pieces import (
    Taken,
    is_gone,
    is_on_hand,
    piece_state,
    pieces_of,
    readings_of,
)
from logbook.records.together.references import is_of
from logbook.records.together.revisions import shown_label
from logbook.records.together.snapshot import Snapshot


def example(
    snapshot: Snapshot,
    part: Part,
    item: Characteristic,
    revision: Revision | None,
    held: Dimension | None = None,
    build: Build | None = None,
) -> str:
    """Give what a dimension became on the newest piece that has readings of it.

    A piece of the revision asked for comes first, then what a deviation found on it;
    another revision is named, with the size it has where that is another. Of one that
    was scrapped it is told only where no other was read, and said to be. Builds that
    made it to the revision asked for are told each, the newest first: what one became
    is no word on the other. With the limits `held` it is said whether all of it is
    inside them; of `build` only what is its own counts, and it is not named.
    """
    measured = [
        piece
        for piece in pieces_of(snapshot, part)
        if readings_of(snapshot, piece, item)
        and (build is None or snapshot.find(piece.build) is build)
    ]
    same = [p for p in measured if snapshot.find(p.revision) is revision]
    if not same:
        found = _found(snapshot, item, held, revision, build, on_it=bool(measured))
        if found or not measured:
            return found
    newest: dict[str, Piece] = {}
    same = [p for p in same if not is_gone(snapshot, p)] or same
    here = [p for p in measured if not is_gone(snapshot, p)] or measured
    for piece in reversed(same or here[-1:]):
        newest.setdefault(_title(snapshot, piece.build), piece)
    shown, told = [*newest.items()], []
    for title, piece in shown[:BUILDS]:
        of = _Of(snapshot, item, revision, snapshot.find(piece.revision, Revision))
        taken = readings_of(snapshot, piece, item)
        said = verdict(snapshot, held, taken) if held and of.alike else ""
        where = ", ".join(
            filter(None, ("" if build else title, _gone(snapshot, piece)))
        )
        named = of.named(where, judging=held is not None)
        told.append(f"{became(taken)}{_AGAINST.get(said, '')}{named}")
    left = len(shown) - BUILDS
    return "; ".join([*told, *([f"{so_many(left, 'build')} more"] if left > 0 else [])])


def _gone(snapshot: Snapshot, piece: Piece) -> str:
    """Say that a piece is gone, and how."""
    return f"{piece_state(snapshot, piece)} since" if is_gone(snapshot, piece) else ""


BUILDS = 3
"""Builds whose size is told; of more it is said how many."""


_AGAINST = {
    WITHIN: ", within the limits",
    OFF_DRAWING: ", outside the limits",
    TOO_CLOSE: ", too close to a limit to call",
}


@dataclass(frozen=True, slots=True)
class _Of:
    """What an example is of: its revision `made`, beside the one `asked` for."""

    snapshot: Snapshot
    item: Characteristic
    asked: Revision | None
    made: Revision | None

    @property
    def alike(self) -> bool:
        """Whether both draw the size alike, so that the limits of one hold of both."""
        if self.made is None or self.asked is None or self.made is self.asked:
            return True
        return same_size(self.snapshot, self.item, self.made, self.asked) is not False

    def named(self, build: str, *, judging: bool) -> str:
        """Name the build, and another revision, with its size where it is judged."""
        said = [build] if build else []
        if self.made is not None and self.made is not self.asked:
            said.append(shown_label(self.made))
            drawn = dimension(self.snapshot, self.made, self.item).nominal
            apart = judging and drawn is not None and not self.alike
            said += [f"drawn {drawn}"] if apart else []
        return f" ({', '.join(said)})" if said else ""


def _title(snapshot: Snapshot, ref: Ref | None) -> str:
    found = snapshot.find(ref)
    return found.title if found else ""


def _found(
    snapshot: Snapshot,
    item: Characteristic,
    held: Dimension | None,
    revision: Revision | None,
    build: Build | None,
    *,
    on_it: bool,
) -> str:
    """Give what a deviation from a dimension was found to be, with its build.

    `on_it` asks for one found on this revision; else another one is named.
    """
    told = [
        (entry, affected_revision(snapshot, entry))
        for entry in snapshot.all(happenings.Deviation)
        if entry.found
        and _means(entry.characteristic, item)
        and (build is None or snapshot.find(entry.build) is build)
    ]
    same = [one for one in told if one[1] is revision]
    if not told or (on_it and not same):
        return ""
    entry, made = (same or told)[-1]
    of = _Of(snapshot, item, revision, made)
    limits = held if of.alike else None
    said = judged(limits, entry.found, None) if limits and entry.found else ""
    where = "" if build else _title(snapshot, entry.build)
    named = of.named(where, judging=held is not None)
    return f"{entry.found}{_AGAINST.get(said, '')}{named}"


def _means(ref: Ref | None, record: Record) -> bool:
    """Tell whether a reference, where there is one, means this record."""
    return ref is not None and is_of(ref, record)


def became(taken: Sequence[Taken]) -> str:
    """Say the last reading at each place in the state it was last taken in.

    Several places are given as their range: they are never averaged.
    """
    latest = [one.reading.value for one in counting(taken)]
    values = [value for value in latest if isinstance(value, Quantity)]
    if not values:
        return str(latest[0]) if latest else ""
    under = read_under(taken[-1])
    state = f", {under}" if under else ""
    if len(values) == 1 or len({value.unit for value in values}) > 1:
        return ", ".join(str(value) for value in values) + state
    low, high = min(values, key=_size), max(values, key=_size)
    return f"{low} to {high} at {len(values)} places{state}"


def counting(taken: Sequence[Taken]) -> tuple[Taken, ...]:
    """Give the readings a piece is judged by: the last at each place.

    What was read there before is how it was, not how it is; a reading of no place
    counts only where there is none of a place.
    """
    latest = {one.reading.place: one for one in taken}
    if len(latest) > 1:
        latest.pop("", None)
    return tuple(latest.values())


def read_under(taken: Taken) -> str:
    """Say in which state something was read, and after how long; empty if not told."""
    reading = taken.reading
    after = f"after {reading.after}" if reading.after else ""
    if after and reading.room:
        after += f" in a room of {reading.room}"
    return ", ".join(filter(None, (taken.state, after)))


def _size(value: Quantity) -> Fraction:
    return value.value


def verdict(snapshot: Snapshot, drawn: Dimension, taken: Sequence[Taken]) -> str:
    """Say how the readings that count stand to the drawing; the worst decides."""
    found = [
        judged(
            drawn,
            one.reading.value,
            reading_judged_by(snapshot, one.reading, one.run, drawn),
        )
        for one in counting(taken)
        if isinstance(one.reading.value, Quantity) and _alike(drawn, one.reading.value)
    ]
    if not found:
        return "not measured"
    worst = (word for word in (OFF_DRAWING, TOO_CLOSE) if word in found)
    return next(worst, found[0])


def _alike(drawn: Dimension, value: Quantity) -> bool:
    size = drawn.nominal or drawn.lower or drawn.upper
    return size is None or size.dimension == value.dimension


def _of_build(build: Build | None, words: str) -> str:
    return f"{build.title}: {words}" if build else words


def in_service(snapshot: Snapshot, part: Part, revision: Revision | None) -> str:
    """Say how the piece in service was made: machine, material, settings.

    A piece of the revision asked for comes first. Nothing where nothing is known.
    """
    here = [p for p in pieces_of(snapshot, part) if is_on_hand(snapshot, p)]
    same = [p for p in here if snapshot.find(p.revision) is revision]
    told = [p for p in (same or here) if p.machine or p.stock or p.settings]
    if not told:
        return ""
    piece = told[-1]
    build = snapshot.find(piece.build, Build)
    made = snapshot.find(piece.revision, Revision)
    said = [shown_label(made)] if made and made is not revision else []
    said += [f"on the {name}" for name in _names(snapshot, piece.machine)]
    said += [f"from {name}" for name in _names(snapshot, piece.stock)]
    said += [f"{name} {value}" for name, value in piece.settings.items()]
    return _of_build(build, f"{piece.title}, {', '.join(said)}")


def without_settings(snapshot: Snapshot, part: Part, revision: Revision | None) -> bool:
    """Tell whether a part is printed here and no piece says with which settings."""
    printed = any("print" in one.casefold() for one in part.process)
    here = part.source is Source.MADE
    return printed and here and not in_service(snapshot, part, revision)


def _names(snapshot: Snapshot, ref: Ref | None) -> list[str]:
    found = snapshot.find(ref)
    return [found.title] if found else []
