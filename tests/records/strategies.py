"""Hypothesis strategies that make any record, worked out from the classes."""

from __future__ import annotations

import dataclasses
import types
import typing
from collections.abc import Mapping
from datetime import UTC, date, datetime, timedelta, timezone
from enum import StrEnum
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from logbook.decimal_text import plain_number
from logbook.quantity import Absent, Quantity, parse_quantity
from logbook.records.kinds.design import DesignFile, Project
from logbook.records.kinds.ids import ALPHABET, Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import KINDS

NASTY = (
    "```", "~~~~", "````toml\nid = 1\n````", "<<<<<<< HEAD", "=======", "\\=======",
    ">>>>>>> other", "||||||| base", "\\\\<<<<<<< x", "# Title", "\u202eevil\u2066",
    "\ufeff", "a\r\nb\rc", "\x1b[31m", "\x00", "[x](javascript:y)", "<script>", "---",
    '"""', "'''", "\\", "\\u0041", 'kind = "note"', "\u2028", "\u0085", "[[reading]]",
)  # fmt: skip

words = st.text(st.characters(codec="utf-8", exclude_categories=["Cs"]), max_size=30)
prose = st.lists(words | st.sampled_from(NASTY), max_size=8).map("\n".join)
ids = st.text(ALPHABET, min_size=8, max_size=8)
names = st.text("abcxyz -19", min_size=1, max_size=12).map(
    lambda t: " ".join(t.split()) or "n"
)


@st.composite
def refs(draw: st.DrawFn) -> Ref:
    return Ref(draw(names), draw(ids))


@st.composite
def quantities(draw: st.DrawFn) -> Quantity:
    unit = draw(st.sampled_from(["mm", "in", "°C", "N·m", "h", "%", "°"]))
    number = Fraction(draw(st.integers(-(10**7), 10**7)), 10 ** draw(st.integers(0, 4)))
    return parse_quantity(f"{plain_number(number)} {unit}")


instants = st.builds(
    lambda moment, minutes: moment.replace(tzinfo=timezone(timedelta(minutes=minutes))),
    st.datetimes(datetime(1971, 1, 1), datetime(2100, 1, 1)),  # noqa: DTZ001
    st.integers(-14 * 60, 14 * 60),
)


def of_hint(hint: Any) -> st.SearchStrategy[Any]:
    simple: dict[Any, st.SearchStrategy[Any]] = {
        str: words,
        int: st.integers(-(2**53), 2**53),
        bool: st.booleans(),
        Quantity: quantities(),
        Ref: refs(),
        datetime: instants,
        date: st.dates(date(1971, 1, 1)),
        Absent: st.sampled_from(Absent),
        types.NoneType: st.none(),
    }
    if hint in simple:
        return simple[hint]
    origin = typing.get_origin(hint)
    if origin in (types.UnionType, typing.Union):
        return st.one_of(*(of_hint(arg) for arg in typing.get_args(hint)))
    if origin is tuple:
        return st.lists(of_hint(typing.get_args(hint)[0]), max_size=3).map(tuple)
    if origin is Mapping:
        return st.dictionaries(words, words, max_size=3)
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        return st.sampled_from(hint)
    return of_class(hint)


def of_class(cls: Any) -> st.SearchStrategy[Any]:
    hints = typing.get_type_hints(cls)
    fields = {}
    for field in dataclasses.fields(cls):
        if field.name == "extra":
            continue
        fields[field.name] = of_hint(hints[field.name])
    if issubclass(cls, Record):
        fields["prose"] = prose
        fields["title"] = words
        fields["when"] = instants
    if "id" in fields:
        fields["id"] = ids
    if cls is Project:
        fields["unit"] = st.sampled_from(["mm", "in", "cm"])
        fields["format"] = st.integers(1, 2**53)
    if cls is DesignFile:
        fields["unit"] = st.sampled_from(["", "mm", "in", "m"])
    return st.builds(cls, **fields)


records: st.SearchStrategy[Record] = st.sampled_from(sorted(KINDS)).flatmap(
    lambda word: of_class(KINDS[word].type)
)

NOON = datetime(2026, 3, 14, 12, 0, tzinfo=UTC)
