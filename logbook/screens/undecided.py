"""What nobody has decided on yet, each with what is known of it; Enter opens it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from textual.message import Message

from logbook.records.happenings import Deviation, Failure
from logbook.records.kinds import kind_of
from logbook.records.record import Record
from logbook.records.workshop import Piece
from logbook.screens import news
from logbook.screens.choosing import CHOOSE, Choosing
from logbook.screens.entry_line import EntryLine
from logbook.screens.facing import MOVES
from logbook.screens.listing import Line
from logbook.screens.moments import day
from logbook.screens.passage import Say
from logbook.screens.record_words import said_of_record
from logbook.screens.verbs import BACK, IN_LISTS, bindings


class Undecided(Choosing):
    """The deviations, failures and pieces of which nobody said what is done with them.

    They are those the bench counts, in its order.
    """

    VERBS = (replace(CHOOSE, label="open"), *MOVES, BACK, *IN_LISTS)
    BINDINGS = bindings(VERBS[1:])
    NOTHING = "nothing is undecided"

    def told(self, message: Message) -> None:
        """List anew what was decided meanwhile."""
        super().told(message)
        if isinstance(message, news.Looked | news.Advised):
            self.narrow(self.query_one(EntryLine).value)

    def lines(self, typed: str) -> Sequence[Line]:
        """Give what is undecided and has what was typed in it."""
        words = typed.casefold()
        return [
            Line(ref.id, day(record.when), ref.name, kind_of(record).shown)
            for ref in self.desk.glance.open_ones
            if words in ref.name.casefold() and (record := self._record(ref.id))
        ]

    def _record(self, record_id: str) -> Record | None:
        stored = self.desk.snapshot.stored.get(record_id)
        return stored.record if stored else None

    def about(self, line: Line) -> Sequence[Say]:
        """Say what is known of it, and by which words it is decided on."""
        record = self._record(line.key)
        if record is None:
            return ()
        said = [Say("in full", line.words)]
        if isinstance(record, Deviation | Failure):
            said = [*said_of_record(record)]
        piece = self._piece(record)
        if piece:
            said.append(Say("to decide", f"say it on the bench: {_words_for(piece)}"))
        return said

    def _piece(self, record: Record) -> str:
        if isinstance(record, Piece):
            return record.title
        named = record.piece if isinstance(record, Deviation | Failure) else None
        return named.name if named else ""

    def choose(self, chosen: Line) -> None:
        """Open it; coming back leads here again."""
        self.show_record(chosen.key)


def _words_for(piece: str) -> str:
    return f"scrap {piece}; use {piece} as is; rework {piece}"
