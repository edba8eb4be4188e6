"""The same answers as the index gives, by looking at every record in turn."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from logbook.index.apart import Number, of_quantity, read
from logbook.index.asked import Asked, id_prefix, read_search
from logbook.index.query import Filter
from logbook.index.rows import said
from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import kind_of
from logbook.records.kinds.workshop import Build
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot


def search(snapshot: Snapshot, typed: str, wanted: Filter) -> list[str]:
    """Give the ids of all records that answer, newest first."""
    asked = read_search(typed, snapshot.project.unit)
    found = [r for r in snapshot if fits(snapshot, r, wanted) and answers(r, asked)]
    return [record.id for record in reversed(found)]


def fits(snapshot: Snapshot, record: Record, wanted: Filter) -> bool:
    part = part_of(snapshot, record)
    return (
        wanted.kind in {"", kind_of(record).word}
        and wanted.part in {"", part.id if part else "-"}
        and wanted.build in {"", build_of(snapshot, record)}
        and (not wanted.entries or isinstance(record, Entry))
        and (wanted.since is None or record.when >= wanted.since)
        and (wanted.until is None or record.when <= wanted.until)
    )


def build_of(snapshot: Snapshot, record: Record) -> str:
    if isinstance(record, Build):
        return record.id
    own = snapshot.find(getattr(record, "build", None), Build)
    if own is None:
        piece = snapshot.find(getattr(record, "piece", None))
        own = snapshot.find(getattr(piece, "build", None), Build)
    return own.id if own else "-"


def answers(record: Record, asked: Asked) -> bool:
    texts, quantities = said(record)
    parts = [read(text) for text in (record.title, *texts)]
    words = {word for part in parts for word in part.words}
    numbers = [number for part in parts for number in part.numbers]
    numbers += [of_quantity(quantity) for quantity in quantities]
    whole = asked.whole is not None and has(numbers, asked.whole)
    nothing = not asked.words and not asked.numbers
    if nothing and asked.whole is not None:
        return whole
    every = all(begins(words, record.id, word) for word in asked.words) and all(
        any(has(numbers, meaning) for meaning in row) for row in asked.numbers
    )
    return every or whole


def begins(words: Iterable[str], identity: str, typed: str) -> bool:
    prefix = id_prefix(typed)
    if prefix and identity.startswith(prefix):
        return True
    return any(
        word.startswith(typed)
        and not (typed[-1].isdigit() and word[len(typed) : len(typed) + 1].isdigit())
        for word in words
    )


def has(numbers: Iterable[Number], asked: Number) -> bool:
    return any(same(number, asked) for number in numbers)


def same(there: Number, asked: Number) -> bool:
    return equal(there, asked) or shows(there, asked)


def shows(there: Number, asked: Number) -> bool:
    """Tell whether a caliper that reads to as many digits shows it as asked."""
    if there.dimension.startswith("gauge"):
        return False
    own = 3 if there.unit == "in" else 2
    wanted = 3 if asked.unit == "in" else 2
    if not asked.unit:
        near = asked.places == own and close(there, there.value, asked)
    elif asked.places != wanted:
        near = False
    elif {there.unit, asked.unit} == {"mm", "in"}:
        turned = there.value * (Fraction(254, 10) if there.unit == "in" else 1)
        turned /= Fraction(254, 10) if asked.unit == "in" else 1
        near = close(there, turned, asked)
    else:
        alike = there.unit == asked.unit or not there.unit
        near = alike and own == wanted and close(there, there.value, asked)
    return near


def close(there: Number, value: Fraction, asked: Number) -> bool:
    if asked.minus and not there.minus:
        return False
    half = Fraction(1, 2 * 10**asked.places)
    if there.dimension == asked.dimension == "temperature":
        return abs(value - asked.value) <= half
    return abs(abs(value) - abs(asked.value)) <= half


def equal(there: Number, asked: Number) -> bool:
    if asked.dimension and there.dimension:
        if there.dimension != asked.dimension:
            return False
        if asked.minus or asked.dimension == "temperature":
            return there.base == asked.base
        return abs(there.base) == abs(asked.base)
    if asked.dimension or not there.dimension or not asked.minus:
        if asked.minus:
            return there.minus and there.value == asked.value
        return abs(there.value) == abs(asked.value)
    return there.minus and there.value == asked.value
