"""What is seen while everything else is still loading: the newest entries.

They stand where the bench will show them, so that the eye need not move.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from textual.app import ComposeResult
from textual.screen import Screen
from textual.widgets import Static

from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.newest import READING, Newest


class Opening(Screen[Any]):
    """The first paint of a start; the bench takes its place."""

    DEFAULT_CSS = """
    Opening { background: $sheet; color: $ink; }
    Opening #opening { height: 1; background: $band; padding: 0 1; }
    Opening Newest { margin: 0 0 4 0; }
    """

    def __init__(self, lines: Sequence[Line]) -> None:
        """Show these rows, oldest first."""
        super().__init__()
        self.lines = lines
        self._newest = Newest()
        self._newest.glimpse(lines)
        self._newest.nothing = (Line("", "", READING),)

    def compose(self) -> ComposeResult:
        """Lay out the band and the rows."""
        yield Static("logbook", id="opening", markup=False)
        yield self._newest
