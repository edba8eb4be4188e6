"""What is typed is UTF-8, and what is printed never stops a verb that has saved.

A terminal set to another coding sends bytes that no record can hold: they are refused
before anything is written. One that cannot show a sign is given “?” in its place.
"""

from __future__ import annotations

import io
import sys
from collections.abc import Sequence

from logbook.errors import BadInput
from logbook.records.written.shown_signs import is_utf8, one_line

_FOLDER = "--in"
"""The one option whose word goes on no record: a folder may be called what it likes."""


def refuse_other_bytes(words: Sequence[str]) -> None:
    """Refuse words that hold bytes which are no UTF-8.

    Raises:
        BadInput: one of them does; the sentence shows it, the bytes as �.
    """
    for before, word in zip(("", *words), words, strict=False):
        if before != _FOLDER and not is_utf8(word):
            raise BadInput(
                f"“{one_line(word)}” holds bytes that are not UTF-8; accepted: UTF-8 "
                "text, from a terminal set to it; a file so called is renamed first"
            )


def never_stopped_by_a_sign() -> None:
    """Let no sign that cannot be shown or read stop a verb."""
    for stream in (sys.stdin, sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")
