"""Choosing what is measured with: the instrument in hand first, then the others."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.records.kinds.workshop import Instrument
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled.choosing import Choosing
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.passage import Say

NONE = "none"
NO_TOOL = "no instrument"


class Instruments(Choosing):
    """The instruments of the shop; gives the id of one, or that none is named."""

    ASKS = "its name; Enter takes it in hand, Esc keeps the one in hand"
    NOTHING = "no instrument is called so"
    MARGIN_WORD = "with ›"

    def __init__(self, desk: Desk, in_hand: Instrument | None) -> None:
        """Choose another than the one in hand."""
        super().__init__(desk, "measured with")
        self._in_hand = in_hand.id if in_hand else NONE

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the instruments that fit, the one in hand before the others."""
        words = typed.casefold()
        every = [*self._every()]
        every.sort(key=lambda line: line.key != self._in_hand)
        return [line for line in every if words in line.words.casefold()]

    def _every(self) -> Iterator[Line]:
        for tool in self.desk.snapshot.all(Instrument):
            yield self._line(tool.id, tool.title)
        yield self._line(NONE, f"{NO_TOOL} named")

    def _line(self, key: str, words: str) -> Line:
        return Line(key, "in hand" if key == self._in_hand else "", words)

    def about(self, line: Line) -> Sequence[Say]:
        """Say how far it is to be trusted, and what is on record of it."""
        one = self.desk.snapshot.by_id(line.key, Instrument)
        if one is None:
            return [Say("judged", "without the doubt of an instrument")]
        low, high = (*map(str, one.range), "", "")[:2]
        said = (
            ("reads", f"{low} to {high}" if high else low),
            ("within", f"±{one.uncertainty}" if one.uncertainty else "doubt unsaid"),
            ("steps of", str(one.resolution or "")),
            ("checked", f"{one.checked:%d %b %Y}" if one.checked else "no day said"),
        )
        return [Say(label, words) for label, words in said if words]
