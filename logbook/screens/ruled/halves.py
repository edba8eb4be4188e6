"""A list and what is known of its row: one above the other, or side by side.

Side by side where the screen is broad: there a list would leave most of its columns
empty, and lines across all of them are hard to read.
"""

from __future__ import annotations

from textual.containers import Container

from logbook.screens.ruled.listing import Listing
from logbook.screens.ruled.passage import BESIDE, Passage

BROAD = 120
"""Columns from which the two stand side by side."""


class Halves(Container):
    """The list and the passage, sharing the room of the screen."""

    DEFAULT_CSS = """
    Halves { height: 1fr; layout: vertical; }
    Halves.-beside { layout: horizontal; }
    Halves > Passage { border-top: solid $rule; }
    Halves.-beside > Listing { width: 50%; padding: 0 1 0 0; }
    Halves.-beside > Passage { width: 1fr; border-top: none; border-left: solid $rule; }
    """

    def __init__(self, nothing: str, broad: int = BROAD) -> None:
        """Say `nothing` in an empty list; a screen is `broad` from there on."""
        super().__init__(Listing(nothing, id="list"), Passage(id="known"), id="halves")
        self._broad = broad

    @property
    def beside(self) -> bool:
        """Tell whether the two stand side by side."""
        return self.screen.size.width >= self._broad

    @property
    def list_columns(self) -> int:
        """Columns of the list; one stays free before what stands beside it."""
        width = self.screen.size.width
        return width // 2 - 1 if self.beside else width

    @property
    def word_columns(self) -> int:
        """Columns for words in the passage."""
        width = self.screen.size.width
        if self.beside:
            width -= self.list_columns + 2
        return max(width - BESIDE - 1, 10)

    def share(self, most: int, *, known: bool = True) -> None:
        """Share the room: above the passage the list takes `most` rows at most.

        Where nothing is `known` of any row the list has all of it.
        """
        listing, passage = self.query_one(Listing), self.query_one(Passage)
        passage.display = known
        self.set_class(self.beside and known, "-beside")
        above = known and not self.beside
        listing.styles.height = max(listing.count, 3) if above else "1fr"
        listing.styles.max_height = max(most, 3) if above else None
