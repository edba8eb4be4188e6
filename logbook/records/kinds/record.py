"""What every record has, and how a record class declares the odd fact.

A kind is a frozen dataclass whose field names are the keys in the file: what the
design consists of (`design.py`), how it goes together (`assembling.py`), what stands
in the shop (`workshop.py`), what happened (`happenings.py`), what was published
(`made_public.py`). Facts only: whatever can be worked out from other records (the
state of a piece, whether a revision was tried) is not stored but computed.
`table.py` says which class belongs to which kind.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

from logbook.records.kinds.ids import Ref

Fits = Callable[[Any], bool]
EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


def always(default: Any, accepted: str = "", fits: Fits | None = None) -> Any:
    """Declare a fact that is written even where it has its default.

    Where not every value of its type will do, `fits` tells which do and `accepted`
    says so.
    """
    metadata = {"always": True, "accepted": accepted, "fits": fits}
    return field(default=default, metadata=metadata)


def fitted(default: Any, accepted: str, fits: Fits) -> Any:
    """Declare a fact of which not every value will do, written where it is told."""
    return field(default=default, metadata={"accepted": accepted, "fits": fits})


def listed(key: str) -> Any:
    """Declare a list of tables that stands in the file as `[[key]]`."""
    return field(default=(), metadata={"key": key})


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """What every record has. `when` is the instant it is about, with offset.

    `extra` holds what the file says beyond the known keys, so that a rewrite
    keeps it.
    """

    id: str
    title: str
    when: datetime = EPOCH
    formerly: tuple[str, ...] = ()
    prose: str = ""
    extra: Mapping[str, Any] = field(default_factory=dict)

    @property
    def ref(self) -> Ref:
        """Give the reference other records use for this one."""
        return Ref(self.title, self.id)
