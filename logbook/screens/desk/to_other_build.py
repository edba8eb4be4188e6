"""An entry comes to another build: what was logged with it goes along, and is said.

By a key of the bench or by the build that is amended, it is the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from logbook.plain.drafts.order_of_work import tied_in, tied_words
from logbook.project import Project
from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.workshop import Build
from logbook.records.making.amends import amend_draft
from logbook.records.making.drafts import Draft
from logbook.records.making.moving import (
    goes_along,
    moves_words,
    moving_with,
    piece_apart,
    stays_words,
    with_words,
)
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job

MOVED = "moved to another build: "
"""What the subject of such an act begins with."""


def logged_with(desk: Desk, entry: Entry) -> tuple[Entry, ...]:
    """Give what goes along with an entry, itself first: what one line has told."""
    made = desk.project.made_with(entry.id) if desk.is_open else ()
    return moving_with(entry, made)


def move_job(
    snapshot: Snapshot, entry: Entry, build_id: str, along: Sequence[Entry]
) -> Job:
    """Give the work that moves an entry to another build, with what was logged with it.

    A piece that is on record by these alone goes with them; of another one it is said
    that it stays.
    """
    build = snapshot[build_id]
    assert isinstance(build, Build)
    piece = piece_apart(snapshot, entry, build)
    goes = piece if piece and goes_along(snapshot, along, piece) else None
    moved = tied_in(snapshot, replace(entry, build=build.ref), build)

    def make(project: Project) -> Draft:
        to = project.snapshot[build_id].ref
        draft = project.draft(entry.when)
        if goes is not None:
            amend_draft(draft, goes, replace(goes, build=to))
        for other in along[1:]:
            with_it = tied_in(snapshot, replace(other, build=to), build)
            amend_draft(draft, other, replace(with_it, build=to))
        return amend_draft(draft, entry, replace(moved, build=to))

    said = f"moved to {build.title}: {entry.title}{tied_words(moved, entry)}"
    also = with_words(entry, along)
    said += f"; {also} too" if also else ""
    if piece is not None:
        said += f"; {moves_words(piece) if goes else stays_words(piece)}"
    return Job(f"{MOVED}{entry.title}", make, said=said)
