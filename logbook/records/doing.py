"""Whether a step was carried out on a build: the last word on it counts."""

from __future__ import annotations

from logbook.records.assembling import Step
from logbook.records.happenings import StepDone
from logbook.records.references import is_of
from logbook.records.snapshot import Snapshot
from logbook.records.workshop import Build


def is_done(snapshot: Snapshot, step: Step, build: Build | None) -> bool:
    """Tell whether a step is done on this build, and not taken apart since."""
    done = False
    for entry in snapshot.all(StepDone):
        here = build is None or entry.build is None or entry.build.id == build.id
        if here and entry.step and is_of(entry.step, step):
            done = not entry.undone
    return done
