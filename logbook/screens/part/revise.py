"""From entries to a revision: what it answers, what it changes, what that touches.

Each row of the form is edited in the line below; what a change touches is shown
before anything is saved. The form is kept on disk while it is filled in.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import on, work
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Input

from logbook.advice.changes.interchange import as_asked
from logbook.errors import BadInput
from logbook.project import Project
from logbook.records.kinds.design import Part
from logbook.records.making.amends import as_by_now
from logbook.records.making.drafts import Draft
from logbook.records.together.revisions import current_revision
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.left_off import Midst
from logbook.screens.desk.news import Job
from logbook.screens.part.filling import ANEW, Filling
from logbook.screens.part.part import PartSheet
from logbook.screens.part.revise_files import files_taken
from logbook.screens.part.revise_form import Form, changes_of, revising
from logbook.screens.part.revise_rows import (
    GIVES_WAY,
    next_words,
    said_of,
    what_stands,
)
from logbook.screens.ruled import verbs
from logbook.screens.ruled.facing import MOVES
from logbook.screens.ruled.passage import Say
from logbook.store.designs.design_files import recorded_files

TAKE = verbs.Verb("take", "take, next", "enter", "Take the row, and go on.")
SAVE = verbs.Verb("save", "save it", "ctrl+s", "Save the revision.")
BACK = verbs.Verb("back", "back", "escape", "Go back; what was typed is kept.")


FILES_EVERY_S = 2.0
"""How often it is looked whether a design file was drawn anew meanwhile."""


class Revise(Filling):
    """The next revision of a part as a form, and what it would touch."""

    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        TAKE, SAVE, *MOVES, ANEW, BACK, *verbs.EVERYWHERE,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])
    NOTHING = "this part is not here any more"

    def __init__(self, desk: Desk, part_id: str) -> None:
        """Revise the part with this id."""
        super().__init__(desk, part_id)
        self._touches: tuple[tuple[str, str], ...] = ()
        self._job: Job | None = None

    @property
    def heading(self) -> str:
        """The part that is revised."""
        return f"revise {self.part.title}" if self.part else "part gone"

    WAY = "revise_the_part"

    @property
    def about_here(self) -> tuple[str, ...]:
        """The part, and the row of the form."""
        return self.part_id, self.chosen

    @property
    def purpose(self) -> str:
        """What the form is kept as."""
        return self.kept_form

    @property
    def in_the_middle(self) -> Midst:
        """The form, filled in or not."""
        return self._midst(self.heading, self.line.value)

    def on_mount(self) -> None:
        """Begin with the form; ask what it touches, by the files as they are."""
        left = self.take_up()
        super().on_mount()
        if left:
            self.tell(left, label="kept")
        self.load()
        self._read_files()
        self.set_interval(FILES_EVERY_S, self._read_files)
        self.ask()

    def told(self, message: Message) -> None:
        """Follow the records, and what became of the revision."""
        match message:
            case news.Looked():
                self.show()
                self._read_files()
                self.ask()
            case news.Impact():
                self._touches = message.lines
                self.follow(anew=False)
            case news.Written() if message.job is self._job:
                self.keep_now("", self.kept_form)
                self.dismiss()
            case _:
                super().told(message)

    @work(thread=True, exclusive=True, group="files")
    def _read_files(self) -> None:
        if self.desk.is_open:
            files = recorded_files(self.desk.project.root)
            if files != self.files:
                self.post_message(PartSheet.FilesRead(files))

    @on(PartSheet.FilesRead)
    def _files_read(self, message: PartSheet.FilesRead) -> None:
        self.files = message.files
        self.show()
        self.ask()

    # -- the form ----------------------------------------------------------------

    def known(self, key: str) -> Sequence[Say]:
        """Say what the row is for, then what the revision touches."""
        part = self.part
        if part is None:
            return ()
        about = [*said_of(self.desk.snapshot, part, self.form, key)]
        if self.is_proposed:
            about.append(GIVES_WAY)
        about.append(what_stands(self.desk.snapshot, part))
        return [*about, *(Say(*line) for line in self._touches)]

    @on(Input.Submitted, "#line")
    def _enter(self) -> None:
        if self.stands_wrong():
            return
        if self.ask(aloud=True):
            self.action_move(1)

    def ask(self, *, aloud: bool = False) -> bool:
        """Ask what the form would touch; tell a size that is none beside the line."""
        part = self.part
        before = current_revision(self.desk.snapshot, part) if part else None
        if part is None or before is None:
            return True
        try:
            changes = tuple(changes_of(self.desk.snapshot, part, self.form))
        except BadInput as refusal:
            if aloud:  # what is typed next stands in the place of what was refused
                self.tell(str(refusal), label="not taken")
                self.line.select_all()
            return False
        material = self.form.rows.get("material", "").strip()
        rows, on_disk = self.form.rows, self.files or {}
        files = tuple(files_taken(self.desk.snapshot, part, rows, on_disk))
        self.desk.impact(as_asked(before, changes, material, files))
        return True

    def action_take(self) -> None:
        """Take the row, as Enter does."""
        self._enter()

    # -- saving ------------------------------------------------------------------

    def action_save(self) -> None:
        """Save the revision, unless nothing changes or a size is none."""
        part = self.part
        if part is None:
            return
        try:
            revising(self.desk.snapshot, part, self.form, self.files or {})
        except BadInput as refusal:
            self.tell(str(refusal), label="not saved")
            return
        self._job = revise_job(self.desk, part, Form(dict(self.form.rows)))
        self.desk.write(self._job)

    def action_back(self) -> None:
        """Go back; the form is kept until it is saved."""
        self.keep_now(self.form.text(), self.kept_form)
        self.dismiss()


def revise_job(desk: Desk, part: Part, form: Form) -> Job:
    """Make the work that saves a revision, with records and files as they are then."""
    now = desk.when()

    def make(project: Project) -> Draft:
        here = as_by_now(project.snapshot, part)
        draft = project.draft(now)
        files = recorded_files(project.root)
        revising(project.snapshot, here, form, files).draft(draft, here)
        return draft

    name = f"{part.title} {next_words(desk.snapshot, part)}"
    changed = form.rows.get("changed", "").strip()
    said = f"revision: {name}" + (f": {changed}" if changed else "")
    return Job(f"revision: {name}", make, said=said)
