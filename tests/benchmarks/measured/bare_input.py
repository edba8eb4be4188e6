"""An app that has nothing but an input.

python -m tests.benchmarks.measured.bare_input
"""

from __future__ import annotations

from textual.app import App, ComposeResult
from textual.widgets import Input


class Bare(App[None]):
    """One input."""

    def compose(self) -> ComposeResult:
        yield Input(placeholder="what happened")


if __name__ == "__main__":
    Bare().run()
