"""What warmth and damp do to the parts: each answer in full, as `logbook climate`."""

from __future__ import annotations

from collections.abc import Sequence

from textual.message import Message

from logbook.advice.ground.advice import STANDING, Advice
from logbook.screens.desk import news
from logbook.screens.ruled.choosing import Choosing
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.passage import Say

TOPICS = ("heat", "wood")


class Climate(Choosing):
    """The answers about heat and wood; the record of the one chosen is opened."""

    NOTHING = "no temperature and no wood on record that tells anything"
    ASKS = "a part, to narrow the list"

    def told(self, message: Message) -> None:
        """Follow the advice."""
        super().told(message)
        if isinstance(message, news.Advised):
            self.narrow(self.query_one(EntryLine).value)

    @property
    def _advice(self) -> Sequence[Advice]:
        return [one for topic in TOPICS for one in self.desk.advice.of(topic)]

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the answers that have what was typed in them."""
        words = typed.casefold()
        return [
            Line(one.key, one.topic, one.statement)
            for one in self._advice
            if words in one.statement.casefold()
        ]

    def about(self, line: Line) -> Sequence[Say]:
        """Say an answer in full: by which formula, from what, what would change it."""
        for one in self._advice:
            if one.key == line.key:
                said = (
                    ("in full", one.statement),
                    ("by", one.formula),
                    ("assumed", " · ".join(one.assumed)),
                    ("source", " · ".join(one.sources)),
                    ("changes it", " · ".join(one.changes)),
                    ("this is", STANDING),
                )
                return [Say(label, words) for label, words in said if words]
        return ()

    def choose(self, chosen: Line) -> None:
        """Open what the answer is about."""
        for one in self._advice:
            if one.key == chosen.key and one.about.id:
                self.show_record(one.about.id)
