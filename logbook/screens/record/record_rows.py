"""The rows of a record: its facts, its prose, what it is joined to, its commits."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import fields, replace
from typing import Any

from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import Decision, Deviation, Failure
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.record import Record
from logbook.records.making.retracting import Retractable
from logbook.records.together.refs_held import refs_in
from logbook.records.together.shown import Changed, has_rows, names_of
from logbook.records.together.snapshot import Snapshot
from logbook.screens.record.amending import RETRACTED, editable
from logbook.screens.record.record_words import (
    rows_of_fact,
    said_of_record,
)
from logbook.screens.record.untold import NOT_TOLD, untold
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.margin_words import margin_word
from logbook.screens.ruled.moments import instant
from logbook.screens.ruled.newest import line_of
from logbook.screens.ruled.passage import Say
from logbook.store.git.history import LogLine

_NOT_SO = {
    Failure: "Enter, if it was none: with the reason it stays as a note",
    Decision: "Enter, if it is not kept to: with the reason it stays as a note",
    Deviation: "Enter, if it was none: with the reason it stays as a note",
}
AMENDED = "amend"
"""What the subject of a commit begins with that the change itself tells."""


def rows_of_record(snapshot: Snapshot, record: Record) -> Iterator[Line]:
    """Give everything that is known of a record but how it came to be."""
    yield Line("title", "title", record.title)
    empty, names = untold(record), names_of(record)
    for key, value in _in_order(record, {**empty, **editable(record)}):
        if key in empty:
            words, label = "Enter tells it", margin_word(key)
            yield Line(f"fact {key}", label, words, NOT_TOLD, "$alarm")
            continue
        if key == "statements" and isinstance(record, Erratum):
            value = _what_they_say(snapshot, record)  # noqa: PLW2901 - as it is read
        for at, words in enumerate(rows_of_fact(value, names)):
            more = f" {at}" if has_rows(value) else ""
            label = "" if at else margin_word(key)
            yield Line(f"fact {key}{more}", label, words)
    if isinstance(record, Retractable):
        yield Line(f"fact {RETRACTED}", "retract", _NOT_SO[type(record)])
    for at, line in enumerate((record.prose or "no prose").split("\n")):
        yield Line("prose" if not at else f"prose {at}", "" if at else "prose", line)
    yield Line("file", "file", snapshot.path(record))
    yield from _joined(snapshot, record)


def _in_order(record: Record, facts: Mapping[str, Any]) -> Iterable[tuple[str, Any]]:
    """Give the facts as the kind has them: none changes its row once it is told."""
    order = {one.name: at for at, one in enumerate(fields(record))}
    return sorted(facts.items(), key=lambda one: order.get(one[0], len(order)))


def _what_they_say(snapshot: Snapshot, fault: Erratum) -> str:
    """Give what is wrong in the words of the releases, not by the ids of it."""
    wrong = {one.rpartition(" ")[2] for one in fault.statements}
    said: dict[str, list[str]] = {}
    for release in snapshot.all(Release):
        for one in release.statements:
            if one.id in wrong:
                said.setdefault(one.says, []).append(release.label)
    rows = (f"{', '.join(labels)}: {says}" for says, labels in said.items())
    return " · ".join(rows) or " · ".join(fault.statements)


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
                if isinstance(found, Characteristic):
                    line = replace(line, words=f"{found.part.name} {found.title}")
                yield replace(line, key=f"record {found.id}", label=label)


def rows_of_history(
    history: Sequence[LogLine] | None,
    title: str = "",
    changes: Sequence[Sequence[Changed]] = (),
) -> Iterator[Line]:
    """Give a row for each commit of a record; None where git cannot tell.

    Each says what it changed, where that is among `changes`. The record's own `title`
    is not said again in each: it stands above them.
    """
    if history is None:
        yield Line("git", "history", "git does not know it here (partial clone)")
    elif not history:
        yield Line("git", "history", "git has not taken it yet")
    for number, one in enumerate(history or ()):
        when = f"{one.when.astimezone():%Y-%m-%d %H:%M}"
        subject = one.subject.removesuffix(f": {title}") if title else one.subject
        if changed := changes[number : number + 1]:
            told = " · ".join(one.words for one in changed[0])
            did = (
                "" if subject.startswith(AMENDED) else f"{subject.partition(':')[0]}  "
            )
            subject = f"{did}{told}" if told else subject
        said = f"{when}  {subject}  {one.id[:9]}"
        yield Line(f"git {number}", "history" if not number else "", said)


def said_of_row(
    snapshot: Snapshot,
    record: Record,
    line: Line,
    history: Sequence[LogLine],
    changes: Sequence[Sequence[Changed]] = (),
) -> tuple[Say, ...]:
    """Give in full what a row is about: another record, a commit, a fact."""
    sort, _, rest = line.key.partition(" ")
    if sort == "record" and rest in snapshot:
        return (*said_of_record(snapshot[rest]),)
    if sort == "git" and rest.isdecimal() and int(rest) < len(history):
        one, at = history[int(rest)], int(rest)
        rows = ("commit", one.id), ("by", one.author), ("when", instant(one.when))
        changed = [each.words for each in changes[at]] if at < len(changes) else []
        told = (Say("" if n else "changed", words) for n, words in enumerate(changed))
        return (*(Say(*row) for row in rows), Say("subject", one.subject), *told)
    if sort == "prose":
        return tuple(
            Say("" if at else "prose", words)
            for at, words in enumerate((record.prose or "no prose").split("\n"))
        )
    named = _named_in(snapshot, record, fact_of(line))
    if named is not None:
        return (Say("record", line.words), *said_of_record(named))
    return (Say(line.label or margin_word(sort), line.words),)


def _named_in(snapshot: Snapshot, record: Record, key: str) -> Record | None:
    """Give the record that a fact names, if it names one."""
    value = getattr(record, key, None)
    return snapshot.find(value) if isinstance(value, Ref) else None


def fact_of(line: Line) -> str:
    """Give the name of the fact a row shows, and its row in a table, if in one."""
    if line.key.startswith("fact "):
        return line.key.removeprefix("fact ")
    return line.key.partition(" ")[0]  # the rows of prose are one
