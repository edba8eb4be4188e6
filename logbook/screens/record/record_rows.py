"""The rows of a record: its facts, its prose, what it is joined to, its commits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from logbook.records.ids import Ref
from logbook.records.record import Record
from logbook.records.snapshot import Snapshot, refs_in
from logbook.screens.record.amending import editable
from logbook.screens.record.record_words import has_rows, rows_of_fact
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.margin_words import margin_word
from logbook.screens.ruled.newest import line_of
from logbook.store.git.history import LogLine


def rows_of_record(snapshot: Snapshot, record: Record) -> Iterator[Line]:
    """Give everything that is known of a record but how it came to be."""
    yield Line("title", "title", record.title)
    for key, value in editable(record).items():
        for at, words in enumerate(rows_of_fact(value)):
            more = f" {at}" if has_rows(value) else ""
            label = "" if at else margin_word(key)
            yield Line(f"fact {key}{more}", label, words)
    for at, line in enumerate((record.prose or "no prose").split("\n")):
        yield Line("prose" if not at else f"prose {at}", "" if at else "prose", line)
    yield Line("file", "file", snapshot.path(record))
    yield from _joined(snapshot, record)


def _joined(snapshot: Snapshot, record: Record) -> Iterator[Line]:
    seen = {record.id}
    for label, others in (
        ("names", tuple(refs_in(record))),
        ("named by", snapshot.mentions(record)),
    ):
        for other in others:
            found = snapshot.find(other) if isinstance(other, Ref) else other
            if found is not None and found.id not in seen:
                seen.add(found.id)
                line = line_of(found)
                yield replace(line, key=f"record {found.id}", label=label)


def rows_of_history(history: Sequence[LogLine] | None) -> Iterator[Line]:
    """Give a row for each commit of a record; None where git cannot tell."""
    if history is None:
        yield Line("git", "history", "git does not know it here (partial clone)")
    elif not history:
        yield Line("git", "history", "git has not taken it yet")
    for number, one in enumerate(history or ()):
        said = f"{one.when:%Y-%m-%d %H:%M}  {one.id[:9]}  {one.subject}"
        yield Line(f"git {number}", "history" if not number else "", said)


def fact_of(line: Line) -> str:
    """Give the name of the fact a row shows, and its row in a table, if in one."""
    if line.key.startswith("fact "):
        return line.key.removeprefix("fact ")
    return line.key.partition(" ")[0]  # the rows of prose are one
