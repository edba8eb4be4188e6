"""On a terminal nothing is broken inside a word; in a pipe nothing is broken at all."""

from __future__ import annotations

import fcntl
import io
import os
import pty
import struct
import subprocess
import sys
import termios
from contextlib import suppress
from pathlib import Path

import pytest

from logbook.cli.folding import folded
from tests.cli.shop import Shop

HOUSE = Path(__file__).parents[2]
LONG = (
    "the diffuser cracked at the second screw because the washer was missing and the "
    "hole is too near the edge"
)


def on_a_terminal(folder: Path, *words: str, typed: str = "") -> str:
    """Run a verb at a terminal of 80 columns, and give what it printed there."""
    hand, end = pty.openpty()
    fcntl.ioctl(end, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    env = {**os.environ, "PYTHONPATH": str(HOUSE), "TERM": "xterm"}
    env.pop("COLUMNS", None)
    os.write(hand, typed.encode())
    command = [sys.executable, "-m", "logbook", *words]
    with subprocess.Popen(
        command, cwd=folder, env=env, stdin=end, stdout=end, stderr=end
    ):
        os.close(end)
        heard = io.BytesIO()
        with suppress(OSError):  # it has ended
            while data := os.read(hand, 65536):
                heard.write(data)
    os.close(hand)
    return heard.getvalue().decode().replace("\r\n", "\n")


@pytest.mark.parametrize(
    ("verb", "code"), [(("note", LONG), 0), (("met", LONG, "piece"), 5)]
)
def test_what_a_terminal_gets_is_broken_between_words(
    shop: Shop, verb: tuple[str, ...], code: int
) -> None:
    told = on_a_terminal(shop.folder, *verb)
    rows = told.splitlines()
    assert all(len(row) <= 80 or " " not in row.strip() for row in rows), told
    assert any(row.startswith("  ") for row in rows)
    if not code:
        [path] = [str(p.relative_to(shop.folder)) for p in shop.records("notes")]
        assert path in told
        assert f"note: {LONG}"[:70] in told
    words = set(told.split())
    assert {*LONG.split()} <= {word.strip("“”;") for word in words}


def test_a_question_at_a_terminal_is_still_asked_there(shop: Shop) -> None:
    told = on_a_terminal(shop.folder, "say", "begin a third build", typed="\n")
    assert "git: " in told


def test_in_a_pipe_a_line_is_one_line(shop: Shop) -> None:
    [_build, note, _git] = shop.logbook("note", LONG).out.splitlines()
    assert LONG in note
    assert note.endswith(".md")


def test_a_line_goes_on_under_what_it_began_with() -> None:
    assert folded("    a piece that is drawn", 16) == "    a piece that\n      is drawn"
    assert folded("as-built/notes/2603/7k2m9qzd.md", 9) == (
        "as-built/notes/2603/7k2m9qzd.md"
    )
    assert folded("take it? [Enter: yes] ", 12) == "take it?\n  [Enter:\n  yes] "
