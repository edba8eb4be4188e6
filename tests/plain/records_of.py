"""What saving a line would write, in a project that knows the names in it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass
from datetime import date, timedelta
from enum import Enum
from typing import Any

from logbook.plain.drafts.entries import draft_line
from logbook.plain.understanding import Understanding
from logbook.plain.words.vocabulary import Vocabulary
from logbook.quantity import Absent, Quantity
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part, Project
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import path_of
from logbook.records.kinds.workshop import Instrument
from logbook.records.making.drafts import Draft
from logbook.records.together.from_files import make_snapshot
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import digest, read_record, write_record
from tests.plain.judge import NOW

_WORDS_OF_THE_LINE = frozenset({"title", "prose", "statement", "id", "extra"})


def world(records: Iterable[Record]) -> Snapshot:
    """Write the records, read them back, and give them with their problems."""
    files = []
    for record in records:
        data = write_record(record).encode()
        path = path_of(record)
        files.append((path, digest(data), read_record(data, path)))
    return make_snapshot(files)


def known(project: Vocabulary) -> tuple[Record, ...]:
    """Give the records of a project that has these names."""
    made = Draft(world(()), NOW)
    made.add(Project(id=new_id(), title="a project", when=NOW))
    made.build()
    for part in project.parts:
        made.new_part(part)
    for part, names in project.characteristics.items():
        for name in names:
            made.characteristic(made.part(part), name)
    for number, step in enumerate(project.steps):
        made.add(Step(id=new_id(), title=step, number=number + 1, when=NOW))
    for instrument in project.instruments:
        made.add(Instrument(id=new_id(), title=instrument, when=NOW))
    return made.records


def drafted(line: Understanding, snapshot: Snapshot) -> tuple[Record, ...]:
    """Give the records that a line becomes."""
    return draft_line(Draft(snapshot, NOW + timedelta(hours=1)), line).records


def values_of(records: tuple[Record, ...]) -> set[str]:
    """Give every value that stands in a field of its own, as text."""
    return {text for record in records for text in _values(record)} | {
        record.title for record in records if isinstance(record, Part)
    }


def _values(value: Any) -> Iterator[str]:  # noqa: C901 - one branch for each type
    if isinstance(value, Quantity):
        yield from (str(value), value.text)
    elif isinstance(value, Ref):
        yield value.name
    elif isinstance(value, Enum | Absent):
        yield str(value.value)
    elif isinstance(value, date):
        yield value.isoformat()
    elif isinstance(value, Mapping):
        yield from (text for one in value.values() for text in _values(one))
    elif isinstance(value, tuple):
        yield from (text for one in value for text in _values(one))
    elif is_dataclass(value):
        for field in fields(value):
            if field.name not in _WORDS_OF_THE_LINE:
                yield from _values(getattr(value, field.name))
    elif value is True:
        yield "yes"
    elif value not in (None, False, ""):
        yield str(value)
