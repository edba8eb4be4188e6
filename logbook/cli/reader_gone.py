"""Who reads what is printed may go away (`| head -1`): a verb still does its work.

A verb that stopped at the first line nobody read would have saved and not committed, or
answered and not saved.
"""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from typing import Literal


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


@contextmanager
def going_on_unread() -> Iterator[None]:
    """Let what is printed meanwhile stop nothing, though its reader goes."""
    with ExitStack() as stack:
        for name in ("stdout", "stderr"):
            stack.enter_context(_unread_stream(name))
        yield


@contextmanager
def _unread_stream(name: Literal["stdout", "stderr"]) -> Iterator[None]:
    plain = getattr(sys, name)
    if type(plain) is not io.TextIOWrapper or plain.isatty():
        yield
        return
    plain.flush()
    unread = _Unread(plain.fileno(), "w", closefd=False)
    raw = io.BufferedWriter(unread)  # type: ignore[type-var]
    stream = io.TextIOWrapper(
        raw, plain.encoding, plain.errors, line_buffering=plain.line_buffering
    )
    setattr(sys, name, stream)
    try:
        yield
    finally:
        setattr(sys, name, plain)
        stream.flush()
