"""Settling what two clones did apart: conflicts inside a record, labels given twice.

Measuring runs are joined by the ids of their readings; any other conflict has
two sides, both shown, of which the user takes one. Of two records with one
label the later one is relabelled; ids never change.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from difflib import SequenceMatcher
from itertools import zip_longest

from logbook.records.kinds import workshop
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Run
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.record import Record
from logbook.records.together.clashes import NAMED
from logbook.records.together.names import folded
from logbook.records.together.revisions import revisions_in
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import Parsed, read_record, write_record

_CONFLICT = re.compile(
    r"^<{7}(?: .*)?\n(?P<ours>(?:.*\n)*?)"
    r"(?:\|{7}(?: .*)?\n(?:.*\n)*?)?"
    r"={7}\n(?P<theirs>(?:.*\n)*?)>{7}(?: .*)?(?:\n|$)",
    re.MULTILINE,
)


def sides(text: str) -> tuple[str, str] | None:
    """Give the two whole texts of a file with conflict markers; None without any."""
    if not _CONFLICT.search(text):
        return None
    return _CONFLICT.sub(r"\g<ours>", text), _CONFLICT.sub(r"\g<theirs>", text)


def joined(ours: Parsed, theirs: Parsed) -> Run | None:
    """Join two sides of one measuring run; None where more than readings differ.

    Readings come in the order they were taken; a reading both sides have but
    with another value is not joined.
    """
    one, other = ours.record, theirs.record
    if not isinstance(one, Run) or not isinstance(other, Run):
        return None
    if replace(one, readings=()) != replace(other, readings=()):
        return None
    known = {reading.id: reading for reading in one.readings}
    for reading in other.readings:
        if known.setdefault(reading.id, reading) != reading:
            return None
    ordered = sorted(known.values(), key=lambda reading: (reading.at, reading.id))
    return replace(one, readings=tuple(ordered))


def read_sides(data: bytes, file: str) -> tuple[Parsed, Parsed] | None:
    """Read both sides of a record's file that has a conflict; None without one."""
    found = sides(data.decode("utf-8", "replace").replace("\r\n", "\n"))
    if found is None:
        return None
    ours, theirs = found
    return read_record(ours.encode(), file), read_record(theirs.encode(), file)


_NOT_TAKEN = "The other side, not taken:"
_QUOTED = re.compile(rf"\n*^{re.escape(_NOT_TAKEN)}\n+(?:>.*(?:\n|$))+", re.MULTILINE)


def with_other_side(kept: Record, left: Record) -> Record:
    """Give a record that keeps the side not taken, whole, in its prose."""
    other = write_record(left)
    quoted = "\n".join(f"> {line}".rstrip() for line in other.splitlines())
    prose = f"{kept.prose}\n\n{_NOT_TAKEN}\n\n{quoted}".strip()
    return replace(kept, prose=prose)


def without_other_side(prose: str) -> str:
    """Give the prose of a record as it is published: with the side taken alone."""
    return _QUOTED.sub("\n", prose).strip("\n")


def differing(ours: Record, theirs: Record) -> Iterator[tuple[str, str]]:
    """Give the lines of two sides of a record that only one of them has, in pairs.

    A line that one side lacks is empty there.
    """
    one, other = (write_record(side).splitlines() for side in (ours, theirs))
    matcher = SequenceMatcher(None, one, other, autojunk=False)
    for tag, start, end, since, until in matcher.get_opcodes():
        if tag != "equal":
            yield from zip_longest(one[start:end], other[since:until], fillvalue="")


def relabelled(snapshot: Snapshot) -> Iterator[Record]:
    """Give the later of any two records with one name, with a name of its own.

    Of two parts the one that went out in a release keeps it, though it be the later.
    Which of two releases or revisions keeps its label is told by what went out, too.
    """
    seen: set[tuple[type[Record], str]] = set()
    released = parts_released(snapshot)
    for record in sorted(snapshot, key=lambda one: one.id not in released):
        if not isinstance(record, NAMED) or isinstance(record, Release):
            continue
        key = (type(record), folded(record.title))
        if key not in seen:
            seen.add(key)
            continue
        title = _free(snapshot, record, seen)
        seen.add((type(record), folded(title)))
        former = (*record.formerly, record.title)
        yield _renamed(record, title, former)


def parts_released(snapshot: Snapshot) -> dict[str, list[str]]:
    """Give the ids of the parts that went out, each with the labels of its releases."""
    found: dict[str, list[str]] = {}
    for release in snapshot.all(Release):
        for revision in revisions_in(snapshot, release):
            if part := snapshot.find(revision.part, Part):
                found.setdefault(part.id, []).append(release.label)
    return found


def _free(
    snapshot: Snapshot, record: Record, seen: set[tuple[type[Record], str]]
) -> str:
    """Count a title on until it is free: base-1 becomes base-2, lid becomes lid 2."""
    match = re.fullmatch(r"(.*?)([- ]?)(\d+)", record.title)
    stem, joint, number = (match[1], match[2], int(match[3])) if match else (
        record.title, " ", 1,
    )  # fmt: skip
    while True:
        number += 1
        title = f"{stem}{joint}{number}"
        taken = (type(record), folded(title)) in seen
        if not taken and not snapshot.named(title, type(record)):
            return title


def _renamed(record: Record, title: str, former: tuple[str, ...]) -> Record:
    number = re.search(r"(\d+)$", title)
    if isinstance(record, workshop.Piece) and number:
        return replace(record, title=title, formerly=former, number=int(number[1]))
    return replace(record, title=title, formerly=former)
