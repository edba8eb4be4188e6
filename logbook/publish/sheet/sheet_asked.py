"""What is asked before a job sheet is saved: looks left blank, steps done already."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from logbook.publish.sheet.boxes import Box, Sort, of_sort
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.workshop import Build
from logbook.records.states.doing import is_done
from logbook.records.together.snapshot import Snapshot


def not_looked_at(
    snapshot: Snapshot, boxes: Sequence[Box], typed: Mapping[int, str], build: Build
) -> tuple[Box, ...]:
    """Give the checks left blank of steps that are to be logged as done."""
    already = {one.id for one in done_already(snapshot, boxes, typed, build)}
    done = {b.step for b in of_sort(boxes, Sort.DONE) if typed.get(b.number)} - already
    return tuple(
        box
        for box in of_sort(boxes, Sort.CHECK)
        if box.step in done and not typed.get(box.number)
    )


def blank_words(snapshot: Snapshot, box: Box) -> str:
    """Say that a check is blank whose step is ticked as done, and what it takes."""
    found = snapshot.by_id(box.step)
    step = found.title if found else box.step
    return (
        f"{box.number} {box.label} is blank, and “{step}” is ticked as done; accepted: "
        "x if it was looked at, n if it was not"
    )


def done_already(
    snapshot: Snapshot, boxes: Sequence[Box], typed: Mapping[int, str], build: Build
) -> tuple[Step, ...]:
    """Give the steps ticked on the sheet that are on record as done in this build.

    Not those of which the sheet measures a new piece: they were done once more.
    """
    filled = [box for box in boxes if typed.get(box.number)]
    anew = {box.step for box in of_sort(filled, Sort.READING) if box.is_new}
    steps = [snapshot.by_id(box.step, Step) for box in of_sort(filled, Sort.DONE)]
    return tuple(
        step
        for step in steps
        if step is not None and step.id not in anew and is_done(snapshot, step, build)
    )
