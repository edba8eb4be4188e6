"""Readings on record that look like slips, which nobody has settled yet."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from functools import partial

from logbook.advice.ground.drawn import drawn_as, newest_revision
from logbook.advice.ground.register import remembered
from logbook.advice.pieces.piece_facts import Told
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.happenings import Reading
from logbook.records.kinds.workshop import Piece
from logbook.records.sizes.expected import Expected, expected_of
from logbook.records.sizes.limits_held import as_held
from logbook.records.sizes.slips import Slip, open_slip
from logbook.records.together.snapshot import Snapshot

Doubted = tuple[tuple[Reading, Slip], ...]


def expected_of_piece(
    snapshot: Snapshot, piece: Piece | None, what: Characteristic
) -> Expected | None:
    """Give what a size is expected to be, as the revision of the piece draws it."""
    revision = snapshot.find(piece.revision, Revision) if piece else None
    about = (revision, what) if revision else (what,)
    work = partial(_expected, snapshot, revision, what)
    return remembered(snapshot, "expected", about, work)


def _expected(
    snapshot: Snapshot, revision: Revision | None, what: Characteristic
) -> Expected | None:
    part = snapshot.find(what.part, Part) if revision is None else None
    if part is not None:
        revision = newest_revision(snapshot, part)
    return expected_of(snapshot, as_held(snapshot, drawn_as(snapshot, revision, what)))


def slips_among(
    snapshot: Snapshot,
    piece: Piece,
    what: Characteristic,
    told: Told,
    reworked: datetime | None,
) -> tuple[Doubted, tuple[str, ...]]:
    """Give those that look like slips among the readings told of a size of a piece.

    One that was confirmed is none, nor one from before the piece was worked on again,
    where it was `reworked`. One that was read again at its place since is settled: it
    was a slip, and is given by its id behind those that stand in doubt.
    """
    expected = expected_of_piece(snapshot, piece, what) if told else None
    if expected is None or expected.near([one.value for one, _ in told]):
        return (), ()
    each = [(one, open_slip(snapshot, one, expected)) for one, _ in told]
    slips = [
        (one, slip, _read_again(one, each[at + 1 :]))
        for at, (one, slip) in enumerate(each)
        if slip is not None and (reworked is None or one.at >= reworked)
    ]
    doubted = tuple((one, slip) for one, slip, again in slips if not again)
    return doubted, tuple(one.id for one, _, again in slips if again)


def _read_again(one: Reading, later: Sequence[tuple[Reading, Slip | None]]) -> bool:
    return any(other.place == one.place and slip is None for other, slip in later)
