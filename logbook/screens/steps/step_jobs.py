"""What is logged of a step, and what is asked of one that is done already."""

from __future__ import annotations

from logbook.advice.steps.going_past import GoingPast
from logbook.project import Project
from logbook.quantity import Quantity
from logbook.records.kinds.assembling import Step
from logbook.records.making.drafts import Draft
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.ruled.asking import Question

AGAIN = "again"
"""What a question is about that asks whether a step was done once more."""


def once_more(step: str, apart: str) -> Question:
    """Ask of a step that is done whether it was done once more; `apart` is a key."""
    words = f"“{step}” is done; {apart} says that it was taken apart"
    keys = {"1": ("it was done once more", AGAIN)}
    return Question(words, keys, "leave it as it is", about=AGAIN)


def done_job(
    desk: Desk,
    step: Step,
    time: Quantity | None,
    past: GoingPast | None = None,
    *,
    undone: bool = False,
) -> Job:
    """Make the work that logs a step as done, or as taken apart."""
    now, build = desk.now(), desk.build

    def make(project: Project) -> Draft:
        draft = Draft(project.snapshot, now, build)
        draft.step_done(step, time=time, undone=undone)
        if past is not None:
            past.put(draft)
        return draft

    word = "taken apart" if undone else "step done"
    said = f"{step.title}: taken apart again" if undone else ""
    return Job(f"{word}: {step.title}", make, said=said)
