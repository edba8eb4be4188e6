"""A revision's form being filled in: each row typed or ticked in the line below it.

The form is kept on disk while it is filled in; what was typed can be dropped for what
is proposed, and brought back.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from textual import on
from textual.widgets import Input

from logbook.records.kinds.design import DesignFile, Part
from logbook.screens.desk.desk import Desk
from logbook.screens.part.revise_files import TICKED, UNTICKED, is_tied
from logbook.screens.part.revise_form import (
    TEXTS,
    Form,
    answer_by_size,
    mates_refused,
    new_form,
)
from logbook.screens.part.revise_rows import hint_of, rows_of_form
from logbook.screens.ruled import verbs
from logbook.screens.ruled.facing import Facing
from logbook.screens.ruled.listing import Line

ANEW = verbs.Verb("anew", "as proposed", "f8", "Drop what was typed, or bring it back.")
TICKS = {" ": None, "y": True, "x": True, "n": False}
"""What is typed at an entry: ticked, not ticked, the other way round."""
TO_TICK = ("entry", "tie")
"""The rows that are ticked."""
HOW_TO_TICK = "Space ticks it, or takes the tick away; Enter goes on"


class Filling(Facing):
    """The rows of a form for a part, and the line that each is filled in by."""

    MARGIN_WORD = "new ›"
    KEEPS = False

    def __init__(self, desk: Desk, part_id: str) -> None:
        """Fill in a form for the part with this id."""
        super().__init__(desk)
        self.part_id = part_id
        self.form = Form()
        self._proposed: Mapping[str, str] = {}
        self._dropped: dict[str, str] = {}
        self.files: Mapping[str, DesignFile] | None = None

    @property
    def part(self) -> Part | None:
        """The part as it is now; none once it was taken back."""
        return self.desk.snapshot.by_id(self.part_id, Part)

    @property
    def kept_form(self) -> str:
        """What the form is kept as on disk, until it is saved."""
        return f"revising {self.part_id}"

    def ask(self, *, aloud: bool = False) -> bool:
        """Ask what the form would touch; tell a size that is none beside the line."""
        raise NotImplementedError

    def take_up(self) -> str:
        """Go on with a form that was left, and say so; else propose one."""
        if self.part is None:
            return ""
        keeping = self.desk.keeping
        kept = keeping.left_over(self.kept_form) if self.desk.is_open else None
        proposed = new_form(self.desk.snapshot, self.part)
        self._proposed = dict(proposed.rows)
        self.form = Form.read(kept.text) if kept else proposed
        if kept is None:
            return ""
        return f"this was being filled in on {kept.when.astimezone():%d %b %H:%M}"

    def lines(self) -> Sequence[Line]:
        """Give the rows of the form: entries, sizes, words, files."""
        part = self.part
        if part is None:
            return ()
        return [*rows_of_form(self.desk.snapshot, part, self.form, self.files)]

    @property
    def is_proposed(self) -> bool:
        """Tell whether what stands in the row was only proposed."""
        value = self.form.rows.get(self.chosen, "")
        worded = self.chosen.partition(" ")[0] in ("size", *TEXTS)
        return worded and bool(value) and value == self._proposed.get(self.chosen)

    def load(self) -> None:
        """Put what the row holds into the line."""
        sort = self.chosen.partition(" ")[0]
        typed = sort in ("size", *TEXTS)
        value = self.form.rows.get(self.chosen, "") if typed else ""
        put = self.line.propose if self.is_proposed else self.line.put
        put(value)
        hints = {
            "entry": HOW_TO_TICK,
            "tie": HOW_TO_TICK,
            "size": "it stays as it is",
            "file": "",
        }
        part = self.part
        other = hint_of(self.desk.snapshot, part, sort) if part else ""
        self.line.placeholder = hints.get(sort, other)

    @on(Input.Changed, "#line")
    def _typed(self) -> None:
        sort = self.chosen.partition(" ")[0]
        if sort in TO_TICK and self.line.value.casefold() in TICKS:
            self._tick(TICKS[self.line.value.casefold()])
            return
        stands = self.form.rows.get(self.chosen, "")
        if sort not in ("size", *TEXTS) or self.line.value == stands:
            return
        self.tell("")
        self.form.rows[self.chosen] = self.line.value
        if self.part is not None:
            answer_by_size(self.desk.snapshot, self.part, self.form, self.chosen)
        self.keep_soon(self.form.text(), self.kept_form)
        self.show()

    def _tick(self, wanted: bool | None) -> None:  # noqa: FBT001
        """Tick the entry or file, or not; None: the other way round."""
        sort, _, path = self.chosen.partition(" ")
        ticked, no = bool(self.form.rows.get(self.chosen)), ""
        if sort == "tie" and self.part is not None:
            here, rows = self.desk.snapshot, self.form.rows
            ticked, no = is_tied(here, self.part, rows, path), UNTICKED
        ticked = not ticked if wanted is None else wanted
        self.form.rows[self.chosen] = TICKED if ticked else no
        self.line.put("")
        self.keep_soon(self.form.text(), self.kept_form)
        self.tell("")
        self.show()
        if sort == "tie":
            self.ask()

    def stands_wrong(self) -> bool:
        """Tell, and say, that what stands in the line is nothing its row takes."""
        part, typed = self.part, self.line.value.strip()
        sort, said = self.chosen.partition(" ")[0], ""
        if typed and sort in (*TO_TICK, "file"):
            takes = "Space, y or n" if sort in TO_TICK else "nothing"
            said = f"“{typed}” stands in no row; accepted here: {takes}"
        elif part is not None and sort == "mates":
            said = mates_refused(self.desk.snapshot, part, self.form)
        if said:
            self.tell(said, label="not taken")
            self.line.select_all()
        return bool(said)

    def action_move(self, by: int) -> None:
        """Go to another row; what stands in the line is in the form already.

        Words that stand in no row are not left behind.
        """
        sort = self.chosen.partition(" ")[0]
        if sort in (*TO_TICK, "file") and self.stands_wrong():
            return
        super().action_move(by)
        self.load()

    def action_anew(self) -> None:
        """Drop what was typed in the form; the same key brings it back."""
        typed, proposed = self.form.rows, dict(self._proposed)
        if typed != proposed:
            self._dropped, self.form = typed, Form(proposed)
        elif self._dropped:
            self.form, self._dropped = Form(self._dropped), {}
        else:
            self.tell("nothing was typed here", label="nothing")
            return
        self.keep_soon("" if self._dropped else self.form.text(), self.kept_form)
        key = self.mapped_keys()(ANEW)
        back = f"as proposed from the entries; {key} brings back what was typed"
        self.tell(back if self._dropped else "as it was typed", label="form")
        self.show()
        self.load()
        self.ask()
