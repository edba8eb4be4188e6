"""Whether a step was carried out on a build: the last word on it counts."""

from __future__ import annotations

from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import StepDone
from logbook.records.kinds.workshop import Build
from logbook.records.together.references import is_of
from logbook.records.together.snapshot import Snapshot


def is_done(snapshot: Snapshot, step: Step, build: Build | None) -> bool:
    """Tell whether a step is done on this build, and not taken apart since."""
    done = False
    for entry in snapshot.all(StepDone):
        here = build is None or entry.build is None or entry.build.id == build.id
        if here and entry.step and is_of(entry.step, step):
            done = not entry.undone
    return done
