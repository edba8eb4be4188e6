"""Amending a record by one fact at a time, read by the rules its file is read by."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

from logbook.errors import ChangedMeanwhile
from logbook.records.codec import Unreadable, read_facts, write_facts
from logbook.records.making import Draft
from logbook.records.model import Record
from logbook.records.text import clean_title

FIXED = ("id", "kind")
"""Facts that never change."""


def editable(record: Record) -> dict[str, Any]:
    """Give the facts of a record that may be amended, as its file has them."""
    return {k: v for k, v in write_facts(record).items() if k not in FIXED}


def shown_fact(value: Any) -> str:
    """Show a fact as it is typed."""
    if isinstance(value, dict):
        return ", ".join(f"{key} {shown_fact(one)}" for key, one in value.items())
    if isinstance(value, list | tuple):
        return " · ".join(shown_fact(one) for one in value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)


def amended(record: Record, key: str, typed: str) -> Record | str:
    """Give the record with one fact as typed, or the sentence that refuses it.

    A fact left empty is taken away.
    """
    typed = typed.strip()
    if key == "title":
        if not typed:
            return "title: found nothing; accepted: a line of words"
        return replace(record, title=clean_title(typed))
    if key == "prose":
        return replace(record, prose=typed.replace("\\n", "\n"))
    facts = write_facts(record)
    if typed:
        facts[key] = _like(facts.get(key), typed)
    else:
        facts.pop(key, None)
    try:
        fresh, complaints = read_facts(facts, record.title, record.prose)
    except Unreadable as unreadable:
        complaints = unreadable.complaints
    for complaint in complaints:
        return f"{key}: found {complaint.found}; accepted: {complaint.accepted}"
    return fresh


def _like(before: Any, typed: str) -> Any:
    """Read what was typed as the sort of fact that stands there."""
    if isinstance(before, bool) and typed.casefold() in {"yes", "no", "true", "false"}:
        return typed.casefold() in {"yes", "true"}
    if isinstance(before, int) and typed.lstrip("-").isdecimal():
        return int(typed)
    if hasattr(before, "isoformat"):
        try:
            return type(before).fromisoformat(typed)
        except ValueError:
            return typed
    return typed


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
