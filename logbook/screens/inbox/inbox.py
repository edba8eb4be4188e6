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
from logbook.screens.desk.long_work import LongWork
from logbook.screens.inbox.inbox_sorting import KEYS, SortingSheet
from logbook.screens.ruled import verbs
from logbook.screens.ruled.choosing import MOVES
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.halves import Halves
from logbook.screens.ruled.listing import Line, Listing
from logbook.screens.ruled.look import sentence
from logbook.screens.ruled.moments import day, instant
from logbook.screens.ruled.passage import Passage, Say
from logbook.screens.ruled.rows import Row
from logbook.store.photos.inbox import Inbox, Item, read_inbox, read_text
from logbook.store.photos.sorting import nearest

WORDS = verbs.Verb("choose", "words", "enter", "Type a title or a caption first.")
MOST_LINES = 60
"""Lines of a text shown before it is sorted."""

EMPTY = (
    Say("how", "the phone's photos and text files arrive in a folder of your choice"),
    Say("", "and are listed here with the time they were taken, oldest first"),
    Say("then", "one key sorts each; the file itself stays where it is:"),
    *(Say(key, said) for key, (_, said) in KEYS.items()),
)
"""What is said while nothing waits."""


class InboxSheet(SortingSheet):
    """What waits to be sorted, oldest first."""

    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        WORDS, *MOVES, verbs.UNDO, verbs.BACK, *verbs.EVERYWHERE, verbs.BRING_BACK,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])
    NOTHING = "nothing waits to be sorted"
    ASKS = "a letter sorts it; Enter: words of your own first"
    MARGIN_WORD = "sort ›"
    KEEPS = False
    WAY = "inbox"

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
        self._told: dict[str, Sequence[Say]] = {}

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
        self._bring_back()
        self.read()

    def _bring_back(self) -> None:
        """Show words that were typed for an item before the window went away."""
        kept = self.desk.keeping.left_over(self.purpose)
        if kept is not None:
            self.words = kept.text
            self.tell(
                "these words were typed here before and go with what is sorted next; "
                "Enter changes them, Enter and Esc drop them",
                label="kept",
            )

    def read(self) -> None:
        """Read the folder anew, in a thread."""
        self._read()

    @work(thread=True, exclusive=True, group="inbox")
    def _read(self) -> None:
        try:
            with self.desk.works.doing(LongWork("reading what the phone sent")) as work:
                inbox = read_inbox(self.desk.project.root, self.desk.snapshot)
                work.check()
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
                self.read()
                said = message.job.told or message.saved.records[-1].title
                self.tell(said, label="sorted")
            case news.NotWritten() | news.Undone():
                if isinstance(message, news.Undone) and message.brought:
                    self.done.append(None)
                    self.went.append(self.words)
                    self.words = ""
                elif self.went:
                    self.words = self.words or self.went.pop()
                self.keep_soon(self.words, self.purpose)
                self.left.clear()
                self.read()
                super().told(message)
            case _:
                super().told(message)

    # -- what is shown -----------------------------------------------------------

    @property
    def items(self) -> list[Item]:
        """The items that wait; those on their way into a record are left out."""
        found = self._inbox.items if self._inbox else ()
        return [item for item in found if item.identity not in self.left]

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
            self.keep_soon(typed, self.purpose)
        kept = listing.chosen.key if listing.chosen else ""
        listing.show(self.lines(typed), kept)
        self.follow()

    def follow(self) -> None:
        """Show what can be done with the item, or how items come here."""
        item = self.item
        for name in ("#letters", "#item"):
            self.query_one(name, Row).display = item is not None
        self.query_one(Halves).share(self.size.height // 3)
        self.query_one(Passage).show(self._said_of(item) if item else EMPTY)
        if item is None:
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
        if self.words:
            made.append(sentence("[b]“$words”[/b]", words=self.words))
        letters = Content("  ").join(made)
        if self.question is not None:
            letters = self.question.shown()
        self.query_one("#letters", Row).say(letters, "?" if self.question else "keys")
        self.show_keys()

    def _said_of(self, item: Item) -> Sequence[Say]:
        """Say in full what an item is, before it is sorted; a text is read once."""
        if item.identity not in self._told:
            said = [Say("photo" if item.is_photo else "text", instant(item.when))]
            if not item.is_photo:
                try:
                    words = read_text(item)
                except LogbookError as refusal:
                    words = str(refusal)
                said += [Say("", line) for line in words.splitlines()[:MOST_LINES]]
            self._told[item.identity] = said
        return self._told[item.identity]

    # -- keys --------------------------------------------------------------------

    @on(EntryLine.Key)
    def _letter(self, event: EntryLine.Key) -> None:
        if self.question is not None:
            return
        event.prevent_default()  # a question it leads to is not answered by it
        if event.key == "escape":
            self.dismiss()
        elif event.key == "enter":
            self._type_words()
        elif event.sign.casefold() in KEYS and self.item is not None:
            self.tell("")
            self.sort(KEYS[event.sign.casefold()][0], self.item)

    @on(EntryLine.Pasted)
    def _pasted(self, event: EntryLine.Pasted) -> None:
        if self.question is not None:
            return
        self._type_words()
        self.query_one(EntryLine).insert_text_at_cursor(event.words)

    @property
    def purpose(self) -> str:
        """What words of one's own are kept as until they are on record."""
        return "words for the inbox"

    def _type_words(self) -> None:
        if self.item is None:
            return
        line = self.query_one(EntryLine)
        line.asking = False
        kept = None if self.words else self.desk.keeping.left_over(self.purpose)
        line.put(kept.text if kept else self.words)
        line.placeholder = "a title, or a caption; Enter takes it"

    def choose(self, chosen: Line) -> None:
        """Take the words typed; the letters are keys again."""
        del chosen
        line = self.query_one(EntryLine)
        self.words = line.value.strip()
        line.put("")
        line.asking, line.placeholder = True, self.ASKS
        self.follow()

    def action_back(self) -> None:
        """Drop the question or the words being typed, or go back."""
        line = self.query_one(EntryLine)
        if line.asking:
            self.dismiss()
        else:
            self.desk.keeping.emptied(line.value, self.purpose)
            self.keep_now("", self.purpose)
            line.put("")
            line.asking, line.placeholder = True, self.ASKS
