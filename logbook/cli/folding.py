"""What is printed on a terminal, broken between words: no path or id is cut in two.

Control signs that a record or the name of a file holds do not reach it.
"""

from __future__ import annotations

import io
import shutil
import textwrap
from contextlib import AbstractContextManager

from logbook.cli.streams import both_printed_on
from logbook.records.written.shown_signs import lines_shown


def folded(text: str, wide: int) -> str:
    """Give a line broken between words where it is wider than this.

    What goes on stands two columns further in. A word wider than the terminal has a
    row to itself. Blanks at the end, as of a prompt, stay.
    """
    if len(text) <= wide:
        return text
    indent = " " * (len(text) - len(text.lstrip(" ")) + 2)
    told = textwrap.fill(
        text, wide, subsequent_indent=indent, break_long_words=False,
        break_on_hyphens=False, replace_whitespace=False,
    )  # fmt: skip
    return told + " " * (len(text) - len(text.rstrip(" ")))


class _Folding(io.TextIOWrapper):
    """A stream to a terminal that breaks each whole line between words."""

    _begun = ""

    def write(self, text: str) -> int:
        """Take text in; what is no whole line yet waits for its end, or for a flush."""
        *lines, self._begun = (self._begun + lines_shown(text)).split("\n")
        wide = shutil.get_terminal_size().columns
        for line in lines:
            super().write(folded(line, wide) + "\n")
        return len(text)

    def flush(self) -> None:
        """Bring out what was written, a line that is only begun too."""
        begun, self._begun = self._begun, ""
        if begun:
            super().write(begun)
        super().flush()


def folding() -> AbstractContextManager[None]:
    """Break what is printed meanwhile, where it goes to a terminal."""
    return both_printed_on(_folded)


def _folded(plain: io.TextIOWrapper) -> io.TextIOWrapper | None:
    if not plain.isatty():
        return None
    plain.flush()
    return _Folding(plain.buffer, plain.encoding, plain.errors, line_buffering=True)
