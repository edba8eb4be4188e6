"""The row of the bench the arrow stands at: what Enter, a photo and a move are of."""

from __future__ import annotations

from dataclasses import replace

from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.record import Record
from logbook.screens.bench.offering_sheet import OfferingSheet
from logbook.screens.ruled import verbs
from logbook.screens.ruled.newest import Newest
from logbook.screens.ruled.rows import KeyStrip

OPENS = verbs.Verb("take", "open it", "enter", "Open the entry the arrow stands at.")
OF_ROW = (
    replace(verbs.PHOTO, label="photo to it"),
    replace(verbs.MOVE, label="move it"),
    verbs.Verb("clear", "let go of it", "escape", "Let go of the entry."),
)
"""What is done with the row, beside opening it."""


class ChosenRow(OfferingSheet):
    """A bench on whose list an entry can be chosen."""

    @property
    def chosen(self) -> Record | None:
        """The record the arrow stands at, if it stands in the list."""
        return self.query_one(Newest).chosen

    @property
    def chooses(self) -> bool:
        """Tell whether the arrow stands at an entry: typing on lets go of it."""
        return self.chosen is not None

    def open_chosen(self) -> None:
        """Open the entry chosen among the newest; else go on with what was left off."""
        record, left_off = self.chosen, self.desk.standing_in.left_off
        if record is not None:
            self.show_record(record.id)
        elif self.desk.glance.read and (left := left_off.offered) is not None:
            left_off.drop(left)
            self.show_band()
            self.go("go_on", left)

    @property
    def entry_meant(self) -> Entry | None:
        """The entry of the row the arrow stands at; else the last."""
        chosen = self.chosen
        return chosen if isinstance(chosen, Entry) else super().entry_meant

    def action_photo(self) -> None:
        """Link the newest photo to the entry of the row, else to the last."""
        if not self._is_no_entry():
            super().action_photo()

    def action_to_build(self) -> None:
        """Move the entry of the row, else the last."""
        if not self._is_no_entry():
            super().action_to_build()

    def _is_no_entry(self) -> bool:
        """Tell, and say, that the row is of something no photo or build belongs to."""
        chosen = self.chosen
        if chosen is None or isinstance(chosen, Entry):
            return False
        self.tell(f"“{chosen.title}” is no entry; accepted: one", label="nothing")
        return True

    def action_earlier(self) -> None:
        """Choose an earlier entry."""
        self._move(-1)

    def action_later(self) -> None:
        """Choose a later entry."""
        self._move(1)

    def _move(self, by: int) -> None:
        self.query_one(Newest).move(by)
        self.show_keys()

    def let_go_of_row(self) -> None:
        """Let go of the row: what is done is of the last entry again."""
        if self.chooses:
            self.query_one(Newest).leave()
            self.show_keys()

    def show_keys(self) -> None:
        """Show the keys that work: on a row of the list, what they do with it."""
        if self.question is not None or not self.is_laid_out or not self.chooses:
            super().show_keys()
            return
        key_of = self.mapped_keys()
        keys = [(key_of(one), one.label) for one in (OPENS, *OF_ROW)]
        moves = [(key_of(one), one.label) for one in self.VERBS if one.key == "up"]
        self.query_one(KeyStrip).tell([*keys, *moves])
