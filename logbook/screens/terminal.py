"""The terminal that is drawn on, which may be gone from one sign to the next.

A window that vanishes does not always tell: then each write is refused. Textual
writes in a thread that ends at the first refusal, and the event loop would wait for
ever for room in that thread's queue. So what is refused is dropped; `leaving.py` sees
to the rest.
"""

from __future__ import annotations

from contextlib import suppress
from typing import TextIO

from textual.driver import Driver


class Outlet:
    """A file for what is drawn that drops what it cannot get rid of."""

    def __init__(self, file: TextIO) -> None:
        """Write to this file, while it takes what is written."""
        self._file = file

    def write(self, text: str) -> int:
        """Write, or drop it."""
        with suppress(OSError, ValueError):
            self._file.write(text)
        return len(text)

    def flush(self) -> None:
        """Bring out what was written, or drop it."""
        with suppress(OSError, ValueError):
            self._file.flush()

    def fileno(self) -> int:
        """Give the number of the file."""
        return self._file.fileno()

    def isatty(self) -> bool:
        """Tell whether it is a terminal."""
        return self._file.isatty()


def outliving(driver: type[Driver]) -> type[Driver]:
    """Give a driver like this one that outlives its terminal."""

    class Outliving(driver):  # type: ignore[misc, valid-type]
        """It draws through an outlet."""

        def start_application_mode(self) -> None:
            """Put the outlet between, before anything is drawn."""
            mine = self.__dict__
            mine["_file"] = Outlet(mine["_file"])
            super().start_application_mode()

    return Outliving
