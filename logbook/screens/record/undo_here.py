"""Taking back what touched one record last: said first, done by the same key again.

It may be older than other entries; it goes unless one of them stands on it.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from logbook.errors import Refused
from logbook.records.kinds.record import Record
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.taking_back import newest_of
from logbook.screens.ruled import verbs
from logbook.screens.ruled.emptying import EmptyingSheet
from logbook.store.acts.last import Act

GONE = "this record is not here any more"
NOT_HERE = "nothing that was logged in this clone lately has touched this record"


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
        return self.desk.snapshot.by_id(self.record_id)

    def action_undo(self) -> None:
        """Say what would be taken back; the key again takes it back."""
        if self.brings_back():
            return
        choose = newest_of(self._own_file, NOT_HERE if self.record else GONE)
        announced, self._announced = self._announced, None
        if announced is None:
            self.desk.ask_undo(choose)
            return

        def same(acts: Sequence[Act]) -> Act | None:
            act = choose(acts)
            if act != announced:
                raise Refused("something else has touched this record by now")
            return act

        self.desk.undo_chosen(same)

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
