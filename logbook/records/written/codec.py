"""Records to facts and back: one plan for each class, worked out from its fields.

A wrong value never loses its record: the field stays unset, what was written is
kept in `extra`, and the complaint names the path of the fact. Only a missing or
wrong required fact makes the record unreadable.
"""

from __future__ import annotations

import dataclasses
import types
import typing
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from logbook.quantity import Absent, Quantity
from logbook.records.kinds.field_types import field_types
from logbook.records.kinds.ids import Ref, is_id
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import KINDS, kind_of
from logbook.records.written.fact_values import (
    SIMPLE,
    Converters,
    Path,
    WrongValue,
    choice,
    fitting,
    many,
    read_value,
    read_words,
)

_BY_HAND = frozenset({"id", "title", "prose", "extra"})
"""Fields that do not stand in the block as plain facts."""


@dataclass(frozen=True, slots=True)
class Complaint:
    """A fact that cannot be taken: its path, what was found, what is accepted."""

    path: Path
    found: str
    accepted: str


class Unreadable(Exception):
    """The facts make no record; the complaints say why."""

    def __init__(self, complaints: list[Complaint]) -> None:
        super().__init__("; ".join(c.accepted for c in complaints))
        self.complaints = complaints


@dataclass(frozen=True, slots=True)
class _Field:
    name: str
    key: str
    read: Callable[[Any], Any]
    write: Callable[[Any], Any]
    required: bool
    always: bool
    default: Any


# -- facts to record -------------------------------------------------------------


def read_facts(
    facts: Mapping[str, Any], title: str, prose: str
) -> tuple[Record, list[Complaint]]:
    """Make a record of its facts.

    Raises:
        Unreadable: no kind, no id, or a required fact is missing or wrong.
    """
    word = facts.get("kind")
    kind = KINDS.get(word) if isinstance(word, str) else None
    if kind is None:
        raise Unreadable([Complaint(("kind",), shown(word), ", ".join(KINDS))])
    identity = facts.get("id")
    if not isinstance(identity, str) or not is_id(identity):
        accepted = "8 characters of 0-9 and a-z without i l o u"
        raise Unreadable([Complaint(("id",), shown(identity), accepted)])
    rest = {key: value for key, value in facts.items() if key not in ("kind", "id")}
    values, complaints, extra = _read_fields(kind.type, rest)
    record = kind.type(id=identity, title=title, prose=prose, extra=extra, **values)
    return record, complaints


def _read_fields(
    cls: type, facts: Mapping[str, Any]
) -> tuple[dict[str, Any], list[Complaint], dict[str, Any]]:
    values: dict[str, Any] = {}
    complaints: list[Complaint] = []
    extra = dict(facts)
    fatal = False
    for field in _plan(cls):
        if field.key not in facts:
            if field.required:
                complaints.append(Complaint((field.key,), "nothing", "a value"))
                fatal = True
            continue
        try:
            values[field.name] = field.read(facts[field.key])
            del extra[field.key]
        except WrongValue as wrong:
            path = (field.key, *wrong.path)
            found = shown(_at(facts, path))
            complaints.append(Complaint(path, found, wrong.accepted))
            fatal = fatal or field.required
    if fatal:
        raise Unreadable(complaints)
    return values, complaints, extra


def _at(facts: Any, path: Path) -> Any:
    for step in path:
        try:
            facts = facts[step]
        except (KeyError, IndexError, TypeError):
            return None
    return facts


def shown(value: object) -> str:
    """Show a found value in a complaint, cut to a readable length."""
    if value is None:
        return "nothing"
    text = f"“{value}”" if isinstance(value, str) else str(value)
    text = "".join(c if c.isprintable() else "�" for c in text)
    return text if len(text) <= 80 else text[:79] + "…"


# -- record to facts -------------------------------------------------------------


def write_facts(record: Record) -> dict[str, Any]:
    """Give the facts of a record as they stand in its file, in order."""
    facts: dict[str, Any] = {"id": record.id, "kind": kind_of(record).word}
    facts.update(_write_fields(record))
    facts.update(record.extra)
    return facts


def _write_fields(value: Any) -> Iterator[tuple[str, Any]]:
    for field in _plan(type(value)):
        held = getattr(value, field.name)
        if field.always or held != field.default:
            yield field.key, field.write(held)


# -- the plan of a class ---------------------------------------------------------


_PLANS: dict[type, tuple[_Field, ...]] = {}


def _plan(cls: type) -> tuple[_Field, ...]:
    if cls not in _PLANS:
        _PLANS[cls] = _made_plan(cls)
    return _PLANS[cls]


def _made_plan(cls: type) -> tuple[_Field, ...]:
    hints = field_types(cls)
    plan = []
    for field in dataclasses.fields(cls):
        if field.name in _BY_HAND and issubclass(cls, Record):
            continue
        read, write = _converters(hints[field.name])
        if fits := field.metadata.get("fits"):
            read = fitting(read, fits, field.metadata["accepted"])
        default = field.default
        if field.default_factory is not dataclasses.MISSING:
            default = field.default_factory()
        required = default is dataclasses.MISSING
        key = field.metadata.get("key", field.name)
        always = required or field.metadata.get("always", False)
        plan.append(_Field(field.name, key, read, write, required, always, default))
    return tuple(plan)


def _converters(hint: Any) -> Converters:
    origin = typing.get_origin(hint)
    if origin in (types.UnionType, typing.Union):
        options = [arg for arg in typing.get_args(hint) if arg is not type(None)]
        if set(options) == {Quantity, Absent}:
            return read_value, str
        [only] = options
        return _converters(only)
    if origin is tuple:
        return many(_converters(typing.get_args(hint)[0]))
    if origin is Mapping:
        return read_words, dict
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        return choice(hint), str
    if dataclasses.is_dataclass(hint) and hint not in (Quantity, Ref):
        return _table(typing.cast("type", hint))
    return SIMPLE[hint]


def _table(cls: type) -> Converters:
    def read(value: Any) -> Any:
        if not isinstance(value, dict):
            raise WrongValue("a table in braces")
        try:
            values, complaints, extra = _read_fields(cls, value)
        except Unreadable as unreadable:
            first = unreadable.complaints[0]
            raise WrongValue(first.accepted, first.path) from None
        if complaints:
            raise WrongValue(complaints[0].accepted, complaints[0].path)
        if extra:
            key = next(iter(extra))
            names = ", ".join(field.key for field in _plan(cls))
            raise WrongValue(f"one of {names}", (key,))
        return cls(**values)

    return read, lambda held: dict(_write_fields(held))
