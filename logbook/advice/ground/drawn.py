"""Dimensions as a revision draws them, worked out once for each revision."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from logbook.advice.ground.register import remembered
from logbook.quantity import Quantity
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.sizes.definition import Dimension, characteristics_of, definition
from logbook.records.together.revisions import current_revision
from logbook.records.together.snapshot import Snapshot


def drawn_as(
    snapshot: Snapshot, revision: Revision | None, what: Characteristic
) -> Dimension:
    """Give one dimension as a revision draws it, else as it was first drawn."""
    found = _drawn(snapshot, revision).get(what.id) if revision else None
    plain = Dimension(what, what.nominal, what.lower_limit, what.upper_limit)
    return found or plain


def nominal_as(
    snapshot: Snapshot, revision: Revision | None, what: Characteristic
) -> Quantity | None:
    """Give the size of one dimension as `drawn_as` gives it."""
    found = _drawn(snapshot, revision).get(what.id) if revision else None
    return found.nominal if found else what.nominal


def _drawn(snapshot: Snapshot, revision: Revision) -> Mapping[str, Dimension]:
    def work() -> Mapping[str, Dimension]:
        each = definition(snapshot, revision)
        return {one.characteristic.id: one for one in each}

    return remembered(snapshot, "drawn", (revision,), work)


def dimensions_of(snapshot: Snapshot, part: Part) -> tuple[Characteristic, ...]:
    """Give the dimensions of a part, of whatever revision, oldest first."""
    work = partial(characteristics_of, snapshot, part)
    return remembered(snapshot, "dimensions", (part,), work)


def newest_revision(snapshot: Snapshot, part: Part) -> Revision | None:
    """Give the current revision of a part."""
    return remembered(
        snapshot, "newest", (part,), lambda: current_revision(snapshot, part)
    )
