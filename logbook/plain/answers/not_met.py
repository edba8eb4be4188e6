"""A line that says a known fault does not occur: fault 7rzg does not occur with me.

A number is that of the page of the release that is named, else of the one built by.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from logbook.plain.understanding import Facts, Kind, Understanding, as_note
from logbook.records.kinds.design import Part
from logbook.records.kinds.made_public import Erratum
from logbook.records.making.by_number import CALLED, NO_PAGE, Page
from logbook.records.making.not_met import Known, called_by_name
from logbook.records.together.likeness import stems
from logbook.records.together.names import folded
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot

_NOT = r"(?:(?:does|did)\s+not|(?:does|did)n't)"
_OCCUR = (
    rf"(?:{_NOT}\s+(?:occur|happen|show|come\s+up|appear)|"
    r"(?:is|was)(?:\s+not|n['’]t)\s+(?:met|seen|there))"
)
_NAMED = re.compile(rf"(?i)\bfault\s+(?P<name>[0-9a-z]{{4,8}})\s+{_OCCUR}\b")
_OCCURS_NOT = re.compile(rf"(?i)\s+{_OCCUR}\b")
_DID_NOT = re.compile(
    rf"(?i)^\W*(?:the\s+|my\s+|our\s+)?(?P<part>.+?)\s+{_NOT}\s+(?P<rest>.+)"
)
_HOPED = re.compile(r"(?i)\b(?:fit|seem|know|say|want|yet|measure)\b|\?")


def held_to_not_met(
    line: Understanding, snapshot: Snapshot, page: Page | None = None
) -> Understanding:
    """Give the line as saying that a known fault does not occur, where it does.

    `page` gives the page that its number is read on.
    """
    if page is not None and (numbered := _numbered(line.line)):
        return _by_number(line, snapshot, numbered, page)
    found = _named(line.line, snapshot) or _told_by_part(line.line, snapshot)
    return line if found is None else _of_fault(line, snapshot, found, found.title)


def _numbered(words: str) -> re.Match[str] | None:
    """Give where a line that says that a fault does not occur gives its number."""
    called = CALLED.search(words)
    return called if called and _OCCURS_NOT.match(words, called.end()) else None


def _by_number(
    line: Understanding, snapshot: Snapshot, said: re.Match[str], page: Page
) -> Understanding:
    """Give the line as of the fault with this number, or say why it is of none."""
    meant, number = page(said["release"] or ""), int(said["number"])
    if meant is None:
        of = said["release"]
        why = f"there is no release {of}" if of else NO_PAGE
        return replace(as_note(line), remark=why)
    fault = meant.numbered(number)
    if fault is None:
        return replace(as_note(line), remark=meant.called(number))
    return _of_fault(line, snapshot, fault, meant.called(number))


def _of_fault(
    line: Understanding, snapshot: Snapshot, found: Known, called: str
) -> Understanding:
    part = part_of(snapshot, found)
    return replace(
        line,
        kind=Kind.NOTE,
        facts=Facts(part=part.title if part else "", answers=found.id),
        words={},
        content=(),
        doubts=(),
        confidence=1.0,
        remark=called,
    )


def _named(words: str, snapshot: Snapshot) -> Known | None:
    said = _NAMED.search(words)
    name = said["name"].casefold() if said else ""
    known = called_by_name(snapshot) if name else {}
    found = [one for own, one in known.items() if own.startswith(name)]
    return found[0] if len(found) == 1 else None


def _told_by_part(words: str, snapshot: Snapshot) -> Known | None:
    """See “the diffuser did not crack with pan heads”, of one that is known to."""
    said = _DID_NOT.match(words)
    if said is None or _HOPED.search(words):
        return None
    verb = stems(said["rest"].split()[0])
    alike = [
        fault
        for fault, part in _of_parts(snapshot)
        if folded(part.title) == folded(said["part"]) and verb & stems(fault.title)
    ]
    return alike[0] if len(alike) == 1 else None


def _of_parts(snapshot: Snapshot) -> Iterator[tuple[Known, Part]]:
    for fault in called_by_name(snapshot).values():
        named = fault.part if isinstance(fault, Erratum) else None
        part = snapshot.find(named, Part) or part_of(snapshot, fault)
        if part is not None:
            yield fault, part
