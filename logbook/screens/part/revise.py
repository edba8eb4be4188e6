"""From entries to a revision: what it answers, what it changes, what that touches.

Each row of the form is edited in the line below; what a change touches is shown
before anything is saved. The form is kept on disk while it is filled in.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import ClassVar

from textual import on, work
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Input

from logbook.advice.changes.interchange import as_asked
from logbook.errors import BadInput
from logbook.project import Project
from logbook.records.kinds.design import DesignFile, Part
from logbook.records.making.amends import as_by_now
from logbook.records.making.drafts import Draft
from logbook.records.together.labels import label_words, next_label
from logbook.records.together.revisions import current_revision, revisions_of
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.part.part import PartSheet
from logbook.screens.part.revise_files import (
    TICKED,
    UNTICKED,
    files_taken,
    is_tied,
)
from logbook.screens.part.revise_form import (
    TEXTS,
    Form,
    answer_by_size,
    changes_of,
    mates_refused,
    new_form,
    revising,
)
from logbook.screens.part.revise_rows import HINTS, rows_of_form, said_of
from logbook.screens.ruled import verbs
from logbook.screens.ruled.facing import MOVES, Facing
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.passage import Say
from logbook.store.designs.design_files import recorded_files

TAKE = verbs.Verb("take", "take, next", "enter", "Take the row, and go on.")
SAVE = verbs.Verb("save", "save it", "ctrl+s", "Save the revision.")
ANEW = verbs.Verb("anew", "as proposed", "f8", "Drop what was typed, or bring it back.")
BACK = verbs.Verb("back", "back", "escape", "Go back; what was typed is kept.")


TICKS = {" ": None, "y": True, "x": True, "n": False}
"""What is typed at an entry: ticked, not ticked, the other way round."""
TO_TICK = ("entry", "tie")
"""The rows that are ticked."""
HOW_TO_TICK = "Space ticks it, or takes the tick away; Enter goes on"
FILES_EVERY_S = 2.0
"""How often it is looked whether a design file was drawn anew meanwhile."""


class Revise(Facing):
    """The next revision of a part as a form, and what it would touch."""

    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        TAKE, SAVE, *MOVES, ANEW, BACK, *verbs.EVERYWHERE,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])
    NOTHING = "this part is not here any more"
    MARGIN_WORD = "new ›"
    KEEPS = False

    def __init__(self, desk: Desk, part_id: str) -> None:
        """Revise the part with this id."""
        super().__init__(desk)
        self._part_id = part_id
        self._form = Form()
        self._proposed: Mapping[str, str] = {}
        self._dropped: dict[str, str] = {}
        self._files: Mapping[str, DesignFile] | None = None
        self._touches: tuple[tuple[str, str], ...] = ()
        self._job: Job | None = None

    @property
    def part(self) -> Part | None:
        """The part as it is now; none once it was taken back."""
        return self.desk.snapshot.by_id(self._part_id, Part)

    @property
    def heading(self) -> str:
        """The part that is revised."""
        return f"revise {self.part.title}" if self.part else "part gone"

    @property
    def _purpose(self) -> str:
        return f"revising {self._part_id}"

    def on_mount(self) -> None:
        """Go on with a form that was left, or propose one from the entries."""
        if self.part is not None:
            keeping = self.desk.keeping
            kept = keeping.left_over(self._purpose) if self.desk.is_open else None
            proposed = new_form(self.desk.snapshot, self.part)
            self._proposed = dict(proposed.rows)
            self._form = Form.read(kept.text) if kept else proposed
        super().on_mount()
        if self.part is not None and kept:
            when = f"{kept.when.astimezone():%d %b %H:%M}"
            self.tell(f"this was being filled in on {when}", label="kept")
        self._load()
        self._read_files()
        self.set_interval(FILES_EVERY_S, self._read_files)
        self._ask()

    def told(self, message: Message) -> None:
        """Follow the records, and what became of the revision."""
        match message:
            case news.Looked():
                self.show()
                self._read_files()
                self._ask()
            case news.Impact():
                self._touches = message.lines
                self.follow(anew=False)
            case news.Written() if message.job is self._job:
                self.keep_now("", self._purpose)
                self.dismiss()
            case _:
                super().told(message)

    @work(thread=True, exclusive=True, group="files")
    def _read_files(self) -> None:
        if self.desk.is_open:
            files = recorded_files(self.desk.project.root)
            if files != self._files:
                self.post_message(PartSheet.FilesRead(files))

    @on(PartSheet.FilesRead)
    def _files_read(self, message: PartSheet.FilesRead) -> None:
        self._files = message.files
        self.show()
        self._ask()

    # -- the form ----------------------------------------------------------------

    def lines(self) -> Sequence[Line]:
        """Give the rows of the form: entries, sizes, words, files."""
        part = self.part
        if part is None:
            return ()
        return [*rows_of_form(self.desk.snapshot, part, self._form, self._files)]

    def known(self, key: str) -> Sequence[Say]:
        """Say what the row is for, then what the revision touches."""
        part = self.part
        about = said_of(self.desk.snapshot, part, self._form, key) if part else ()
        return [*about, *(Say(*line) for line in self._touches)]

    def _load(self) -> None:
        """Put what the row holds into the line."""
        sort = self.chosen.partition(" ")[0]
        typed = sort in ("size", *TEXTS)
        value = self._form.rows.get(self.chosen, "") if typed else ""
        self.line.put(value)
        if value and value == self._proposed.get(self.chosen):
            self.line.select_all()  # what is only proposed gives way to what is typed
        hints = {
            "entry": HOW_TO_TICK,
            "tie": HOW_TO_TICK,
            "size": "it stays as it is",
            "file": "",
        }
        self.line.placeholder = hints.get(sort, HINTS.get(sort, ""))

    @on(Input.Changed, "#line")
    def _typed(self) -> None:
        sort = self.chosen.partition(" ")[0]
        if sort in TO_TICK and self.line.value.casefold() in TICKS:
            self._tick(TICKS[self.line.value.casefold()])
            return
        stands = self._form.rows.get(self.chosen, "")
        if sort not in ("size", *TEXTS) or self.line.value == stands:
            return
        self.tell("")
        self._form.rows[self.chosen] = self.line.value
        if self.part is not None:
            answer_by_size(self.desk.snapshot, self.part, self._form, self.chosen)
        self.keep_soon(self._form.text(), self._purpose)
        self.show()

    @on(Input.Submitted, "#line")
    def _enter(self) -> None:
        if self._stands_wrong():
            return
        if self._ask(aloud=True):
            self.action_move(1)

    def _tick(self, wanted: bool | None) -> None:  # noqa: FBT001
        """Tick the entry or file, or not; None: the other way round."""
        sort, _, path = self.chosen.partition(" ")
        ticked, no = bool(self._form.rows.get(self.chosen)), ""
        if sort == "tie" and self.part is not None:
            ticked, no = is_tied(self._form.rows, self.part, path), UNTICKED
        ticked = not ticked if wanted is None else wanted
        self._form.rows[self.chosen] = TICKED if ticked else no
        self.line.put("")
        self.keep_soon(self._form.text(), self._purpose)
        self.tell("")
        self.show()
        if sort == "tie":
            self._ask()

    def _stands_wrong(self) -> bool:
        """Tell, and say, that what stands in the line is nothing its row takes."""
        part, typed = self.part, self.line.value.strip()
        sort, said = self.chosen.partition(" ")[0], ""
        if typed and sort in (*TO_TICK, "file"):
            takes = "Space, y or n" if sort in TO_TICK else "nothing"
            said = f"“{typed}” stands in no row; accepted here: {takes}"
        elif part is not None and sort == "mates":
            said = mates_refused(self.desk.snapshot, part, self._form)
        if said:
            self.tell(said, label="not taken")
            self.line.select_all()
        return bool(said)

    def _ask(self, *, aloud: bool = False) -> bool:
        """Ask what the form would touch; tell a size that is none beside the line."""
        part = self.part
        before = current_revision(self.desk.snapshot, part) if part else None
        if part is None or before is None:
            return True
        try:
            changes = tuple(changes_of(self.desk.snapshot, part, self._form))
        except BadInput as refusal:
            if aloud:  # what is typed next stands in the place of what was refused
                self.tell(str(refusal), label="not taken")
                self.line.select_all()
            return False
        material = self._form.rows.get("material", "").strip()
        rows, on_disk = self._form.rows, self._files or {}
        files = tuple(files_taken(self.desk.snapshot, part, rows, on_disk))
        self.desk.impact(as_asked(before, changes, material, files))
        return True

    def action_take(self) -> None:
        """Take the row, as Enter does."""
        self._enter()

    def action_move(self, by: int) -> None:
        """Go to another row; what stands in the line is in the form already.

        Words that stand in no row are not left behind.
        """
        sort = self.chosen.partition(" ")[0]
        if sort in (*TO_TICK, "file") and self._stands_wrong():
            return
        super().action_move(by)
        self._load()

    def action_anew(self) -> None:
        """Drop what was typed in the form; the same key brings it back."""
        typed, proposed = self._form.rows, dict(self._proposed)
        if typed != proposed:
            self._dropped, self._form = typed, Form(proposed)
        elif self._dropped:
            self._form, self._dropped = Form(self._dropped), {}
        else:
            self.tell("nothing was typed here", label="nothing")
            return
        self.keep_soon("" if self._dropped else self._form.text(), self._purpose)
        key = self.mapped_keys()(ANEW)
        back = f"as proposed from the entries; {key} brings back what was typed"
        self.tell(back if self._dropped else "as it was typed", label="form")
        self.show()
        self._load()
        self._ask()

    # -- saving ------------------------------------------------------------------

    def action_save(self) -> None:
        """Save the revision, unless nothing changes or a size is none."""
        part = self.part
        if part is None:
            return
        try:
            revising(self.desk.snapshot, part, self._form, {})
        except BadInput as refusal:
            self.tell(str(refusal), label="not saved")
            return
        self._job = revise_job(self.desk, part, Form(dict(self._form.rows)))
        self.desk.write(self._job)

    def action_back(self) -> None:
        """Go back; the form is kept until it is saved."""
        self.keep_now(self._form.text(), self._purpose)
        self.dismiss()


def revise_job(desk: Desk, part: Part, form: Form) -> Job:
    """Make the work that saves a revision, with records and files as they are then."""
    now = desk.now()

    def make(project: Project) -> Draft:
        here = as_by_now(project.snapshot, part)
        draft = project.draft(now)
        files = recorded_files(project.root)
        revising(project.snapshot, here, form, files).draft(draft, here)
        return draft

    labels = [one.label for one in revisions_of(desk.snapshot, part)]
    name = f"{part.title} {label_words(next_label(labels))}"
    changed = form.rows.get("changed", "").strip()
    said = f"revision: {name}" + (f": {changed}" if changed else "")
    return Job(f"revision: {name}", make, said=said)
