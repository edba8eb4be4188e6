"""A day said once: a line that is only a day is the day of what is typed next."""

from __future__ import annotations

from textual.content import Content

from logbook.plain.when.dated import day_alone
from logbook.plain.words.day_said import DaySaid
from logbook.screens.ruled.look import sentence
from logbook.screens.ruled.ruled_sheet import RuledSheet

_NOW = frozenset({"today", "now"})
ENDS = "“today” or Esc ends it"


class DaySheet(RuledSheet):
    """A sheet whose line may say the day of what is typed in this window next."""

    def day_in(self, text: str) -> DaySaid | None:
        """Give the day that a line says for what follows; None where it tells more."""
        desk = self.desk
        told = day_alone(text, desk.words)
        return DaySaid(told.at, desk.now(), told.exact) if told else None

    def ends_day(self, text: str) -> bool:
        """Tell whether a line says that what follows is of now again."""
        return self.desk.day is not None and text.strip(" .!:").casefold() in _NOW

    def take_day(self, text: str) -> bool:
        """Begin the day a line says, or end it; tell whether the line was no more."""
        if self.ends_day(text):
            self.end_day()
            return True
        if (day := self.day_in(text)) is None:
            return False
        self._of_day(day)
        self.tell("")  # The row of what is understood says it, and the band.
        return True

    def end_day(self) -> bool:
        """Let what follows be of now again; tell whether it was of another day."""
        if self.desk.day is None:
            return False
        self._of_day(None)
        self.tell("what is typed next is of now again", label="day")
        return True

    def _of_day(self, day: DaySaid | None) -> None:
        self.desk.day = day
        self.desk.words = self.desk.words.on(day)
        self.show_band()

    def of_day(self) -> Content | None:
        """Say of which day what is typed is, where one was said."""
        day = self.desk.day
        if day is None:
            return None
        words = "what is typed is of [$mark][b]$day[/b][/]; $ends"
        return sentence(words, day=day_words(day), ends=ENDS)


def day_words(day: DaySaid) -> str:
    """Give a day as it is told on a screen, with its hour where that was said."""
    return f"{day.at:%a %d %b %Y %H:%M}" if day.exact else f"{day.at:%a %d %b %Y}"


def shown_day(day: DaySaid) -> Content:
    """Say what was understood of a line that says only a day."""
    words = "[$mark][b]day[/b][/] · $day · Enter: what is typed next is of it"
    return sentence(words, day=day_words(day))
