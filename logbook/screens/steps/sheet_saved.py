"""A job sheet saved: its boxes become entries, and the clock on its step ends."""

from __future__ import annotations

from datetime import datetime
from functools import partial

from logbook.counting import so_many
from logbook.project import Project
from logbook.publish.sheet.boxes import Sort
from logbook.publish.sheet.sheet_typing import SheetTyping
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.screens.desk.clock_logged import work_draft
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.store.typed.work_clock import Clock


def clock_of(typing: SheetTyping, clock: Clock | None) -> Clock | None:
    """Give the clock that runs on a step the sheet logs the work on."""
    work = {Sort.DONE, Sort.TIME}
    filled = (box for box in typing.boxes if typing.texts.get(box.number))
    steps = {box.step for box in filled if box.sort in work}
    return clock if clock is not None and clock.step in steps else None


def _draft(project: Project | Desk, now: datetime, build: str) -> Draft:
    return Draft(project.snapshot, now, project.snapshot.by_id(build, Build))


def build_of(desk: Desk, build: str) -> Build:
    """Give the build a sheet is of by its id, as its entries will have it."""
    return _draft(desk, desk.now(), build).build()


def sheet_draft(desk: Desk, typing: SheetTyping, build: str) -> Draft:
    """Give what a sheet comes to, as the records are now."""
    draft = _draft(desk, typing.worked(desk.now()), build)
    typing.draft(draft)
    return draft


def says_something(desk: Desk, typing: SheetTyping, build: str) -> bool:
    """Tell whether anything on a sheet is not on record yet."""
    return bool(sheet_draft(desk, typing, build).records)


def save_job(
    desk: Desk, typing: SheetTyping, build: str, clock: Clock | None, counted: int
) -> Job:
    """Make the work that saves everything typed in a sheet.

    A clock that ran on one of its steps ends with it; the minutes on the sheet stand,
    and where it has none, those that were counted. What is told of the job is how the
    clock ended, in this window or before, in another.
    """
    now = desk.now()
    timed = clock is not None and any(
        box.step == clock.step
        and box.sort is Sort.TIME
        and typing.texts.get(box.number)
        for box in typing.boxes
    )

    ended: list[str] = []

    def make(project: Project) -> Draft:
        draft = _draft(project, typing.worked(now), build)
        typing.draft(draft)
        if clock is not None:
            ours = desk.clock.claim(clock, project.snapshot) is not None
            where = "" if ours else " already, in another window"
            ended[:] = [f"the clock on {clock.subject} is stopped{where}"]
            if ours and counted and not timed:
                work_draft(draft, clock, counted)
        return draft

    after = partial(desk.clock.settle, clock) if clock is not None else None
    subject = f"{typing.purpose}: {so_many(typing.filled, 'box', 'boxes')}"
    return Job(subject, make, after=after, said=lambda: "".join(ended))
