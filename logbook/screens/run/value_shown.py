"""A value in big figures, under it its verdict and where it stands in its limits."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.containers import Vertical

from logbook.quantity import Quantity
from logbook.records.sizes.definition import Dimension
from logbook.screens.ruled.figures import HUGE, LOW, TALL, Figures, rows_for, unit_room
from logbook.screens.ruled.look import sentence
from logbook.screens.ruled.rows import MARGIN, Row
from logbook.screens.ruled.strip import strip


class ValueShown(Vertical):
    """As large as there is room for; the rows it does not need go to what is below."""

    DEFAULT_CSS = """
    ValueShown { height: auto; }
    ValueShown Figures { height: 100%; }
    ValueShown #verdict, ValueShown #strip { height: 1; }
    ValueShown #verdict > .said { text-wrap: nowrap; text-overflow: ellipsis; }
    """

    def compose(self) -> ComposeResult:
        """Lay out the figures, the verdict, the strip."""
        yield Row("", Figures(id="figures"), id="value")
        yield Row("", id="verdict")
        yield Row("limits", id="strip")

    only_wanted = False
    """Whether the size shown is one somebody wanted, that no drawing gives."""

    def show(
        self,
        label: str,
        drawn: Dimension | None,
        value: Quantity | None,
        said: str,
        beside: Sequence[str] = (),
        when: str = "",
    ) -> None:
        """Show a value of this size; `said` is its verdict, `when` its margin word."""
        self.show_number(label, value)
        verdict, strips = self.query_one("#verdict", Row), self.query_one("#strip", Row)
        verdict.display = strips.display = True
        words = [
            *filter(None, (value.text if value else "", self._meant(drawn), *beside))
        ]
        room = self.screen.size.width - MARGIN - 7 - len(said)
        if value and len(" · ".join(words)) > room:
            words = words[1:]  # it stands above in big figures
        verdict.say(
            sentence(
                "[reverse bold] $said [/]  $beside",
                said=said.upper(), beside=" · ".join(words),
            ),
            when,
        )  # fmt: skip
        said = strip(drawn, value, max(self.screen.size.width - 16, 20))
        if drawn is not None and drawn.to_suit and not drawn.has_limits:
            said = "its gap gives none yet: measure the other pieces first, everywhere"
        strips.say(said)

    def show_number(self, label: str, value: Quantity | None) -> None:
        """Show a number of nothing drawn."""
        for name in ("#verdict", "#strip"):
            self.query_one(name, Row).display = False
        number, _, unit = (value.text if value else "").rpartition(" ")
        height = self.screen.size.height
        most = HUGE if height >= 45 else TALL if height >= 24 else LOW
        room = self.screen.size.width - MARGIN - 3 - unit_room(unit)
        rows = rows_for(number, room, most)
        self.query_one("#value", Row).styles.height = rows or 1
        self.query_one("#value", Row).relabel(label)
        self.query_one(Figures).show(number, unit)

    def _meant(self, drawn: Dimension | None) -> str:
        """Say which size is meant: as drawn, only wanted, or as made to suit."""
        nominal = drawn.nominal if drawn else None
        if drawn is not None and drawn.to_suit:
            return f"made to suit, finish {nominal}" if nominal else "made to suit"
        if nominal and self.only_wanted:
            return f"wanted {nominal}, not drawn"
        return f"drawn {nominal}" if nominal else "no size drawn"
