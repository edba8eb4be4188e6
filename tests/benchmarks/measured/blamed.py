"""The program itself; it notes what held its event loop, and for how long.

    python -m tests.benchmarks.measured.blamed RECORD

Each line of the record: what it was, milliseconds it took, how many of them were
its own work, and how many it waited for a processor.
"""

from __future__ import annotations

import asyncio
import os
import sys
import time
from typing import IO

from textual.message import Message
from textual.message_pump import MessagePump

from logbook.cli import main

HELD_MS = 50
"""What holds the event loop longer is noted."""

dispatch, run = MessagePump._dispatch_message, asyncio.events.Handle._run


class Blame:
    """What the event loop is at, as far as it tells."""

    def __init__(self, told: IO[str]) -> None:
        self._told = told
        self._label = ""
        self._queue = os.open("/proc/thread-self/schedstat", os.O_RDONLY)

    def watch(self) -> None:
        """Note from now on what takes long."""

        async def dispatched(pump: MessagePump, message: Message) -> None:
            self._label = f"{type(message).__name__} in {type(pump).__name__}"
            await dispatch(pump, message)

        def ran(handle: asyncio.Handle) -> None:
            self._timed(handle)

        MessagePump._dispatch_message = dispatched  # type: ignore[assignment,method-assign]
        asyncio.events.Handle._run = ran  # type: ignore[assignment,method-assign]

    def _timed(self, handle: asyncio.Handle) -> None:
        began, own = time.perf_counter(), time.thread_time()
        waited = self._queued_ms()
        called = handle._callback  # type: ignore[attr-defined]
        self._label = getattr(called, "__qualname__", type(called).__name__)
        run(handle)
        took = (time.perf_counter() - began) * 1e3
        if took > HELD_MS:
            own, waited = (time.thread_time() - own) * 1e3, self._queued_ms() - waited
            self._told.write(f"{self._label}\t{took:.0f}\t{own:.0f}\t{waited:.0f}\n")

    def _queued_ms(self) -> float:
        """Give for how long this thread has waited for a processor."""
        return int(os.pread(self._queue, 99, 0).split()[1]) / 1e6


if __name__ == "__main__":
    with open(sys.argv[1], "a", buffering=1, encoding="utf-8") as record:  # noqa: PTH123
        Blame(record).watch()
        sys.exit(main([]))
