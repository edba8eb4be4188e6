"""A reading being typed is kept for the size it is of, and comes back there only."""

from __future__ import annotations

from textwrap import shorten

from logbook.screens.desk.desk import Desk
from logbook.screens.ruled.asked import AskingSheet
from logbook.screens.ruled.emptying import MOST_QUOTED
from logbook.screens.ruled.verbs import UNDO
from logbook.screens.run.walk import Walk

AT = " at"
"""What stands between a run and its size, in what a reading is kept as."""


class KeptReading(AskingSheet):
    """A run whose line is kept for the size it stands at."""

    def __init__(self, desk: Desk, walk: Walk) -> None:
        """Keep what is typed on this walk."""
        super().__init__(desk)
        self.walk = walk
        self._unnamed: list[str] = []
        self._offered_back = ""
        self._gave_way = ""

    @property
    def purpose(self) -> str:
        """What the line of this run is kept as; the size follows."""
        raise NotImplementedError

    @property
    def kept_for(self) -> str:
        """What the line is kept as where the run stands."""
        return f"{self.purpose}{AT} {self.walk.stands_at}"

    @property
    def typed_here(self) -> str:
        """What was typed and is no reading yet: numbers of no size, then the line."""
        return " ".join(filter(None, (*self._unnamed, self.line.value)))

    def keep_here(self, text: str, *, at_once: bool = False) -> None:
        """Keep a text for the size the run stands at; it is kept for no other."""
        if self._kept_as and self._kept_as != self.kept_for:
            self.desk.keeping.now("", self._kept_as)
        if at_once:
            self._kept_as = self.kept_for
            self.keep_now(text, self.kept_for)
        else:
            self.keep_soon(text, self.kept_for)

    def offer_reading(self) -> None:
        """Put back what was being typed in this run, and stand where it was typed."""
        purpose = f"{self.purpose}{AT}"
        kept = self.offer_kept(purpose)
        if kept:
            self.walk.go_to(kept.removeprefix(purpose).strip())
            self._kept_as = self.kept_for
            self._offered_back = self.line.value

    def put_back(self, text: str, of: str) -> None:
        """Put a line back at the size it was typed for."""
        self.walk.go_to(of)
        super().put_back(text, of)
        self.show()

    def show(self) -> None:
        """Show the size the run stands at, and the list."""
        raise NotImplementedError

    def typed_over(self, text: str) -> None:
        """Keep what was typed over, for this size of the run; say what gave way."""
        self.let_go(self.kept_for, text, self.walk.stands_at)
        gone = shorten(text, MOST_QUOTED, placeholder=" …")
        key = self.mapped_keys()(UNDO)
        self._gave_way = f"“{gone}” gave way; {key} on the empty line brings it back"

    def let_wait(self, text: str) -> None:
        """Let go of a reading that came back, once another is begun in its place.

        It would come at the next size, where it does not belong.
        """
        if text != self._offered_back:
            super().let_wait(text)
            return
        self._offered_back = ""
        self.typed_over(text)

    def tell_of_typing(self) -> None:
        """Say, while a line is typed, what gave way to it; else nothing."""
        self.tell(self._gave_way, label="kept" if self._gave_way else "")
