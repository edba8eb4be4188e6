"""The band at the top: whose sheet this is, and at its right how git stands.

Both are drawn by one widget: what is said of git changes twice with each entry, and
to lay a screen out anew for other words of another width takes long.
"""

from __future__ import annotations

from textual.app import RenderResult
from textual.content import Content
from textual.widget import Widget

from logbook.screens.ruled.cutting import fitted

BESIDE = 4
"""Columns that neither has: a blank on each side of both."""


class Band(Widget):
    """One row; what stands at the right is said whole, the rest gets what is left."""

    DEFAULT_CSS = "Band { height: 1; }"

    def __init__(self) -> None:
        """Start empty."""
        super().__init__(id="band")
        self._whose = self._standing = Content("")

    def show(self, whose: Content, standing: Content) -> None:
        """Show these words, unless they stand there."""
        if whose.is_same(self._whose) and standing.is_same(self._standing):
            return
        self._whose, self._standing = whose, standing
        self.refresh()

    def render(self) -> RenderResult:
        """Draw the row."""
        width = self.size.width
        room = max(width - BESIDE - self._standing.cell_length, 0)
        whose = fitted(self._whose, room, 1)[0] if room else Content("")
        gap = " " * (room - whose.cell_length + 2)
        row = Content.assemble(" ", whose, gap, self._standing)
        return row.truncate(width)
