"""What an item of the inbox may be put to: one of the entries, or one of the parts."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.records.kinds.table import kind_of
from logbook.records.together.revisions import parts_now
from logbook.screens.ruled.choosing import Choosing
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.moments import day


class Entries(Choosing):
    """The entries of this project, the newest first."""

    NOTHING = "no entry has that"
    MARGIN_WORD = "which ›"

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the entries that have every word typed."""
        words = typed.casefold().split()
        return [
            Line(one.id, day(one.when), one.title, kind_of(one).shown)
            for one in reversed(self.desk.snapshot.entries)
            if all(word in one.title.casefold() for word in words)
        ][:200]


class Parts(Choosing):
    """The parts, by name."""

    NOTHING = "no part is called so"
    MARGIN_WORD = "which ›"

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the parts that have what was typed in their name."""
        found = [
            part
            for part in parts_now(self.desk.snapshot)
            if typed.casefold() in part.title.casefold()
        ]
        return [Line(part.id, "", part.title) for part in found]
