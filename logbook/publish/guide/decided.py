"""What was decided that no revision of a part names yet, or that names no part."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Decision, Deviation, Failure
from logbook.records.kinds.record import EPOCH
from logbook.records.kinds.words import Blame
from logbook.records.kinds.workshop import Build
from logbook.records.states.undated import of_no_day
from logbook.records.together.references import part_of
from logbook.records.together.revisions import revisions_of
from logbook.records.together.snapshot import Snapshot

_OWN = (Blame.PIECE, Blame.MACHINE)


def decided_on(snapshot: Snapshot, part: Part) -> Iterator[str]:
    """Say each decision about a part after which no revision of it was opened.

    A later revision tells itself what it changed. What concerns only this shop or
    one piece is left out.
    """
    newest = max((r.when for r in revisions_of(snapshot, part)), default=EPOCH)
    for one in snapshot.all(Decision):
        if one.opens or one.met_by_others in _OWN or part_of(snapshot, one) is not part:
            continue
        if one.when > newest:
            yield _said(snapshot, one)


def decided_of_no_part(snapshot: Snapshot) -> Iterator[str]:
    """Say each decision that names no part, and is not told with a fault it answers.

    No revision can say that it has it: it is told until it is taken back.
    """
    for one in snapshot.all(Decision):
        if one.opens or one.met_by_others in _OWN or part_of(snapshot, one):
            continue
        answered = (snapshot.find(ref) for ref in one.about)
        if not any(isinstance(fault, Failure | Deviation) for fault in answered):
            yield _said(snapshot, one)


def _said(snapshot: Snapshot, one: Decision) -> str:
    build = snapshot.find(one.build, Build)
    where = build.title if build else f"{one.when:%Y-%m-%d}"
    new = one.because and one.because.casefold() not in one.title.casefold()
    why = f", because {one.because}" if new else ""
    return f"{where}: {of_no_day(one.title)}{why}"
