"""What waits and what is undecided, each in full: beside the newest on a wide bench."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from textual.app import ComposeResult
from textual.containers import Horizontal

from logbook.screens.desk.glance import NONE_BARE, Glance
from logbook.screens.ruled.newest import Newest
from logbook.screens.ruled.passage import Passage, Say
from logbook.screens.ruled.settled import settled

MOST = 30
"""Rows said of a kind; no screen has room for more."""


class Middle(Horizontal):
    """The newest entries, and on a wide bench beside them what is open in full."""

    virtual_size = settled()

    def compose(self) -> ComposeResult:
        """Lay the two side by side."""
        yield Newest(id="newest")
        yield InFull(id="in-full")


class InFull(Passage):
    """Row by row what a narrower bench counts at its top."""

    def tell(self, seen: Glance, none: str, key: str) -> None:
        """Say what a glance found; `none` stands for what there is none of.

        `key` lists what is undecided.
        """
        undecided = seen.undecided(MOST)
        bare = NONE_BARE if seen.read else none
        self.show(
            [
                *(Say("to see", words) for words in seen.unseen[:MOST]),
                *_each("waits", [wait.words for wait in seen.waits[:MOST]], none),
                *_each("undecided", undecided, none),
                *([Say("", f"{key} lists them")] if undecided else ()),
                Say("no entry", " · ".join(seen.bare) or bare),
            ],
            anew=False,
        )


def _each(label: str, said: Sequence[str], none: str) -> Iterator[Say]:
    """Say each, with its number where there are several."""
    for at, words in enumerate(said, 1):
        yield Say(label if at == 1 else "", f"{at}  {words}" if said[1:] else words)
    if not said:
        yield Say(label, none)
