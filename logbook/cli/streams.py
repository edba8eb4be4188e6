"""What is printed on, put aside for a while: another stream stands in its place."""

from __future__ import annotations

import io
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from typing import Literal

Instead = Callable[[io.TextIOWrapper], io.TextIOWrapper | None]
"""Gives the stream that is printed on meanwhile; None where it stays as it is."""


@contextmanager
def both_printed_on(instead: Instead) -> Iterator[None]:
    """Print on other streams meanwhile, what is told and what is warned of alike."""
    with ExitStack() as stack:
        for name in ("stdout", "stderr"):
            stack.enter_context(_printed_on(name, instead))
        yield


@contextmanager
def _printed_on(name: Literal["stdout", "stderr"], instead: Instead) -> Iterator[None]:
    plain = getattr(sys, name)
    stream = instead(plain) if isinstance(plain, io.TextIOWrapper) else None
    if stream is None:
        yield
        return
    setattr(sys, name, stream)
    try:
        yield
    finally:
        setattr(sys, name, plain)
        stream.flush()
        stream.detach()
