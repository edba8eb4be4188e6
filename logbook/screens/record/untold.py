"""What of an entry was not told when it was logged, and can be told later."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from logbook.records.kinds.happenings import Decision, Deviation, Failure
from logbook.records.kinds.record import Record

NOT_TOLD = "not told yet"
_ASKED: Mapping[type[Record], Mapping[str, Any]] = {
    Failure: {"where": "", "cause": {"said": ""}, "cure": ""},
    Deviation: {"cause": {"said": ""}, "cure": ""},
    Decision: {"because": ""},
}
"""What a kind should tell sooner or later, as its file would have it while empty.

Of which part it is, or of which piece, is asked of what failed besides.
"""


def untold(record: Record) -> dict[str, Any]:
    """Give the facts this record should tell and does not, as they are while empty."""
    asked = dict(_ASKED.get(type(record), {}))
    if isinstance(record, Failure | Deviation) and not (record.part or record.piece):
        asked |= {"part": "", "piece": ""}
    return {key: empty for key, empty in asked.items() if not getattr(record, key)}
