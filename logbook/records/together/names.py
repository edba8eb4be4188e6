"""The names a record answers to, and how names are compared."""

from __future__ import annotations

from functools import lru_cache

from logbook.records.kinds import design
from logbook.records.kinds.record import Record


@lru_cache(maxsize=1 << 15)
def folded(name: str) -> str:
    """Give a name as names are compared: letter case, `_` and `-` aside."""
    return " ".join(name.casefold().replace("_", " ").replace("-", " ").split())


def current_names(record: Record) -> set[str]:
    """Give the names a record has now, folded: title, name, aliases."""
    called = _called_by(type(record))
    if not called:  # as nearly all records are
        return {folded(record.title)} if record.title else set()
    names = [record.title, *[getattr(record, name) for name in called]]
    if isinstance(record, design.Part):
        names += record.aliases
    return set(map(folded, filter(None, names)))


_CALLED_BY: dict[type, tuple[str, ...]] = {design.Revision: ()}
"""The facts that records of a class are called by, beside their title. The label of
a revision is one among those of its part."""


def _called_by(cls: type) -> tuple[str, ...]:
    found = _CALLED_BY.get(cls)
    if found is None:
        found = tuple(name for name in ("name", "label") if hasattr(cls, name))
        _CALLED_BY[cls] = found
    return found


def names_of(record: Record) -> set[str]:
    """Give the names a record answers to, folded: title, name, aliases, former."""
    names = current_names(record)
    return (
        names | {folded(name) for name in record.formerly} if record.formerly else names
    )
