"""The note a sum becomes: what it came to, from what, of the build it was done for."""

from __future__ import annotations

from datetime import datetime

from logbook.errors import Refused
from logbook.project import Project
from logbook.records.kinds.happenings import Note
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.news import Job
from logbook.shop.answers import Answer
from logbook.shop.shown import answer_lines
from logbook.shop.sums import Sum


def sum_job(each: Sum, answer: Answer, build: Build | None, now: datetime) -> Job:
    """Give the work that logs an answer in this build; the same one only once."""
    first = answer.results[0]
    title = f"{each.title}: {first.name.replace('_', ' ')} {first.shown}"
    inputs = ", ".join(
        f"{name.replace('_', ' ')} {value}" for name, value in answer.inputs.items()
    )
    lines = "\n".join(answer_lines(answer))
    prose = f"From {inputs}.\n\n```\n{lines}\n```"

    def make(project: Project) -> Draft:
        draft = Draft(project.snapshot, now, build)
        note = Note(
            id=new_id(),
            title=title,
            prose=prose,
            when=draft.when,
            build=build.ref if build else None,
        )
        _refuse_again(project.snapshot, draft.add(note))
        return draft

    return Job(f"note: {title}", make)


def _refuse_again(snapshot: Snapshot, note: Note) -> None:
    """Refuse what is on record in this build already.

    Raises:
        Refused: it is; the sentence says of when.
    """
    for one in reversed(snapshot.all(Note)):
        if _said(one) == _said(note):
            when = f"{one.when.astimezone():%d %b %H:%M}"
            raise Refused(f"logged already, on {when}: {one.title}")


def _said(note: Note) -> tuple[str, str, str]:
    """Give what two notes of the same have in common: words, and build."""
    return note.title, note.prose, note.build.id if note.build else ""
