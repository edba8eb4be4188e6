"""What a piece was cut to, told with the work, offered as what it reads.

A saw set to 178.28 has not measured the bar. Put on record as a reading it is what the
gap goes by; so it is asked about once, and not taken for one.
"""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Reading, Run, StepDone
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.sizes.definition import Dimension, definition
from logbook.records.sizes.expected import expected_of
from logbook.records.states.pieces import readings_of
from logbook.records.together.revisions import made_to
from logbook.records.together.snapshot import Snapshot

NEAR = 10
"""A size is meant that is nearer than a tenth of itself. Common practice, no source."""
ACCEPTS = "“yes”, or what it reads, as “178.3”"


def as_cut(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose the length told with work on a piece as a reading of its one size near.

    It keeps quiet where the piece was measured there, or where two sizes are near.
    """
    for entry in snapshot.all(StepDone):
        piece = snapshot.find(entry.piece, Piece)
        if piece is None or entry.undone or len(entry.set_to) != 1:
            continue
        value = entry.set_to[0]
        if value.metal or value.dimension != "length":
            continue
        near = [*_near(snapshot, piece, value)]
        if len(near) != 1 or readings_of(snapshot, piece, near[0].characteristic):
            continue
        yield _asked(entry, piece, near[0], value)


def _near(snapshot: Snapshot, piece: Piece, value: Quantity) -> Iterator[Dimension]:
    """Give the sizes of a piece that a length told of it may be."""
    part = snapshot.find(piece.part, Part)
    revision = made_to(snapshot, part, piece) if part else None
    for drawn in definition(snapshot, revision) if revision else ():
        expected = expected_of(snapshot, drawn)
        size = expected.size if expected else drawn.characteristic.nominal
        if size is None or size.metal or size.dimension != value.dimension:
            continue
        wanted = size.to(value.unit)
        if NEAR * abs(value.value - wanted) <= abs(wanted):
            yield drawn


def _asked(
    entry: StepDone, piece: Piece, drawn: Dimension, value: Quantity
) -> Proposal:
    item = drawn.characteristic

    def take(draft: Draft, answer: str) -> None:
        read = value if is_yes(answer) else _read(answer, value)
        reading = Reading(
            id=new_id(), at=draft.when.replace(microsecond=0), what=item.ref, value=read
        )
        draft.add(
            Run(
                id=new_id(),
                title=f"measured {piece.title}",
                when=draft.when,
                build=piece.build or entry.build,
                piece=piece.ref,
                readings=(reading,),
            )
        )

    return Proposal(
        key=f"as cut {entry.id}",
        topic="size",
        about=piece.ref,
        question=f"does {piece.title} read {value} in {item.title}, measured?",
        buys="what it fits goes by it",
        accepts=ACCEPTS,
        inputs=(entry.ref, piece.ref, item.ref),
        take=take,
    )


def _read(answer: str, told: Quantity) -> Quantity:
    try:
        read = parse_quantity(answer, told.unit)
    except BadInput as wrong:
        raise not_accepted("what it reads", answer, ACCEPTS) from wrong
    if read.dimension != told.dimension:
        raise not_accepted("what it reads", answer, ACCEPTS)
    return read
