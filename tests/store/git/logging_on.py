"""A window that logs on and on in one repository until it is stopped.

Started as `python -m tests.store.git.logging_on FOLDER SEED DIARY`. A line of JSON goes
into its diary when a note is on the disk, and before one is taken back.
"""

from __future__ import annotations

import json
import random
import sys
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

from logbook.errors import LogbookError
from logbook.project import Project
from logbook.records.kinds.happenings import Note
from logbook.records.kinds.ids import new_id
from logbook.store.acts.last import Act


class Window:
    """One window on a project: notes are made, reworded, taken and brought back."""

    def __init__(self, folder: Path, seed: str, diary: Path) -> None:
        self.project = Project.open(folder)
        self.dice = random.Random(seed)
        self.diary = diary

    def turn(self) -> None:
        ways = (self.note, self.reword, self.take_back, self.bring_back)
        act = self.dice.choices(ways, (6, 2, 2, 1))[0]
        with suppress(LogbookError):  # nothing there yet, or the other was quicker
            act(datetime.now(UTC).astimezone())
        if self.dice.random() < 0.8:
            self.project.commit_waiting()
        if self.dice.random() < 0.1:
            self.project.reload()

    def note(self, now: datetime) -> None:
        draft = self.project.draft(now)
        note = Note(id=new_id(), title=f"Filed {self.dice.random()}", when=now)
        draft.add(note)
        self.project.save(draft, "note", now)
        self._told("made", note.id)

    def reword(self, now: datetime) -> None:
        notes = self.project.snapshot.all(Note)
        if notes:
            draft = self.project.draft(now)
            prose = f"Again, {self.dice.random()}.\n"
            draft.amend(replace(self.dice.choice(notes), prose=prose))
            self.project.save(draft, "reworded", now)

    def take_back(self, now: datetime) -> None:
        act = self.project.undoable(_of_a_note)
        for touched in act.files if act else ():
            if not touched.before:
                self._told("taken back", Path(touched.path).name[:8])
        self.project.undo(now, lambda _: act)

    def bring_back(self, now: datetime) -> None:
        self.project.redo(now)

    def _told(self, what: str, note: str) -> None:
        with self.diary.open("a") as diary:
            diary.write(json.dumps([what, note]) + "\n")


def _of_a_note(acts: Sequence[Act]) -> Act | None:
    """Choose the newest act on a note: the one that started the project stays."""
    return next((act for act in acts if act.subject in {"note", "reworded"}), None)


if __name__ == "__main__":
    window = Window(Path(sys.argv[1]), sys.argv[2], Path(sys.argv[3]))
    while True:
        window.turn()
