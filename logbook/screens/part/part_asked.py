"""A part that is asked about, and the keys by which its rows lead to records."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from logbook.advice.gaps.held_to_gap import held_to_gap
from logbook.advice.ground.advice import Advice
from logbook.records.kinds.design import DesignFile, Part
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.sizes.definition import Dimension
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class Asked:
    """A part of a snapshot; `files` are those on disk, None while they are read.

    What is made to suit is held to its gap by `advice`, in `build` where a piece is
    of none.
    """

    snapshot: Snapshot
    part: Part
    width: int
    files: Mapping[str, DesignFile] | None
    advice: Iterable[Advice] = ()
    build: Build | None = None

    def suited(self, drawn: Dimension, piece: Piece | None = None) -> Dimension:
        """Give a size with the limits its gap accepts, where it is made to suit one."""
        return held_to_gap(self.snapshot, self.advice, drawn, piece, self.build)


def key_of(record: Record, more: str = "") -> str:
    """Give the key of a row that leads to a record; `more` tells its rows apart."""
    return f"record {record.id} {more}".strip()
