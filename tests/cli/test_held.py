"""A terminal that goes away at a question of the shell takes nothing with it."""

from __future__ import annotations

import os
import pty
import select
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import pytest

from logbook.store.typed.drafts import drafts
from tests.cli.shop import Shop

HOUSE = Path(__file__).parents[2]
LINE = "the diffuser cracked at the second screw"
ASKED = "would another builder meet this?"


@contextmanager
def heeding_hang_up() -> Iterator[None]:
    """Let what is begun heed a terminal that goes, though the tests may not."""
    before = signal.signal(signal.SIGHUP, signal.SIG_DFL)
    yield
    signal.signal(signal.SIGHUP, before)


class Shell:
    """One verb at a terminal, which may ask."""

    def __init__(self, folder: Path, *words: str) -> None:
        self.hand, end = pty.openpty()
        env = {**os.environ, "PYTHONPATH": str(HOUSE), "TERM": "xterm"}
        command = [sys.executable, "-m", "logbook", *words]
        with heeding_hang_up():
            self.process = subprocess.Popen(
                command, cwd=folder, env=env, stdin=end, stdout=end, stderr=end
            )
        os.close(end)
        self.heard = ""

    def until(self, words: str) -> None:
        """Hear what it prints until these words came, however long that takes."""
        while words not in " ".join(self.heard.split()):
            assert select.select([self.hand], [], [], 120)[0], self.heard
            self.heard += os.read(self.hand, 65536).decode()

    def ended(self) -> int:
        with suppress(OSError):
            while select.select([self.hand], [], [], 120)[0]:
                os.read(self.hand, 65536)
        return self.process.wait(120)


@contextmanager
def shell(folder: Path, *words: str) -> Iterator[Shell]:
    made = Shell(folder, *words)
    try:
        yield made
    finally:
        made.process.kill()
        made.process.wait()
        os.close(made.hand)


@pytest.mark.parametrize("number", [signal.SIGKILL, signal.SIGHUP, signal.SIGTERM])
def test_a_line_is_on_disk_while_its_question_stands(shop: Shop, number: int) -> None:
    with shell(shop.folder, "say", LINE) as at:
        at.until(ASKED)
        at.process.send_signal(number)
        assert at.ended() == -number
    [kept] = drafts(shop.folder)
    assert LINE in kept.text


def test_a_line_whose_question_was_answered_leaves_no_draft(shop: Shop) -> None:
    with shell(shop.folder, "say", LINE) as at:
        at.until(ASKED)
        assert drafts(shop.folder)
        os.write(at.hand, b"1\n\n\n\n")
        assert at.ended() == 0
    assert drafts(shop.folder) == ()
    assert len(shop.records("failures")) == 1
