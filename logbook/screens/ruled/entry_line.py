"""The line that is always ready: typed words, with those understood underlined.

Of rows that are pasted the first comes into it, the others go to whoever has the
line; no control sign gets in. While a question is open the line keeps its text and
hands each key to whoever asked.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import partial

from rich.highlighter import Highlighter
from rich.text import Text
from textual import events
from textual.content import Content
from textual.message import Message
from textual.strip import Strip
from textual.widgets import Input

from logbook.records.written.shown_signs import one_line
from logbook.screens.ruled.cutting import cut
from logbook.screens.ruled.look import quiet_told
from logbook.screens.ruled.settled import settled

LONGEST_PASTE = 4000
"""More than this is no line: it belongs into prose, or is the wrong clipboard."""


_DELETE = frozenset({"backspace", "delete", "ctrl+u", "ctrl+k"})
"""The keys by which a line that is marked goes."""


class _Marks(Highlighter):
    """Underline the words that were understood; the words themselves stay."""

    def __init__(self) -> None:
        self.spans: tuple[tuple[int, int], ...] = ()

    def highlight(self, text: Text) -> None:
        for start, end in self.spans:
            text.stylize("bold underline", start, end)


class EntryLine(Input):
    """One line of typed words."""

    @dataclass
    class Key(Message):
        """A key pressed while a question is open."""

        key: str
        sign: str

    @dataclass
    class Pasted(Message):
        """Words pasted while the keys go to whoever asked."""

        words: str

    @dataclass
    class Overtaken(Message):
        """A line that came by itself gives way to the next one that is typed."""

        text: str

    @dataclass
    class TypedOver(Message):
        """A line that stood marked, as a refused one does, went at a key."""

        text: str

    @dataclass
    class MoreRows(Message):
        """Rows that were pasted behind the one that is in the line now."""

        rows: tuple[str, ...]

    @dataclass
    class TooLong(Message):
        """So many characters were pasted that they were not taken in."""

        count: int

    # A letter more makes no difference to where anything on the screen stands; to
    # lay it all out anew at each letter takes as long as all the rest.
    virtual_size = settled()

    def __init__(self, placeholder: str = "", *, id: str | None = None) -> None:  # noqa: A002
        """Start empty; the placeholder says what may be typed."""
        self._marks = _Marks()
        super().__init__(
            placeholder=placeholder,
            highlighter=self._marks,
            select_on_focus=False,
            compact=True,
            id=id,
        )
        self.asking = False
        self.put_last = ""
        self._came_unasked = False
        self._proposed = False

    @property
    def as_put(self) -> bool:
        """Tell whether the line still is what was put there, not typed."""
        return self.value == self.put_last

    def mark(self, spans: Iterable[tuple[int, int]]) -> None:
        """Underline these stretches of the line."""
        self._marks.spans = tuple(spans)
        self.refresh()

    def put(self, text: str, *, unasked: bool = False) -> None:
        """Replace the line and stand at its end.

        What came `unasked` stands marked and gives way to the letter typed next: who
        types on without looking up begins a line of his own. A blank, or a key that
        moves or deletes, goes on with it.
        """
        self.put_last, self._came_unasked = text, unasked and bool(text)
        self._proposed = False
        self.value = text
        self.cursor_position = len(text)
        if self._came_unasked:
            self.select_all()

    def propose(self, text: str) -> None:
        """Put what the first letter typed takes the place of, as of what came unasked.

        Nobody typed it, so nobody is told that it went.
        """
        self.put(text, unasked=True)
        self._proposed = True

    def render_line(self, y: int) -> Strip:
        """Draw the line; of a placeholder the whole words there is room for."""
        asked, app = self.placeholder, self.app
        room = self.scrollable_content_region.width
        told = partial(quiet_told, colours=app.console.color_system, plain=app.no_color)
        room = max(room - len(told(".")) + 1, 1)
        shown = told(cut(Content(asked), room).plain)
        self.set_reactive(Input.placeholder, shown)
        try:
            return super().render_line(y)
        finally:
            self.set_reactive(Input.placeholder, asked)

    async def _on_key(self, event: events.Key) -> None:
        if not self.asking:
            self._give_way(event.character if event.is_printable else "")
            if event.is_printable or event.key in _DELETE:
                self._tell_typed_over()
            await super()._on_key(event)
            return
        sign = event.character if event.is_printable and event.character else ""
        if sign or event.key in {"enter", "escape", "backspace"}:
            event.stop()
            event.prevent_default()
            self.post_message(self.Key(event.key, sign))

    def _give_way(self, sign: str | None) -> None:
        """Let a line that came unasked go before what begins another one."""
        if not self._came_unasked:
            return
        self._came_unasked = False
        untouched = self.as_put and self.cursor_position == len(self.value)
        if untouched and sign and sign.strip():
            if not self._proposed:
                self.post_message(self.Overtaken(self.value))
            self.put("")
        elif untouched:  # no more marked, or the key would delete all of it
            self.cursor_position = len(self.value)

    def _tell_typed_over(self) -> None:
        """Say what goes, where all of the line is marked: its words are not lost."""
        start, end = sorted(self.selection)
        if self.value.strip() and (start, end) == (0, len(self.value)):
            self.post_message(self.TypedOver(self.value))

    def check_consume_key(self, key: str, character: str | None) -> bool:
        """Keep every key that types something away from the keys of the screen."""
        return super().check_consume_key(key, character)

    def _on_paste(self, event: events.Paste) -> None:
        event.stop()
        event.prevent_default()
        if len(event.text) > LONGEST_PASTE:
            self.post_message(self.TooLong(len(event.text)))
            return
        text = event.text.replace("\r\n", "\n").replace("\r", "\n")  # as terminals do
        if self.asking:
            self.post_message(self.Pasted(one_line(text.strip("\n"))))
            return
        first, *behind = [one_line(row) for row in text.split("\n") if row.strip()] or [
            ""
        ]
        self._give_way(first)
        self._tell_typed_over()
        self.replace(first, *self.selection)
        if behind:
            self.post_message(self.MoreRows(tuple(behind)))
