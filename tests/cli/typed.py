"""What somebody types at the questions of a verb, and which records come of it."""

from __future__ import annotations

import io
from typing import Any

import pytest


class Terminal(io.StringIO):
    """Lines typed at a terminal, not sent through a pipe."""

    def isatty(self) -> bool:
        return True


def answering(monkeypatch: pytest.MonkeyPatch, *lines: str) -> None:
    """Send lines through a pipe; after the last nobody answers any more."""
    monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{x}\n" for x in lines)))


def kinds(answer: Any) -> list[str]:
    """Give the kinds of the records that a verb with --json answered."""
    return [record["kind"] for record in answer["records"]]
