"""A change of a record on record, drafted on that record as it is by then."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any, TypeVar

from logbook.errors import ChangedMeanwhile
from logbook.records.kinds.record import Record
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot

R = TypeVar("R", bound=Record)


def as_by_now(snapshot: Snapshot, record: R) -> R:
    """Give a record as it is by now.

    Raises:
        ChangedMeanwhile: it was taken away.
    """
    now = snapshot.by_id(record.id, type(record))
    if now is None:
        raise ChangedMeanwhile(f"“{record.title}” was taken away meanwhile")
    return now


def amend_draft(draft: Draft, before: Record, after: Record) -> Draft:
    """Draft the change from `before` to `after` on the record as it is by now.

    Raises:
        ChangedMeanwhile: just what is amended was changed, or all of it taken away,
            by somebody else.
    """
    now = as_by_now(draft.snapshot, before)
    changes: dict[str, Any] = {}
    for field in fields(after):
        old, new = getattr(before, field.name), getattr(after, field.name)
        if old == new:
            continue
        if getattr(now, field.name) not in (old, new):
            raise ChangedMeanwhile(
                f"{field.name} of “{before.title}” was changed meanwhile; "
                "nothing was overwritten"
            )
        changes[field.name] = new
    draft.amend(replace(now, **changes))
    return draft
