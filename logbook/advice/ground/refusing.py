"""A refusal of the arithmetic, as a problem of the record it came from."""

from __future__ import annotations

import re

from logbook.errors import BadInput, Problem
from logbook.records.kinds.record import Record
from logbook.records.together.snapshot import Snapshot

_ACCEPTED = re.compile(r"; accepted(?: here)?: ")


def refused(
    snapshot: Snapshot, record: Record, field: str, refusal: BadInput, name: str = ""
) -> Problem:
    """Give the problem of a record whose figures were refused; it says its name."""
    found, *accepted = _ACCEPTED.split(str(refusal), maxsplit=1)
    said = f"{name or record.title}: {found}"
    return Problem(snapshot.path(record), 0, field, said, "".join(accepted))
