"""A run in which it is told how warm the room is, and how long a part had been warm."""

from __future__ import annotations

from textual.content import Content

from logbook.screens.desk.desk import Desk
from logbook.screens.ruled.asking import Answer
from logbook.screens.ruled.look import sentence
from logbook.screens.ruled.rows import Row
from logbook.screens.run.deciding_sheet import DecidingSheet
from logbook.screens.run.measure_verbs import ROOM
from logbook.screens.run.slots import live_value, unit_read
from logbook.screens.run.walk import Walk
from logbook.screens.run.warmth import (
    UNSAID,
    Warmth,
    how_warm,
    is_warmth,
    read_warmth,
    told_before,
)


class RoomTold(DecidingSheet):
    """A run with a row for the room, where anything is told of it or should be."""

    def __init__(self, desk: Desk, walk: Walk) -> None:
        """Begin with what was told of the room not long ago."""
        super().__init__(desk, walk)
        self.state.warmth = told_before(desk.snapshot, desk.when())

    def show_value(self) -> None:
        """Show the value, and the room it is read in."""
        super().show_value()
        row, said = self.query_one("#room", Row), self._room_words()
        row.display = said is not None
        if said is not None:
            row.say(said)

    def _room_words(self) -> Content | None:
        """Say what is told of the room; of a temperature also that nothing is."""
        told = self.state.warmth.words(self.desk.when())
        if told:
            return sentence("$told", told=told)
        if not self._reads_warmth:
            return None
        key = self.mapped_keys()(ROOM)
        how = "tells how warm it is, and after how long it is read"
        return sentence("[$mark][b]$key[/b][/] $how", key=key, how=how)

    @property
    def _reads_warmth(self) -> bool:
        """Tell whether the run stands at a temperature, or one is typed."""
        slot = self.walk.slot
        typed = live_value(self.line.value, slot, unit_read(self.desk.snapshot, slot))
        last = self.state.last_value(slot) if slot else None
        return is_warmth(typed or last)

    def action_room(self) -> None:
        """Ask how warm the room is, and after how long it is read."""
        if self._is_asked():
            return

        def answered(said: Answer) -> None:
            if said.words == UNSAID:
                self.state.warmth = Warmth()
            elif said.words:
                self.state.warmth = read_warmth(said.words, self.desk.when())
            self.show_value()

        self.ask(how_warm(self.desk.when()), answered)
