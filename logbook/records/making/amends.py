"""A change of a record on record, drafted on that record as it is by then."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

from logbook.errors import ChangedMeanwhile
from logbook.records.kinds.record import Record
from logbook.records.making.drafts import Draft


def amend_draft(draft: Draft, before: Record, after: Record) -> Draft:
    """Draft the change from `before` to `after` on the record as it is by now.

    Raises:
        ChangedMeanwhile: just what is amended was changed by somebody else.
    """
    now = draft.snapshot.stored.get(before.id)
    if now is None:
        raise ChangedMeanwhile(f"“{before.title}” was taken away meanwhile")
    changes: dict[str, Any] = {}
    for field in fields(after):
        old, new = getattr(before, field.name), getattr(after, field.name)
        if old == new:
            continue
        if getattr(now.record, field.name) not in (old, new):
            raise ChangedMeanwhile(
                f"{field.name} of “{before.title}” was changed meanwhile; "
                "nothing was overwritten"
            )
        changes[field.name] = new
    draft.amend(replace(now.record, **changes))
    return draft
