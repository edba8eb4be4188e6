"""What a release has bought or joins with that goes with a fault, and is gone with it.

The diffuser that cracked at a countersunk head is marked; so has to be the countersunk
screw on the list, or who shops by the list buys it.
"""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.faults.trying import entries_of
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Failure
from logbook.records.kinds.made_public import Erratum, Release, Statement
from logbook.records.kinds.words import Source
from logbook.records.states.needed import not_needed_in
from logbook.records.states.statements import Form
from logbook.records.together.likeness import stems
from logbook.records.together.revisions import revisions_in
from logbook.records.together.snapshot import Snapshot

_EVERY_ONE = stems("screw bolt nut washer head pin thin through piece hexagon")
"""Words of hardware that tell no one of it from another."""


def hardware_of(
    snapshot: Snapshot, erratum: Erratum, release: Release, cured: Release
) -> Iterator[str]:
    """Give the ids of list lines and joints of a release that a fault's words name.

    Only of what the release that is `cured` of it does without: what stays is as right
    there as here.
    """
    words = _words(snapshot, erratum) - _EVERY_ONE
    gone = [*_gone(snapshot, release, cured)]
    for statement, bought in gone:
        others = (stems(one.title) for _, one in gone if one is not bought)
        shared = frozenset[str]().union(*others)
        if (stems(bought.title) - shared) & words:
            yield statement.id
    part = snapshot.find(erratum.part, Part)
    still = {one.id: one.sha256 for one in cured.statements}
    for one in release.statements if part else ():
        if one.form != Form.JOINT or still.get(one.id) == one.sha256 or part is None:
            continue
        fastener, _, through = one.says.partition(": ")[2].partition("; through ")
        if f"{part.title} " in f"{through} " and stems(fastener) & words:
            yield one.id


def _words(snapshot: Snapshot, erratum: Erratum) -> frozenset[str]:
    """Give the beginnings of the words that tell what went wrong and why.

    Not those that name its part: they stand on every line of that.
    """
    said = [erratum.title, erratum.symptom, erratum.consequence]
    for entry in entries_of(snapshot, erratum):
        said.append(entry.title)
        said.append(entry.cause.said if entry.cause else "")
        said.append(entry.where if isinstance(entry, Failure) else entry.place)
    part = snapshot.find(erratum.part, Part)
    return stems(" ".join(said)) - stems(part.title if part else "")


def _gone(
    snapshot: Snapshot, release: Release, cured: Release
) -> Iterator[tuple[Statement, Part]]:
    """Give the list lines of what is bought for a release and not for the other."""
    here, there = not_needed_in(snapshot, release), not_needed_in(snapshot, cured)
    held = {one.part.id for one in revisions_in(snapshot, cured)} - there
    for one in release.statements:
        if one.form != Form.LINE:
            continue
        record = snapshot.find(one.of)
        ref = record.part if isinstance(record, Line) else one.of
        part = snapshot.find(ref, Part)
        if part is None or part.source is not Source.BOUGHT or part.id in here:
            continue
        if part.id not in held:
            yield one, part
