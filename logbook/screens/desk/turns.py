"""Keys stay quick beside threads that are busy: short turns, and few collections.

Python lets one thread run at a time, and looks for rubbish in everything it
holds. Both are set up here so that a key waits for neither.
"""

from __future__ import annotations

import gc
import sys
from collections.abc import Iterator
from contextlib import contextmanager

TURN_S = 0.0005
"""A thread that wants to run waits so long for one that is busy.

With the usual 5 ms a key on its way from thread to thread waits several times:
measured, two busy threads held it up by 200 ms.
"""

OBJECTS = (20_000, 20, 100)
"""New objects, and rounds, after which rubbish is looked for."""


def take_short_turns() -> None:
    """Let threads take turns quickly, and collections be few, from now on."""
    sys.setswitchinterval(TURN_S)
    collect_seldom()


def collect_seldom() -> None:
    """Let collections be few from now on: records are many, and no rubbish."""
    gc.set_threshold(*OBJECTS)


@contextmanager
def reading_much() -> Iterator[None]:
    """Read what stays for long: no collection meanwhile, nor over it afterwards.

    One over the records of 100,000 files stops every thread for half a second.
    """
    gc.disable()
    try:
        yield
        gc.freeze()
    finally:
        gc.enable()
