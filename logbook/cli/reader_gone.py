"""Who reads what is printed may go away (`| head -1`): a verb still does its work.

A verb that stopped at the first line nobody read would have saved and not committed, or
answered and not saved.
"""

from __future__ import annotations

import io
import os
from contextlib import AbstractContextManager

from logbook.cli.streams import both_printed_on


class _Unread(io.FileIO):
    """What is written goes to its reader; once there is none, nowhere."""

    def write(self, data: bytes, /) -> int:  # type: ignore[override]
        """Write; where nobody reads any more, take that and all that follows."""
        try:
            return super().write(data)
        except BrokenPipeError:
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, self.fileno())
            os.close(nowhere)
            return len(data)


def going_on_unread() -> AbstractContextManager[None]:
    """Let what is printed meanwhile stop nothing, though its reader goes."""
    return both_printed_on(_unread)


def _unread(plain: io.TextIOWrapper) -> io.TextIOWrapper | None:
    if type(plain) is not io.TextIOWrapper or plain.isatty():
        return None
    plain.flush()
    unread = _Unread(plain.fileno(), "w", closefd=False)
    raw = io.BufferedWriter(unread)  # type: ignore[type-var]
    return io.TextIOWrapper(
        raw, plain.encoding, plain.errors, line_buffering=plain.line_buffering
    )
