"""Taking back what touched one record: said first, done by the same key again."""

from __future__ import annotations

from datetime import datetime

from logbook.errors import Refused
from logbook.records.record import Record
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled import verbs
from logbook.screens.ruled.emptying import EmptyingSheet
from logbook.store.acts import Act

GONE = "this record is not here any more"


class UndoHere(EmptyingSheet):
    """A sheet about one record; its last entry is taken back when that was said."""

    def __init__(self, desk: Desk, record_id: str) -> None:
        """Be about the record with this id."""
        super().__init__(desk)
        self.record_id = record_id
        self._announced: Act | None = None

    @property
    def record(self) -> Record | None:
        """The record as it is now; none once it was taken back."""
        stored = self.desk.snapshot.stored.get(self.record_id)
        return stored.record if stored else None

    def action_undo(self) -> None:
        """Say what would be taken back; the key again takes it back."""
        if self.brings_back():
            return
        meant = self.only_ours(GONE, self._own_file)
        announced, self._announced = self._announced, None
        if announced is None:
            self.desk.ask_undo(meant)
            return

        def same(act: Act) -> None:
            meant(act)
            if act != announced:
                raise Refused(f"the last entry is another one by now, “{act.subject}”")

        self.desk.undo(same)

    @property
    def is_announced(self) -> bool:
        """Tell whether it was said what the key takes back, and nothing came since."""
        return self._announced is not None

    def announce(self, found: news.ToUndo) -> None:
        """Say what the key pressed again takes back."""
        self._announced = found.act
        if found.act is None:
            self.tell(found.refusal, label="undo")
            return
        key = self.mapped_keys()(verbs.UNDO)
        when = f"{datetime.fromisoformat(found.act.at).astimezone():%d %b %H:%M}"
        self.tell(
            f"{key} again takes back “{found.act.subject}” of {when}; "
            "any other key keeps it",
            label="undo?",
        )

    def hold_back(self) -> None:
        """Let go of what was announced: another key was pressed."""
        if self._announced is not None:
            self._announced = None
            self.tell("")

    def _own_file(self) -> tuple[str, ...]:
        stored = self.desk.project.snapshot.stored.get(self.record_id)
        return (stored.path,) if stored else ()
