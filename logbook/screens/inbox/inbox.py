"""The inbox: photos and notes from the phone, each sorted by one key.

While nothing is typed the letters are keys; Enter opens the line for words of
one's own, which become the title or the caption.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.message import Message

from logbook.errors import LogbookError
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.inbox.inbox_choices import Entries, Parts
from logbook.screens.inbox.inbox_jobs import failure_job, link_job, note_job
from logbook.screens.ruled import verbs
from logbook.screens.ruled.choosing import MOVES, Choosing
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.halves import Halves
from logbook.screens.ruled.listing import Line, Listing
from logbook.screens.ruled.look import sentence
from logbook.screens.ruled.moments import day
from logbook.screens.ruled.passage import Passage, Say
from logbook.screens.ruled.rows import Row
from logbook.store.inbox import Inbox, Item, read_inbox
from logbook.store.sorted_items import THROWN, remember
from logbook.store.sorting import nearest

WORDS = verbs.Verb("choose", "words", "enter", "Type a title or a caption first.")
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

EMPTY = (
    Say("how", "the phone's photos and text files arrive in a folder of your choice"),
    Say("", "and are listed here with the time they were taken, oldest first"),
    Say("then", "one key sorts each; the file itself stays where it is:"),
    *(Say(key, said) for key, (_, said) in KEYS.items()),
)
"""What is said while nothing waits."""


class InboxSheet(Choosing):
    """What waits to be sorted, oldest first."""

    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        WORDS, *MOVES, verbs.UNDO, verbs.BACK, *verbs.EVERYWHERE,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])
    LETTERS = {key: said for key, (_, said) in KEYS.items()}  # noqa: RUF012
    NOTHING = "nothing waits to be sorted"
    ASKS = "a letter sorts it; Enter: words of your own first"
    MARGIN_WORD = "sort ›"

    class Listed(Message):
        """The folder was read, or the sentence says why not."""

        def __init__(self, inbox: Inbox | None, refusal: str = "") -> None:
            """Carry what was found."""
            super().__init__()
            self.inbox, self.refusal = inbox, refusal

    def __init__(self, desk: Desk) -> None:
        """Show the inbox of this desk's project."""
        super().__init__(desk, "the inbox")
        self._inbox: Inbox | None = None
        self._left: set[str] = set()
        self._done: list[Item | None] = []
        self._words = ""

    def body(self) -> ComposeResult:
        """Lay out the list, what the letters do, and the line."""
        yield Halves(self.NOTHING)
        yield Row("file", id="item")
        yield Row("keys", id="letters")
        yield Row(self.MARGIN_WORD, EntryLine(self.ASKS, id="line"), id="say")

    def on_mount(self) -> None:
        """Read the folder in a thread; the letters are keys from the start."""
        super().on_mount()
        self.query_one(EntryLine).asking = True
        self._read()

    @work(thread=True, exclusive=True, group="inbox")
    def _read(self) -> None:
        try:
            inbox = read_inbox(self.desk.project.root, self.desk.snapshot)
        except LogbookError as refusal:
            self.post_message(self.Listed(None, str(refusal)))
        else:
            self.post_message(self.Listed(inbox))

    @on(Listed)
    def _listed(self, message: Listed) -> None:
        self._inbox = message.inbox
        said = message.refusal or " ".join(
            message.inbox.remarks if message.inbox else ()
        )
        if said:
            self.tell(said, label="no inbox" if message.refusal else "careful")
        self.narrow("")

    def told(self, message: Message) -> None:
        """Follow what is saved, refused or taken back."""
        match message:
            case news.Written():
                self._read()
                said = message.job.told or message.saved.records[-1].title
                self.tell(said, label="sorted")
            case news.NotWritten() | news.Undone():
                self._left.clear()
                self._read()
                super().told(message)
            case _:
                super().told(message)

    # -- what is shown -----------------------------------------------------------

    @property
    def items(self) -> list[Item]:
        """The items that wait; those on their way into a record are left out."""
        found = self._inbox.items if self._inbox else ()
        return [item for item in found if item.identity not in self._left]

    @property
    def item(self) -> Item | None:
        """The item the arrow stands at."""
        chosen = self.query_one(Listing).chosen
        named = (i for i in self.items if chosen and i.identity == chosen.key)
        return next(named, None)

    def lines(self, typed: str) -> Sequence[Line]:
        """Give all of them; what is typed is words for one, not a search."""
        del typed
        return [
            Line(
                item.identity,
                day(item.when),
                f"{item.name}  {item.words}".strip(),
                "photo" if item.is_photo else "text",
            )
            for item in self.items
        ]

    def narrow(self, typed: str) -> None:
        """Show the list with the arrow where it was, and what can be done."""
        line, listing = self.query_one(EntryLine), self.query_one(Listing)
        if not line.asking and not line.as_put:
            self.keep_soon(typed, self._purpose)
        kept = listing.chosen.key if listing.chosen else ""
        listing.show(self.lines(typed), kept)
        self.follow()

    def follow(self) -> None:
        """Show what can be done with the item, or how items come here."""
        item = self.item
        for name in ("#letters", "#item"):
            self.query_one(name, Row).display = item is not None
        self.query_one(Halves).share(3, known=item is None)
        if item is None:
            self.query_one(Passage).show(EMPTY)
            return
        doubt = f" · {item.doubt}" if item.doubt else ""
        near = nearest(self.desk.entries, item)
        entry = f"“{near.title}” of {day(near.when)}" if near else "no entry yet"
        self.query_one("#item", Row).say(
            sentence("$place$doubt", place=str(item.place), doubt=doubt)
        )
        made = [
            sentence(
                "[$mark][b]$key[/b][/] $said",
                key=key,
                said=f"link to {entry}" if key == "l" else said,
            )
            for key, (_, said) in KEYS.items()
        ]
        if self._words:
            made.append(sentence("[b]“$words”[/b]", words=self._words))
        self.query_one("#letters", Row).say(Content("  ").join(made))

    # -- keys --------------------------------------------------------------------

    @on(EntryLine.Key)
    def _letter(self, event: EntryLine.Key) -> None:
        if event.key == "escape":
            self.dismiss()
        elif event.key == "enter":
            self._type_words()
        elif event.sign.casefold() in KEYS and self.item is not None:
            self.tell("")
            getattr(self, f"_{KEYS[event.sign.casefold()][0]}")(self.item)

    @on(EntryLine.Pasted)
    def _pasted(self, event: EntryLine.Pasted) -> None:
        self._type_words()
        self.query_one(EntryLine).insert_text_at_cursor(event.words)

    @property
    def _purpose(self) -> str:
        """What words of one's own are kept as until they are on record."""
        return "words for the inbox"

    def _type_words(self) -> None:
        if self.item is None:
            return
        line = self.query_one(EntryLine)
        line.asking = False
        kept = None if self._words else self.desk.keeping.left_over(self._purpose)
        line.put(kept.text if kept else self._words)
        line.placeholder = "a title, or a caption; Enter takes it"

    def choose(self, chosen: Line) -> None:
        """Take the words typed; the letters are keys again."""
        del chosen
        line = self.query_one(EntryLine)
        self._words = line.value.strip()
        line.put("")
        line.asking, line.placeholder = True, self.ASKS
        self.follow()

    def action_back(self) -> None:
        """Drop the words being typed, or go back."""
        line = self.query_one(EntryLine)
        if line.asking:
            self.dismiss()
        else:
            self.desk.keeping.emptied(line.value, self._purpose)
            self.keep_now("", self._purpose)
            line.put("")
            line.asking, line.placeholder = True, self.ASKS

    # -- sorting -----------------------------------------------------------------

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
        self._sort(item, link_job(self.desk, item, self._words, identity))

    def _note(self, item: Item, part: str = "") -> None:
        self._sort(item, note_job(self.desk, item, self._words, part))

    def _failure(self, item: Item) -> None:
        self._sort(item, failure_job(self.desk, item, self._words))

    def _part(self, item: Item) -> None:
        def go(chosen: str | None) -> None:
            if chosen:
                self._note(item, chosen)

        self.app.push_screen(Parts(self.desk, f"{item.name} is of"), go)

    def _sort(self, item: Item, job: Job) -> None:
        self._left.add(item.identity)
        self._done.append(None)
        self._words = ""
        self.keep_now("", self._purpose)
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
        self._left.add(item.identity)
        self._done.append(item)
        self.narrow("")
        key = self.mapped_keys()(verbs.UNDO)
        self.tell(
            f"{item.name} is off the list; the file stays in {item.place.parent}. "
            f"{key} brings it back, later `logbook inbox --again {item.name}`",
            label="off the list",
        )

    def action_undo(self) -> None:
        """Bring back what was just thrown away, else take the last entry back."""
        item = self._done.pop() if self._done else None
        if item is None:
            super().action_undo()
            return
        try:
            remember(self.desk.project.root, item.identity, "")
        except LogbookError as refusal:
            self.tell(str(refusal), label="undo")
            return
        self._left.discard(item.identity)
        self._read()
        self.tell(f"{item.name} waits again", label="taken back")
