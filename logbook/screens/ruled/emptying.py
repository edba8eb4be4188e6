"""A line that was emptied by hand comes back by the key that takes back.

It stays among the drafts besides. Esc is also the way back from any other screen: one
too many of them empties nothing. What stood in a line when its screen went away comes
back by the same key, where it is not put into the line at once.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from textwrap import shorten
from typing import Any, ClassVar, cast

from textual import on, work
from textual.message import Message

from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.left_off import Midst
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.keys_in_order import KeysInOrder
from logbook.screens.ruled.sheet import Sheet
from logbook.screens.ruled.verbs import UNDO

MOST_QUOTED = 40
"""Signs of what was typed before that are said again."""
_BY_NO_KEY = -2


class EmptyingSheet(Sheet):
    """A sheet whose line can be emptied, and be got back."""

    @dataclass
    class Earlier(Message):
        """What stood in a line of this sheet when it went away."""

        text: str
        when: datetime

    def __init__(self, desk: Desk) -> None:
        """Start with nothing emptied."""
        super().__init__(desk)
        self._emptied: tuple[str, str] | None = None
        self._elsewhere = ""
        self._came_back = 0
        self.gone_back_to = False

    WAY: ClassVar[str] = ""
    """The way that leads back here, where what was typed is gone on with."""

    @property
    def about_here(self) -> tuple[Any, ...]:
        """What the way that leads back here is told."""
        return ()

    @property
    def in_the_middle(self) -> Midst | None:
        """A line that was begun."""
        typed = self.query_one(EntryLine).value.strip()
        return self._midst(self.heading, typed) if self.WAY and typed else None

    def _midst(self, what: str, typed: str) -> Midst:
        """Give the way back here; `typed` is what stands in the line."""
        if typed:
            what += f": “{shorten(typed, MOST_QUOTED, placeholder=' …')}”"
        return Midst(self.WAY, self.about_here, self.purpose, what)

    @property
    def kept_as(self) -> str:
        """What the line is kept as on disk; empty where it is not."""
        return ""

    @property
    def _keys(self) -> int:
        """The number of the key that is being answered."""
        return cast("KeysInOrder[None]", self.app).keys_let_in

    def on_screen_resume(self) -> None:
        """Note which key led back here."""
        self._came_back = self._keys

    def put_there_unasked(self) -> None:
        """Let Esc clear the line at once, as it is said: no key led back here."""
        self._came_back = _BY_NO_KEY

    def one_too_many(self) -> bool:
        """Tell, and say, that this key came right behind the one that led back here."""
        if not self.query_one(EntryLine).value or self._keys != self._came_back + 1:
            return False
        self.tell("the line stays; Esc again empties it")
        return True

    def empty(self, purpose: str, of: str = "") -> None:
        """Empty the line, kept for `purpose`; say which key brings it back.

        `of` names what the line was about, where it is not the only one of the sheet.
        """
        line = self.query_one(EntryLine)
        text = line.value
        line.put("")
        if text.strip():
            self.let_go(purpose, text, of)
        else:
            self.tell("")

    def let_go(self, purpose: str, text: str, of: str = "") -> None:
        """Keep a text that is in the line no more, and say how it is got back."""
        self._emptied = text, of
        self.desk.keeping.emptied(text, purpose)
        key = self.mapped_keys()(UNDO)
        self.tell(f"{key} brings the line back; later: logbook drafts", label="emptied")

    @property
    def purpose(self) -> str:
        """What the line is kept as, where the sheet has no other word for it."""
        return f"typed at “{self.heading}”"

    @on(EntryLine.TypedOver)
    def _typed_over(self, event: EntryLine.TypedOver) -> None:
        self.typed_over(event.text)

    def typed_over(self, text: str) -> None:
        """Keep what stood marked in the line and was typed over."""
        self.let_go(self.kept_as or self.purpose, text)

    @on(EntryLine.MoreRows)
    def _more_rows(self, event: EntryLine.MoreRows) -> None:
        self.take_more(event.rows)

    def take_more(self, rows: tuple[str, ...]) -> None:
        """Take rows that were pasted behind the first: here they are all one line."""
        self.query_one(EntryLine).insert_text_at_cursor(" ".join(("", *rows)))

    @work(thread=True, exclusive=True, group="earlier")
    def recall(self, purpose: str) -> None:
        """Look, beside the keys, for what was typed here before; `Earlier` follows."""
        draft = self.desk.keeping.left_over(purpose) if self.desk.is_open else None
        if draft is not None and draft.text.strip():
            self.post_message(self.Earlier(draft.text, draft.when))

    @on(Earlier)
    def _say_earlier(self, message: Earlier) -> None:
        """Say what was typed here before, and by which key it comes back."""
        if self._emptied is not None or self.query_one(EntryLine).value:
            return
        if self.gone_back_to:  # it was asked for on the bench
            self.put_back(message.text, "")
            return
        self._emptied = message.text, ""
        typed = shorten(message.text, MOST_QUOTED, placeholder=" …")
        key, when = self.mapped_keys()(UNDO), f"{message.when.astimezone():%d %b %H:%M}"
        said = f"“{typed}” was typed here on {when}; {key} brings it back"
        self.tell(said, label="kept")

    def forget_emptied(self) -> None:
        """Let the key that takes back mean an entry again."""
        self._emptied, self._elsewhere = None, ""

    def offer_elsewhere(self, purpose: str) -> None:
        """Say that another window has the line, and by which key it is taken over."""
        slip = self.desk.keeping.elsewhere(purpose)
        if slip is not None:
            self._elsewhere = purpose
            key = self.mapped_keys()(UNDO)
            self.tell(
                "this was being typed in another window that is still open "
                f"(process {slip.owner}): {key} takes it over",
                label="elsewhere",
            )

    def takes_over(self) -> bool:
        """Take over the line another window has, if that was said last."""
        purpose, self._elsewhere = self._elsewhere, ""
        if not purpose or self.query_one(EntryLine).value:
            return False
        slip = self.desk.keeping.take_over(purpose)
        if slip is None:
            return False
        self.put_back(slip.draft.text, slip.purpose.removeprefix(purpose).strip())
        self.tell("the line is here now, and no more there", label="kept")
        return True

    def let_go_elsewhere(self, message: Message) -> None:
        """Say that a line went to another window; offer one that was let go there."""
        line = self.query_one(EntryLine)
        match message:
            case news.TakenOver() if message.purpose == self.kept_as:
                said = "the line was taken over in another window"
                if message.text and message.text.split("\n")[0] == line.value:
                    line.put("")
                elif line.value:
                    said += " as it stood; what stands here is kept apart"
                self.tell(said, label="elsewhere")
            case news.LetGo() if message.purpose == self._elsewhere:
                self._elsewhere = ""
                self.tell("")
                self.offer_let_go(message.purpose)

    def offer_let_go(self, purpose: str) -> None:
        """Offer a line another window has let go, where nothing was typed meanwhile."""
        if not self.query_one(EntryLine).value:
            self.offer_kept(purpose)

    def told(self, message: Message) -> None:
        """Hear what became of lines; the key means an entry, once one was logged."""
        if isinstance(message, news.Written):
            self.forget_emptied()
        self.let_go_elsewhere(message)
        super().told(message)

    def put_back(self, text: str, of: str) -> None:
        """Put the line back, for what it was about."""
        del of
        self.query_one(EntryLine).put(text)

    def brings_back(self) -> bool:
        """Bring the emptied line back, if that was the last thing done here."""
        if self.takes_over():
            return True
        emptied, self._emptied = self._emptied, None
        if emptied is None or self.query_one(EntryLine).value:
            return False
        self.put_back(*emptied)
        self.tell("the line is back", label="kept")
        return True

    def action_line_back(self) -> None:
        """Bring the line back, where the key means nothing else."""
        if not self.brings_back():
            self.tell("nothing was typed here before")

    def action_undo(self) -> None:
        """Bring the emptied line back, else take back what was logged last."""
        if not self.brings_back():
            super().action_undo()
