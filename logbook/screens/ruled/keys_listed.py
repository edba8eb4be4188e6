"""The keys of a screen as a list: typed words narrow it, Enter does what a key does."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import ClassVar

from textual.binding import BindingType

from logbook.screens.desk.desk import Desk
from logbook.screens.ruled import verbs
from logbook.screens.ruled.choosing import CHOOSE, MOVES, Choosing
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.sheet import Sheet


class Keys(Choosing):
    """Every key of the screen below, with what it does; Enter does it."""

    NOTHING = "no key does that here"
    ASKS = "type what you want to do"
    MARGIN_WORD = "keys ›"
    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        CHOOSE, *MOVES, verbs.BACK,
        replace(verbs.KEYS, label="close", action="back_too"),
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])

    def __init__(self, desk: Desk, of: Sheet) -> None:
        """Show the keys of this screen."""
        super().__init__(desk, "keys")
        self._of = of

    def action_back_too(self) -> None:
        """Close the list by the key that opened it."""
        self.action_back()

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the verbs that have what was typed in label or purpose."""
        words = typed.casefold().split()
        mapped = self._of.mapped_keys()
        return [
            Line(verb.action, mapped(verb), verb.purpose, verb.label)
            for verb in self._of.VERBS
            if all(w in f"{verb.label} {verb.purpose}".casefold() for w in words)
        ] + [
            Line("", key, purpose, "letter")
            for key, purpose in self._of.LETTERS.items()
            if all(w in purpose.casefold() for w in words)
        ]
