"""Facts as one line that reads, and what of them differs between two states."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from logbook.records.kinds.record import Record
from logbook.records.together.refs_held import refs_in
from logbook.records.written.codec import write_facts

FIXED = ("id", "kind")
"""Facts that never change."""


@dataclass(frozen=True, slots=True)
class Changed:
    """A fact that changed: its name, how it read before and after; empty: not there.

    Of a table the name of the row and of the fact in it, as “reading 2 value”.
    """

    fact: str
    before: str
    after: str

    @property
    def words(self) -> str:
        """Say it in one line."""
        name = self.fact.replace("_", " ")
        return f"{name}: {self.before or 'not told'} → {self.after or 'taken away'}"


Names = Mapping[str, str]
"""References as they stand in a file, each with the name alone."""


def names_of(record: Record) -> Names:
    """Give what a record refers to: nobody knows that by an id where a name stands."""
    return {str(ref): ref.name for ref in refs_in(record) if ref.name}


def shown_fact(value: Any, names: Names = MappingProxyType({})) -> str:
    """Show a fact as it is typed; what is among `names` by its name."""
    if isinstance(value, dict):
        shown = ((key, shown_fact(one, names)) for key, one in value.items())
        return ", ".join(f"{key} {one}" for key, one in shown)
    if isinstance(value, list | tuple):
        return " · ".join(shown_fact(one, names) for one in value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return names.get(str(value), str(value))


def what_changed(before: Record, after: Record) -> tuple[Changed, ...]:
    """Give the facts of a record that differ, in the order of its file.

    A row that only came to a table is none: what was done says it. A title that follows
    its facts is told only where nothing else changed; of prose only that it did.
    """
    named = {**names_of(before), **names_of(after)}
    old, new = _plain(write_facts(before), named), _plain(write_facts(after), named)
    names = [name for name in dict.fromkeys((*old, *new)) if name not in FIXED]
    found = [one for name in names for one in _fact(name, old.get(name), new.get(name))]
    if before.prose != after.prose:
        found.append(Changed("prose", "as it was", "told anew"))
    if not found and before.title != after.title:
        found.append(Changed("title", before.title, after.title))
    return tuple(found)


def _plain(value: Any, names: Names) -> Any:
    """Give facts with the names of what they refer to in place of name and id."""
    if isinstance(value, dict):
        return {key: _plain(one, names) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(one, names) for one in value]
    return names.get(value, value) if isinstance(value, str) else value


def _fact(name: str, old: Any, new: Any) -> Iterator[Changed]:
    if old == new:
        return
    if has_rows(old) or has_rows(new):
        yield from _rows(name, old or (), new or ())
    elif isinstance(old, dict) and isinstance(new, dict):
        yield from _keys(name, old, new)
    else:
        yield Changed(name, _read(old), _read(new))


def _rows(
    name: str, old: Sequence[Mapping[str, Any]], new: Sequence[Mapping[str, Any]]
) -> Iterator[Changed]:
    """Compare the rows of a table: by their ids where they have them."""
    there = {one.get("id", at): one for at, one in enumerate(new)}
    for at, row in enumerate(old):
        named = f"{name} {at + 1}" if len(old) > 1 else name
        now = there.get(row.get("id", at))
        if now is None:
            said = {key: one for key, one in row.items() if key not in ("id", "at")}
            yield Changed(named, " ".join(map(_read, said.values())), "")
        elif now != row:
            yield from _keys(named, row, now)


def _keys(
    name: str, old: Mapping[str, Any], new: Mapping[str, Any]
) -> Iterator[Changed]:
    for key in dict.fromkeys((*old, *new)):
        if old.get(key) != new.get(key):
            yield Changed(f"{name} {key}", _read(old.get(key)), _read(new.get(key)))


def has_rows(value: Any) -> bool:
    """Tell whether a fact is a list of tables, which are rows."""
    return isinstance(value, list | tuple) and any(isinstance(v, dict) for v in value)


def _read(value: Any) -> str:
    if isinstance(value, list | tuple):
        return " · ".join(map(_read, value))
    return "" if value is None else shown_fact(value)
