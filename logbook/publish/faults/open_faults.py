"""What a release may have, though nobody has said so: faults whose answer is open.

Two sorts: what went wrong on the bench where nobody knows whether another builder meets
it, and known faults of which nobody said whether this release still has them.
"""

from __future__ import annotations

from dataclasses import dataclass

from logbook.advice.faults.apart_told import apart_words
from logbook.advice.faults.applies import undecided_in
from logbook.advice.faults.doing import do_now, is_idle
from logbook.advice.faults.drafted import affected_revision, drafted
from logbook.advice.faults.faulty_part import faulty_part
from logbook.advice.faults.having import having
from logbook.advice.faults.headline import headline, titled
from logbook.advice.faults.helped import helped
from logbook.publish.faults.sizes_told import sizes_told
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.words import Blame
from logbook.records.states.needed import needed_in
from logbook.records.states.practice import is_practice
from logbook.records.states.statements import Form
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class OpenFault:
    """Something that may be met: what happened, on what it was found, its cure.

    `label` says whether the cure helped, or that it is to be done; `sizes` how a size
    stands to its limits; `differs` what sets the builds apart that met it.
    """

    title: str
    found_on: str
    helped: str
    label: str
    sizes: str
    differs: str = ""


def open_faults(snapshot: Snapshot, release: Release) -> tuple[OpenFault, ...]:
    """Give what went wrong of which nobody knows whether others meet it, in order.

    Of a revision or a step it is where the release has it; of neither, in every
    release.
    """
    every: tuple[Failure | Deviation, ...] = (
        *snapshot.all(Failure),
        *snapshot.all(Deviation),
    )
    saved = {ref.id for one in snapshot.all(Erratum) for ref in one.from_entries}
    return tuple(
        OpenFault(
            headline(snapshot, entry),
            _found_on(snapshot, entry),
            entry.cure,
            helped(snapshot, entry),
            "; ".join(sizes_told(snapshot, drafted(snapshot, entry))),
            apart_words(snapshot, entry) if isinstance(entry, Failure) else "",
        )
        for entry in sorted(every, key=lambda one: (one.when, one.id))
        if entry.met_by_others is Blame.UNKNOWN
        and entry.id not in saved
        and _concerns(snapshot, entry, release)
    )


def still_open(snapshot: Snapshot, release: Release) -> tuple[OpenFault, ...]:
    """Give the known faults of which nobody said whether this release has them."""
    return tuple(
        OpenFault(
            titled(snapshot, fault),
            ", ".join(one.title for one in having(snapshot, fault)),
            do := do_now(snapshot, fault),
            "so far" if is_idle(do) else "what to do",
            "; ".join(sizes_told(snapshot, fault)),
        )
        for fault in undecided_in(snapshot, release)
    )


def _concerns(snapshot: Snapshot, entry: Failure | Deviation, release: Release) -> bool:
    """Tell whether a release has what an entry is about."""
    part = faulty_part(snapshot, entry)
    if part is not None:
        if is_practice(snapshot, part):
            return False
        held = needed_in(snapshot, release)
        own = [one for one in held if part_of(snapshot, one) is part]
        affected = affected_revision(snapshot, entry)
        return affected in own if affected else bool(own)
    step = _step(snapshot, entry)
    steps = {one.of.id for one in release.statements if one.form == Form.STEP}
    return step is None or step.id in steps


def _found_on(snapshot: Snapshot, entry: Failure | Deviation) -> str:
    """Name the revision or the step an entry is about; empty where it names none."""
    part = faulty_part(snapshot, entry)
    affected = affected_revision(snapshot, entry) if part else None
    step = _step(snapshot, entry)
    said = affected.title if affected else (part.title if part else "")
    return said or (f"step “{step.title}”" if step else "")


def _step(snapshot: Snapshot, entry: Failure | Deviation) -> Step | None:
    return snapshot.find(entry.step, Step) if isinstance(entry, Failure) else None
