"""What is logged of a step, and what is asked of one that is done already."""

from __future__ import annotations

from datetime import datetime

from logbook.advice.steps.going_past import GoingPast
from logbook.advice.steps.looking_again import LOOKED as LOOKED_AT
from logbook.advice.steps.looking_again import found_not_so, looked_at
from logbook.project import Project
from logbook.quantity import Quantity
from logbook.records.kinds.assembling import Step
from logbook.records.making.drafts import Draft
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.ruled.asking import Question

AGAIN = "again"
"""What a question is about that asks whether a step was done once more."""
LOOKED = "looked at"
"""The answer that what it closed over was seen since."""
NOT_SO = "not so"
"""The answer that it was seen since, and is not as it should be."""


def once_more(step: str, apart: str) -> Question:
    """Ask of a step that is done whether it was done once more; `apart` is a key."""
    words = f"“{step}” is done; {apart} says that it was taken apart"
    keys = {"1": ("it was done once more", AGAIN)}
    return Question(words, keys, "leave it as it is", about=AGAIN)


def look_again(left: str) -> Question:
    """Ask of a step that closed over something unseen whether it was seen since."""
    keys = {
        "1": ("it was looked at since, and is so", LOOKED),
        "2": ("the step was done once more", AGAIN),
        "3": ("it was looked at, and is not so", NOT_SO),
    }
    return Question(left, keys, "not yet: it stays to be seen", about=AGAIN)


def looked_job(desk: Desk, step: Step) -> Job:
    """Make the work that logs what a step closed over as looked at."""
    now, build = desk.when(), desk.build

    def make(project: Project) -> Draft:
        draft = Draft(project.snapshot, now, build)
        looked_at(draft, step)
        return draft

    return Job(f"{LOOKED_AT}{step.title}", make)


def not_so_job(desk: Desk, step: Step, left: str) -> Job:
    """Make the work that logs that what a step closed over is not as it should be."""
    now, build = desk.when(), desk.build

    def make(project: Project) -> Draft:
        draft = Draft(project.snapshot, now, build)
        found_not_so(draft, step, left)
        return draft

    return Job(f"failure: {step.title}", make)


def done_job(
    desk: Desk,
    step: Step,
    time: Quantity | None,
    when: datetime,
    past: GoingPast | None = None,
    *,
    undone: bool = False,
) -> Job:
    """Make the work that logs a step as done at an instant, or as taken apart."""
    build = desk.build

    def make(project: Project) -> Draft:
        draft = Draft(project.snapshot, when, build)
        draft.step_done(step, time=time, undone=undone)
        if past is not None:
            past.put(draft)
        return draft

    word = "taken apart" if undone else "step done"
    said = f"{step.title}: taken apart again" if undone else ""
    return Job(f"{word}: {step.title}", make, said=said)
