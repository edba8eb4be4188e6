"""What warmth and damp do to the parts: each answer in full, as `logbook climate`."""

from __future__ import annotations

from collections.abc import Sequence

from textual.message import Message

from logbook.advice.ground.advice import STANDING, Advice
from logbook.advice.rooms.unanswered import rooms_told, unanswered
from logbook.records.kinds.design import Part
from logbook.records.together.revisions import parts_now
from logbook.screens.desk import news
from logbook.screens.ruled.choosing import Choosing
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.passage import Say

TOPICS = ("heat", "wood")


class Climate(Choosing):
    """The answers about heat and wood, and why a part has none; Enter opens one."""

    NOTHING = "neither wood nor a plastic whose figures are here is on record"
    ASKS = "a part, to narrow the list"

    def told(self, message: Message) -> None:
        """Follow the advice."""
        super().told(message)
        if isinstance(message, news.Advised):
            self.narrow(self.query_one(EntryLine).value)

    @property
    def _advice(self) -> Sequence[Advice]:
        return [one for topic in TOPICS for one in self.desk.advice.of(topic)]

    @property
    def _waiting(self) -> Sequence[tuple[Part, str]]:
        """The parts no answer is about, each with what is missing for one."""
        snapshot = self.desk.snapshot
        answered = {one.inputs[0].id for one in self._advice}
        return [*unanswered(snapshot, parts_now(snapshot), answered)]

    def lines(self, typed: str) -> Sequence[Line]:
        """Give what has what was typed in it: answers, then what others wait for."""
        words = typed.casefold()
        rows = [
            *(Line(one.key, one.topic, one.statement) for one in self._advice),
            *(Line(part.id, "not told", said) for part, said in self._waiting),
        ]
        return [row for row in rows if words in row.words.casefold()]

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
        for part, waits in self._waiting:
            if part.id == line.key:
                return [Say("", waits), Say("", rooms_told(self.desk.snapshot))]
        return ()

    def choose(self, chosen: Line) -> None:
        """Open what the answer is about."""
        for one in self._advice:
            if one.key == chosen.key and one.about.id:
                self.show_record(one.about.id)
                return
        self.show_record(chosen.key)
