"""What is said of a line once it is on disk: what was done, and what it decides on."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.records.kinds.happenings import Disposal, StepDone
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.states.dated import dated_before
from logbook.records.states.dispositions import undisposed
from logbook.records.together.snapshot import Snapshot


def kept_words(
    records: Sequence[Record], open_before: Sequence[Ref], snapshot: Snapshot
) -> str:
    """Name what is on disk, the step carried out, what was decided on, an odd day."""
    done = [one for one in records if isinstance(one, StepDone) and one.step]
    steps = [f"{_act(one)}: {one.step.name}" for one in done if one.step]
    decided = _decided(records, open_before, snapshot)
    odd = dated_before(snapshot, records)
    return " · ".join((records[-1].title, *steps, *decided, *odd))


def _act(done: StepDone) -> str:
    return "taken apart" if done.undone else "step"


def _decided(
    records: Sequence[Record], open_before: Sequence[Ref], snapshot: Snapshot
) -> list[str]:
    """Name the faults these records decide on; where on none, those still open."""
    done = [one for one in records if isinstance(one, Disposal)]
    if not done:
        return []
    open_yet = undisposed(snapshot)
    left = {fault.id for fault in open_yet}
    if names := [ref.name for ref in open_before if ref.id not in left]:
        return [f"decides on: {', '.join(names)}"]
    pieces = {one.piece.id for one in done if one.piece}
    names = [one.title for one in open_yet if one.piece and one.piece.id in pieces]
    return [f"still open: {', '.join(names)}"] if names else []
