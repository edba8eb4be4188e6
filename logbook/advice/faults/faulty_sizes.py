"""Sizes of a part that a known fault is about: they are not to be made as drawn."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from logbook.advice.faults.failing import better, cures_up_to
from logbook.advice.faults.headline import titled
from logbook.advice.faults.trying import entries_of
from logbook.advice.faults.warned_of import faults_at
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Deviation
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.workshop import Build
from logbook.records.together.snapshot import Snapshot


def faulty_sizes(
    snapshot: Snapshot, build: Build | None, part: Part, revision: Revision
) -> Mapping[str, str]:
    """Say of each faulty size why, and what it became, by the id of its dimension.

    It is one that was found off by the drawing's own fault, or that the cure changed.
    Of a build by no release there is none: it is made to the newest.
    """
    if build is None or build.release is None:
        return {}
    found: dict[str, str] = {}
    for fault in faults_at(snapshot, build, part, revision):
        what = titled(snapshot, fault)
        for size, became in _sizes(snapshot, fault):
            said = f"not by this drawing: known fault, {what}"
            found.setdefault(size, f"{said}; {became}" if became else said)
    return found


def _sizes(snapshot: Snapshot, fault: Erratum) -> Iterator[tuple[str, str]]:
    cure = better(snapshot, fault)
    for revision in cures_up_to(snapshot, fault, cure)[::-1] if cure else ():
        for change in revision.changes:
            has = f"{revision.title} has {change.becomes}" if change.becomes else ""
            yield change.characteristic.id, has
    for entry in entries_of(snapshot, fault):
        if isinstance(entry, Deviation) and entry.characteristic:
            yield entry.characteristic.id, ""
