"""The ruled sheet: a margin with a shop word, a rule, and what there is to say.

Every screen is made of these rows and of nothing else, so that the eye finds
the same thing at the same place.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget
from textual.widgets import Static

from logbook.screens.ruled.cutting import broken, fitted, parted
from logbook.screens.ruled.look import prose

MARGIN = 12
"""Columns of the margin, the space before the rule included."""
LABEL_ROOM = MARGIN - 2
"""Columns a word has in the margin, beside the arrow."""
TALK = frozenset(("message", "understood", "question"))
"""Rows that answer what was just done: there the key is named that reads on."""


def put(widget: Static, words: Content) -> None:
    """Show words, unless they stand there.

    To lay a screen out anew takes long; so that is done only where they need
    another height, or a width of their own.
    """
    there = widget.content
    if isinstance(there, Content) and there.is_same(words):
        return
    widget.update(words, layout=False)
    if not _has_room(widget):
        widget.refresh(layout=True)


def _has_room(widget: Static) -> bool:
    """Tell whether what a widget shows now is as wide and high as what it showed."""
    size, styles = widget.content_size, widget.styles
    if not size.width or styles.is_auto_width:
        return False
    if not styles.is_auto_height:
        return True
    height = widget.get_content_height(size, size, size.width)
    return height == size.height


class Said(Static):
    """Words to read, broken to the columns there are.

    Where the style leaves them fewer rows, the last row says that it goes on.
    """

    DEFAULT_CSS = "Said { width: 1fr; }"

    def __init__(self, *, names_key: bool = False) -> None:
        """Start without words; where they are cut, name the key that reads them all."""
        super().__init__("", classes="said", markup=False)
        self._names_key = names_key

    def render(self) -> Content:
        """Draw as much as there is room for."""
        words, width = self.content, self.content_size.width
        if not isinstance(words, Content) or not width:
            return Content("")
        key = getattr(self.screen, "key_in_full", "") if self._names_key else ""
        return Content("\n").join(fitted(words, width, self._most, key))

    @property
    def is_cut(self) -> bool:
        """Tell whether there is no room for all of it."""
        words, width = self.content, self.content_size.width
        if not isinstance(words, Content) or not width:
            return False
        return len(broken(words, width)) > self.content_size.height

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """Give the rows the words take, no more than they are left."""
        del container, viewport
        words = self.content
        if not isinstance(words, Content) or not width:
            return 1
        lines = len(broken(words, width))
        return min(lines, self._most) if self._most else lines

    @property
    def _most(self) -> int:
        most = self.styles.max_height
        return int(most.cells or 0) if most is not None else 0


class Row(Horizontal):
    """A row of the sheet; `say` changes what stands in it."""

    def __init__(self, label: str, body: Widget | None = None, *, id: str = "") -> None:  # noqa: A002
        """Take the word in the margin, and a widget if the row holds no words."""
        super().__init__(id=id or None, classes="row")
        self._label = Static(prose(label), classes="margin", markup=False)
        self._body = body or Said(names_key=id in TALK)

    def compose(self) -> ComposeResult:
        """Put the margin before the rule, the rest behind it."""
        yield self._label
        yield self._body

    def say(self, words: Content | str, label: str | None = None) -> None:
        """Say something here; an empty word leaves the row blank."""
        assert isinstance(self._body, Said)
        put(self._body, prose(words) if isinstance(words, str) else words)
        if label is not None:
            put(self._label, prose(label))

    def relabel(self, label: str) -> None:
        """Change the word in the margin."""
        put(self._label, prose(label))

    def in_full(self) -> Sequence[tuple[str, Content]]:
        """Give all that is said here, where it is cut."""
        body, label = self._body, str(self._label.content)
        if not isinstance(body, Said) or not body.is_cut:
            return ()
        assert isinstance(body.content, Content)
        return ((label, body.content),)

    @property
    def said(self) -> str:
        """Give the words that stand here now."""
        body = self._body
        return parted(str(body.content)) if isinstance(body, Said) else ""


class KeyStrip(Static):
    """The keys that work here, each with its word; the two are never parted.

    Those of `keys` are always there; of `more` as many as find room.
    """

    _keys: tuple[tuple[str, str], ...] = ()
    _more: tuple[tuple[str, str], ...] = ()

    def tell(
        self, keys: Iterable[tuple[str, str]], more: Iterable[tuple[str, str]] = ()
    ) -> None:
        """Show keys with their words."""
        self._keys, self._more = tuple(keys), tuple(more)
        self._fill()

    def on_resize(self) -> None:
        """Break the lines anew."""
        self._fill()

    def _fill(self) -> None:
        width = self.screen.size.width - 2
        lines = _broken(self._keys, width)
        height = self.screen.size.height
        room = max(len(lines), 1 if height < 24 else 2 if height < 36 else 3)
        for at in range(len(self._more), 0, -1):
            fuller = _broken((*self._keys, *self._more[:at]), width)
            if len(fuller) <= room:
                lines = fuller
                break
        put(self, Content("\n").join(Content("  ").join(line) for line in lines))


def _broken(keys: Iterable[tuple[str, str]], width: int) -> list[list[Content]]:
    """Put keys into as few lines of this width as they need."""
    lines: list[list[Content]] = [[]]
    used = 0
    for key, word in keys:
        here = len(key) + 1 + len(word)
        if used and used + 2 + here > width:
            lines.append([])
            used = 0
        used += here + (2 if used else 0)
        lines[-1].append(Content.assemble((key, "$mark bold"), f" {word}"))
    return lines
