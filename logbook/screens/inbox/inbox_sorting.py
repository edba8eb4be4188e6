"""What the letters of the inbox do with the item the arrow stands at."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import ClassVar

from logbook.errors import LogbookError
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.inbox.inbox_choices import Entries, Parts
from logbook.screens.inbox.inbox_jobs import (
    failure_job,
    link_job,
    note_job,
    told_failure,
)
from logbook.screens.ruled import verbs
from logbook.screens.ruled.asking import Answer, blame_of, whose_fault
from logbook.screens.ruled.choosing import Choosing
from logbook.screens.ruled.listing import Listing
from logbook.screens.ruled.one_question import OneQuestion
from logbook.store.photos.inbox import Item
from logbook.store.photos.sorted_items import THROWN, remember
from logbook.store.photos.sorting import nearest

KEYS: dict[str, tuple[str, str]] = {
    "l": ("link", "link to it"),
    "e": ("other", "to another entry"),
    "n": ("note", "note"),
    "f": ("failure", "failure"),
    "p": ("part", "note of a part"),
    "s": ("skip", "later"),
    "x": ("throw", "off the list"),
}
"""What a letter does, and what is said of it."""


class SortingSheet(Choosing, OneQuestion):
    """A list of items, each sorted by one key; words of one's own go with it.

    `left` are the items on their way into a record, `done` what was thrown away, with
    None for what became an entry; `words` are typed and not on record yet, `went` those
    that went with each entry: they come back with an item that is taken back.
    """

    KEYS_AT_REST = True
    LETTERS: ClassVar[Mapping[str, str]] = {k: said for k, (_, said) in KEYS.items()}

    def __init__(self, desk: Desk, heading: str) -> None:
        """Start with nothing sorted."""
        super().__init__(desk, heading)
        self.left: set[str] = set()
        self.done: list[Item | None] = []
        self.words = ""
        self.went: list[str] = []
        self._waits: list[str] = []

    def read(self) -> None:
        """Read the folder anew."""
        raise NotImplementedError

    def sort(self, way: str, item: Item) -> None:
        """Sort an item in one of the ways of `KEYS`."""
        ways: dict[str, Callable[[Item], None]] = {
            "link": self._link,
            "other": self._other,
            "note": self._note,
            "failure": self._failure,
            "part": self._part,
            "skip": self._skip,
            "throw": self._throw,
        }
        ways[way](item)

    def show_question(self) -> None:
        """Show the question in the place of the letters, or these again."""
        self.follow()

    def let_wait(self, text: str) -> None:
        """Keep what was typed at the question: it is words of one's own behind it."""
        self._waits.append(text)

    def take_answer(self, answer: Answer) -> None:
        """Do what was answered; words that were none go with what is sorted next."""
        super().take_answer(answer)
        if self.question is None and self._waits:
            self.words = " ".join(filter(None, (self.words, *self._waits)))
            self._waits.clear()
            self.keep_soon(self.words, self.purpose)
            self.follow()

    # -- each way ----------------------------------------------------------------

    def _link(self, item: Item) -> None:
        entry = nearest(self.desk.entries, item)
        if entry is None:
            self.tell("there is no entry yet to link it to", label="not sorted")
            return
        self._link_to(item, entry.id)

    def _other(self, item: Item) -> None:
        def go(chosen: str | None) -> None:
            if chosen:
                self._link_to(item, chosen)

        self.app.push_screen(Entries(self.desk, f"link {item.name} to"), go)

    def _link_to(self, item: Item, identity: str) -> None:
        self._sort(item, link_job(self.desk, item, self.words, identity))

    def _note(self, item: Item, part: str = "") -> None:
        self._sort(item, note_job(self.desk, item, self.words, part))

    def _failure(self, item: Item) -> None:
        """Make it a failure; what its words tell is taken in, as on the bench."""
        words = self.words
        told = told_failure(self.desk, words) if words else None
        try:
            asks = told is not None and told.wants_blame(self.desk.snapshot)
        except LogbookError as refusal:
            self.tell(str(refusal), label="not sorted")
            return

        def sort(blame: str = "") -> None:
            if told is not None and asks:
                told.blame = blame_of(blame)
            self._sort(item, failure_job(self.desk, item, words, told))

        def answered(answer: Answer) -> None:
            if answer.words is not None:  # else the item stays unsorted
                sort(answer.words)

        if asks:
            self.ask(replace(whose_fault(), gives_way=None), answered)
        else:
            sort()

    def _part(self, item: Item) -> None:
        def go(chosen: str | None) -> None:
            if chosen:
                self._note(item, chosen)

        self.app.push_screen(Parts(self.desk, f"{item.name} is of"), go)

    def _sort(self, item: Item, job: Job) -> None:
        self.left.add(item.identity)
        self.done.append(None)
        self.went.append(self.words)
        self.words = ""
        self.keep_now("", self.purpose)
        self.desk.write(job)
        self.narrow("")

    def _skip(self, item: Item) -> None:
        del item
        self.query_one(Listing).move(1)
        self.follow()

    def _throw(self, item: Item) -> None:
        try:
            remember(self.desk.project.root, item.identity, THROWN)
        except LogbookError as refusal:
            self.tell(str(refusal), label="not sorted")
            return
        self.left.add(item.identity)
        self.done.append(item)
        self.narrow("")
        key = self.mapped_keys()(verbs.UNDO)
        self.tell(
            f"{item.name} is off the list; the file stays in {item.place.parent}. "
            f"{key} brings it back, later `logbook inbox --again {item.name}`",
            label="off the list",
        )

    def action_undo(self) -> None:
        """Bring back what was just thrown away, else take the last entry back."""
        item = self.done.pop() if self.done else None
        if item is None:
            super().action_undo()
            return
        try:
            remember(self.desk.project.root, item.identity, "")
        except LogbookError as refusal:
            self.tell(str(refusal), label="undo")
            return
        self.left.discard(item.identity)
        self.read()
        self.tell(f"{item.name} waits again", label="taken back")
