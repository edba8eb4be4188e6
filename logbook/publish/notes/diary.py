"""The diary of the builder notes: what happened on each day, as it was told.

A line stands under its day, with its kind before it; what both of these say already
is left out of its words.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from logbook.advice.faults.gone import done_because
from logbook.advice.faults.headline import line_now
from logbook.publish.notes.order_told import ORDERED, order_told
from logbook.records.kinds import happenings, workshop
from logbook.records.states.dispositions import DONE
from logbook.records.states.read_now import told_now
from logbook.records.states.undated import under_its_day
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import whole_title

_TOLD: dict[type[happenings.Entry], str] = {
    happenings.StepDone: "Done",
    happenings.Run: "Measured",
    happenings.Deviation: "Differs from the drawing",
    happenings.Failure: "Went wrong",
    happenings.Decision: "Decided",
    happenings.Disposal: "What became of it",
    happenings.Note: "Note",
    happenings.Question: "Asked",
    happenings.Status: "What became of it",
    happenings.Count: "Counted",
    happenings.Order: ORDERED,
    happenings.Override: "Went on past a warning",
}
"""What the diary tells, and in which words; whatever is not named stays private."""


_ONE_LINE = timedelta(seconds=1)
"""How far apart the records of one line are at most."""


@dataclass(frozen=True, slots=True)
class Day:
    """What happened on one day of one build."""

    build: str
    day: date
    lines: tuple[tuple[str, str], ...]


def days(snapshot: Snapshot) -> Iterator[Day]:
    """Give the days on which something happened, in order, build by build."""
    made: dict[tuple[str, date], list[tuple[str, str]]] = {}
    said: dict[tuple[str, date, str], datetime] = {}
    for entry in sorted(snapshot.entries, key=_order):
        told = _told(snapshot, entry)
        if told is None:
            continue
        words = told[0], _unrepeated(told[0], under_its_day(told[1]))
        build = snapshot.find(entry.build, workshop.Build)
        key = (build.title if build else "the design", entry.when.date())
        lines = made.setdefault(key, [])
        last = said.get((*key, words[1]))
        # One plain line can make several records; it was said once. What is done or
        # measured later happened again: a step done, undone and done once more.
        again = isinstance(entry, happenings.StepDone | happenings.Run)
        if last is None or (again and entry.when - last > _ONE_LINE):
            lines.append(words)
        said[*key, words[1]] = entry.when
    for (build_title, moment), lines in made.items():
        yield Day(build_title, moment, tuple(lines))


def _order(entry: happenings.Entry) -> tuple[datetime, bool]:
    """Order entries; of one instant what was done or measured comes first."""
    return entry.when, not isinstance(entry, happenings.StepDone | happenings.Run)


def _told(snapshot: Snapshot, entry: happenings.Entry) -> tuple[str, str] | None:
    """Say what kind of thing an entry is and what it says; None if it is private."""
    kind = _TOLD.get(type(entry))
    if kind is None or (isinstance(entry, happenings.Override) and not entry.published):
        return None
    if isinstance(entry, happenings.StepDone):
        words = whole_title(entry)
        said_already = entry.time and str(entry.time) in words
        took = f", {entry.time}" if entry.time and not said_already else ""
        kind = "Taken apart again" if entry.undone else kind
        return kind, f"{words}{took}"
    if isinstance(entry, happenings.Run):
        return kind, _run(snapshot, entry)
    if isinstance(entry, happenings.Disposal):
        return kind, _disposal(snapshot, entry)
    if isinstance(entry, happenings.Order):
        return order_told(snapshot, entry)
    if isinstance(entry, happenings.Status):
        words = whole_title(entry)
        return kind, f"{words}{because(words, entry.because)}"
    if isinstance(entry, happenings.Failure | happenings.Deviation):
        return kind, line_now(snapshot, entry)
    return kind, whole_title(entry)


def because(said: str, why: str) -> str:
    """Give a reason to add to what was said; empty where that tells it already."""
    return f", because {why}" if why and why.casefold() not in said.casefold() else ""


def _unrepeated(kind: str, line: str) -> str:
    """Give a line without the kind it begins with: “note: …” under Note."""
    rest = re.sub(rf"(?i)^{re.escape(kind)}(?:\s*:\s*|\s+)", "", line)
    return rest or line


def _disposal(snapshot: Snapshot, entry: happenings.Disposal) -> str:
    """Say what was decided for a piece, or what was typed where that says it."""
    piece, words = snapshot.find(entry.piece), whole_title(entry)
    plain = words == entry.title and words.startswith(entry.disposition.value)
    if piece is None or not plain:
        return f"{words}{because(words, entry.because)}"
    why = done_because(snapshot, entry)
    done = f"{piece.title} was {DONE[entry.disposition]}"
    return f"{done}: {why}" if why else done


def _run(snapshot: Snapshot, run: happenings.Run) -> str:
    """Say a measuring run: as it was typed, or by piece and dimension."""
    if "=" not in run.title:
        return told_now(snapshot, run)
    piece = snapshot.find(run.piece)
    items = dict.fromkeys(reading.what.name for reading in run.readings)
    return f"{piece.title if piece else 'a piece'}: {', '.join(items)}"
