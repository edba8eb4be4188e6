"""A part that is asked about, and the keys by which its rows lead to records."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from logbook.records.kinds.design import DesignFile, Part
from logbook.records.kinds.record import Record
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class Asked:
    """A part of a snapshot; `files` are those on disk, None while they are read."""

    snapshot: Snapshot
    part: Part
    width: int
    files: Mapping[str, DesignFile] | None


def key_of(record: Record, more: str = "") -> str:
    """Give the key of a row that leads to a record; `more` tells its rows apart."""
    return f"record {record.id} {more}".strip()
