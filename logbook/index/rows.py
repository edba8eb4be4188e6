"""A record as the rows the index keeps of it; nothing here looks at other records."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Any, NamedTuple

from logbook.index.apart import of_quantity
from logbook.index.terms import id_term, number_terms, place_term, terms_of
from logbook.quantity import Absent, Quantity
from logbook.records.kinds import design, happenings
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import KINDS, kind_of
from logbook.records.together.names import current_names, folded, names_of
from logbook.records.together.refs_held import refs_in

_ORIGIN = datetime(1970, 1, 1, tzinfo=UTC)
_FARTHEST_S = 2**34
_UNSEARCHED = frozenset({"id", "sha256", "text_sha256", "commit", "extra"})
_SILENT = frozenset({int, bool, float, datetime, date, type(None)})
_LEADING_NOWHERE = _SILENT | {str, Quantity, dict}
SUMMARY_LENGTH = 120
SLOTS = 28
"""A key is the second of the record's instant and so many bits of its id."""


class Mentioned(NamedTuple):
    """A reference in a record: its field, and the id, or else the name, folded."""

    field: str
    to_id: str
    to_name: str


@dataclass(frozen=True, slots=True)
class Rows:
    """What the index keeps of one record, but for what other records decide."""

    record: Record
    path: str
    kind: str
    names: tuple[tuple[str, bool], ...]
    mentions: tuple[Mentioned, ...]


def rows_of(record: Record, path: str) -> Rows:
    """Give the rows of a record."""
    now = current_names(record)
    names = tuple((name, name in now) for name in sorted(names_of(record)))
    return Rows(record, path, kind_of(record).word, names, tuple(_mentions(record)))


def _mentions(record: Record) -> Iterator[Mentioned]:
    for name in _holding(type(record)):
        value = getattr(record, name)
        if not value or type(value) in _LEADING_NOWHERE:
            continue
        for ref in refs_in(value):
            if ref:
                yield Mentioned(name, ref.id, "" if ref.id else folded(ref.name))


_FIELDS: dict[type, tuple[str, ...]] = {}


def _holding(cls: type) -> tuple[str, ...]:
    """Name the fields of a class that can hold something to search or follow."""
    if cls not in _FIELDS:
        held = dataclasses.fields(cls) if dataclasses.is_dataclass(cls) else ()
        names = (field.name for field in held)
        _FIELDS[cls] = tuple(name for name in names if name not in _UNSEARCHED)
    return _FIELDS[cls]


# -- order -----------------------------------------------------------------------


def moment_of(when: datetime) -> int:
    """Give an instant in microseconds since 1970, UTC."""
    return (when - _ORIGIN) // timedelta(microseconds=1)


def key_of(record: Record) -> int:
    """Give the key a record would like: later instants are larger, then ids."""
    second = moment_of(record.when) // 1_000_000
    second = max(-_FARTHEST_S, min(_FARTHEST_S, second))
    return (second << SLOTS) | _slot(record.id)


def _slot(identity: str) -> int:
    return int(identity.translate(_DIGITS), 32) >> (40 - SLOTS)


_DIGITS = str.maketrans(
    "0123456789abcdefghjkmnpqrstvwxyz", "0123456789abcdefghijklmnopqrstuv"
)


# -- what stands in the rows -----------------------------------------------------


def record_row(rows: Rows, key: int, part: str, build: str) -> tuple[Any, ...]:
    """Give the row of the record table, in the order of its columns."""
    record = rows.record
    offset = record.when.utcoffset() or timedelta()
    return (
        key,
        record.id,
        rows.path,
        rows.kind,
        int(KINDS[rows.kind].is_entry),
        record.title,
        moment_of(record.when),
        int(offset.total_seconds()) // 60,
        summary_of(record),
        value_of(record),
        part,
        build,
        *search_terms(record),
        place_terms(rows.kind, part, build),
    )


def place_terms(kind: str, part: str, build: str) -> str:
    """Give the terms of the filters by kind, part and build."""
    found = [place_term("k", kind)]
    found += [place_term("p", part)] if part else []
    found += [place_term("b", build)] if build else []
    return " ".join(found)


def summary_of(record: Record) -> str:
    """Give what a record says in one line beyond its title."""
    for name in ("symptom", "changed", "because", "prose"):
        text = " ".join(str(getattr(record, name, "") or "").split())
        if text:
            return text if len(text) <= SUMMARY_LENGTH else text[:SUMMARY_LENGTH] + "…"
    return ""


def value_of(record: Record) -> str:
    """Give the last value an entry states, as typed; of a project, its unit."""
    if isinstance(record, design.Project):
        return record.unit
    if isinstance(record, happenings.Run):
        return str(record.readings[-1].value) if record.readings else ""
    if isinstance(record, happenings.Deviation):
        return str(record.found or record.off or "")
    if isinstance(record, happenings.Failure) and record.conditions:
        return str(record.conditions.temperature or "")
    return str(getattr(record, "nominal", None) or "")


def reading_rows(record: Record) -> Iterator[tuple[Any, ...]]:
    """Give the rows of a run's readings, in the order of their columns."""
    for number, reading in enumerate(getattr(record, "readings", ())):
        held, dimension, base = reading.value, "", ""
        if not isinstance(held, Absent):
            exact = of_quantity(held)
            dimension, base = exact.dimension, str(exact.base)
        yield (
            record.id,
            number,
            reading.id,
            moment_of(reading.at),
            reading.what.name,
            reading.what.id,
            reading.place,
            reading.state or getattr(record, "state", ""),
            str(held),
            dimension,
            base,
        )


# -- what search looks at --------------------------------------------------------


_OF_THE_KIND: dict[str, tuple[str, ...]] = {
    "run": ("reading", "measured"),
    "deviation": ("deviation",),
    "failure": ("failure", "failed"),
    "decision": ("decision", "decided"),
    "question": ("question",),
    "order": ("order", "ordered"),
    "count": ("count",),
    "revision": ("revision",),
    "piece": ("piece",),
    "release": ("release",),
    "erratum": ("known fault",),
}
"""What records of a kind are looked for by, though they need not say it themselves.

A kind whose name is a common word of the bench (step, line, note) is none of them:
whoever looks for that word wants where it was said.
"""


def said(record: Record) -> tuple[list[str], list[Quantity]]:
    """Give everything a record says beside its title: texts, and quantities."""
    texts: list[str] = []
    quantities: list[Quantity] = []
    for name in _holding(type(record)):
        value = getattr(record, name)
        if value and name != "title":
            _gather(value, texts, quantities)
    texts += _strings(record.extra)
    texts += _OF_THE_KIND.get(kind_of(record).word, ())
    return texts, quantities


def _gather(value: Any, texts: list[str], quantities: list[Quantity]) -> None:
    kind = type(value)
    if kind is str:
        texts.append(value)
    elif kind is Ref:
        texts.append(value.name)
    elif kind is tuple:
        for item in value:
            _gather(item, texts, quantities)
    elif kind is Quantity:
        quantities.append(value)
        texts += [value.text] if value.metal else []
    elif kind not in _SILENT:
        texts += _strings(value)
        for name in _holding(kind):
            held = getattr(value, name)
            if held:
                _gather(held, texts, quantities)


def _strings(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        for item in value.values():
            yield from _strings(item)
    elif isinstance(value, list | tuple):
        for item in value:
            yield from _strings(item)


def search_terms(record: Record) -> tuple[str, str]:
    """Give the terms of the title and those of the rest, each divided by spaces."""
    texts, quantities = said(record)
    body: list[str] = []
    for text in texts:
        body += terms_of(text)
    for quantity in quantities:
        body += number_terms(of_quantity(quantity))
    title = dict.fromkeys((id_term(record.id), *terms_of(record.title)))
    return " ".join(title), " ".join(dict.fromkeys(body))
