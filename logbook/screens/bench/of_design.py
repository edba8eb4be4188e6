"""A line that says something of a part or of files: shown, and written where it may."""

from __future__ import annotations

from datetime import datetime

from textual.content import Content

from logbook.errors import BadInput
from logbook.plain.told.file_unit import FileUnit
from logbook.plain.told.of_design import OfDesign
from logbook.project import Project
from logbook.records.making.drafts import Draft
from logbook.screens.desk.news import Job
from logbook.screens.ruled.look import sentence
from logbook.store.designs.said_unit import say_unit


def shown_of_design(said: OfDesign) -> Content:
    """Say what was understood of a line that says something of a part or of files."""
    if isinstance(said, FileUnit):
        then = "" if said.unclear else " · Enter keeps it"
    else:
        does = "joins them" if said.other else "shows what goes with it"
        then = f" · Enter {does}; F8 brings it back"
    words = "[$mark][b]$kind[/b][/] · $words$then"
    return sentence(words, kind=said.kind, words=said.words, then=then)


def unit_job(said: FileUnit, line: str, now: datetime) -> Job:
    """Give the work that puts on record which unit files are in.

    Raises:
        BadInput: one file is said, and several are called so.
    """
    if said.unclear:
        raise BadInput(said.unclear)

    def make(project: Project) -> Draft:
        draft = project.draft(now)
        for part, paths in said.files:
            say_unit(draft, project.root, part, said.unit, paths)
        return draft

    return Job(f"file unit: {said.words}", make, typed=line, said=said.words)
