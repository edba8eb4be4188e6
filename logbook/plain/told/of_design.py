"""A line that says something of a part or of design files, and nothing that happened.

It puts on record what it says, not itself.
"""

from __future__ import annotations

from logbook.plain.told.file_unit import FileUnit, file_unit_said
from logbook.plain.told.no_part import NoPart, no_part_said
from logbook.records.together.snapshot import Snapshot

OfDesign = NoPart | FileUnit


def said_of_design(line: str, snapshot: Snapshot) -> OfDesign | None:
    """Give what a line says of a part or of files; None where it says neither."""
    return no_part_said(line, snapshot) or file_unit_said(line, snapshot)
