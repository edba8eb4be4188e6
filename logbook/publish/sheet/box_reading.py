"""The reading of a box of a job sheet: its value, and the size it was printed for."""

from __future__ import annotations

from logbook.advice.gaps.held_to_gap import suited_word
from logbook.advice.pieces.uncertainty import judged_by
from logbook.publish.sheet.boxes import Box, Sort
from logbook.quantity import Absent, Quantity, parse_value
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.workshop import Piece
from logbook.records.sizes.definition import Dimension, dimension
from logbook.records.sizes.limits_held import as_held
from logbook.records.sizes.verdict_word import judged
from logbook.records.together.revisions import made_to
from logbook.records.together.snapshot import Snapshot


def value_typed(box: Box, text: str) -> Quantity | Absent:
    """Give the value of a reading as `read_box` keeps it."""
    return parse_value("not measured" if text in {"n", "-"} else text, box.unit)


def drawn_for_box(snapshot: Snapshot, box: Box) -> Dimension | None:
    """Give the dimension a box was printed for, with the limits drawn by now."""
    item = snapshot.by_id(box.about, Characteristic)
    if box.sort is not Sort.READING or item is None:
        return None
    piece = next(iter(snapshot.named(box.piece, Piece)), None)
    part = snapshot.find(item.part, Part)
    revision = made_to(snapshot, part, piece) if part else None
    return as_held(snapshot, dimension(snapshot, revision, item))


def judged_so(drawn: Dimension | None, value: Quantity | Absent) -> str:
    """Say how a value stands to its drawing; a sheet does not tell what reads it."""
    return suited_word(drawn, judged(drawn, value, judged_by(None, value, drawn)))
