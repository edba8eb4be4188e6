"""A program in a pseudo-terminal, and what its screen shows."""

from __future__ import annotations

import codecs
import fcntl
import os
import pty
import re
import select
import signal
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

COLUMNS, ROWS = 80, 24

PROGRAM = ("logbook",)

_TOKEN = re.compile(
    r"\x1b\[(?P<args>[0-9;:?<=>]*)[ -/]*(?P<end>[@-~])"
    r"|\x1b[\]PX^_].*?(?:\x1b\\|\x07)|\x1b[()][0-9A-Z]|\x1b[=>78cDEHMNOZ]"
    r"|(?P<sign>[\r\n\b])|(?P<text>[^\x1b\r\n\b]+)",
    re.DOTALL,
)


class Glass:
    """What a terminal shows, as far as the screens use it."""

    def __init__(self) -> None:
        self.rows = [[" "] * COLUMNS for _ in range(ROWS)]
        self.row = self.column = 0
        self._rest = ""
        self._decode = codecs.getincrementaldecoder("utf-8")("replace").decode

    def feed(self, data: bytes) -> None:
        text, at = self._rest + self._decode(data), 0
        while at < len(text):
            match = _TOKEN.match(text, at)
            if match is None or (match.end() == len(text) and text[at] == "\x1b"):
                break
            at = match.end()
            self._take(match)
        self._rest = text[at:] if len(text) - at < 4096 else ""

    def _take(self, match: re.Match[str]) -> None:
        if match["text"]:
            for sign in match["text"]:
                if self.row < ROWS and self.column < COLUMNS:
                    self.rows[self.row][self.column] = sign
                self.column += 1
        elif match["sign"] == "\r":
            self.column = 0
        elif match["sign"] == "\n":
            self.row += 1
        elif match["end"] in {"H", "f"}:
            numbers = [int(n or 1) for n in f"{match['args']};".split(";")[:2]]
            self.row, self.column = numbers[0] - 1, numbers[1] - 1

    def shows(self, words: str) -> bool:
        return any(words in "".join(row) for row in self.rows)


@dataclass
class Terminal:
    """The program in its pseudo-terminal, typed at and looked at."""

    process: subprocess.Popen[bytes]
    hand: int
    glass: Glass = field(default_factory=Glass)

    def look(self, seconds: float) -> None:
        """Take in what the program draws, for so long at most."""
        if select.select([self.hand], [], [], max(0.0, seconds))[0]:
            self.glass.feed(os.read(self.hand, 65536))

    def until(self, words: str, patience_s: float) -> float:
        """Wait until words are shown; give the seconds it took."""
        began = time.perf_counter()
        while not self.glass.shows(words):
            left = patience_s - (time.perf_counter() - began)
            if left <= 0:
                seen = "\n".join("".join(row) for row in self.glass.rows)
                raise SystemExit(f"“{words}” was not shown in time:\n{seen}")
            self.look(left)
        return time.perf_counter() - began

    def rest(self, seconds: float) -> None:
        """Let so much time pass, looking."""
        end = time.perf_counter() + seconds
        while (left := end - time.perf_counter()) > 0:
            self.look(left)

    def press(self, keys: str) -> None:
        os.write(self.hand, keys.encode())

    def worked_s(self) -> tuple[float, float]:
        """Give the processor time of the event loop's thread, and of the process."""
        place = Path(f"/proc/{self.process.pid}")
        loop = place / "task" / str(self.process.pid)
        one, all_of_it = (
            sum(map(int, (at / "stat").read_text().rpartition(")")[2].split()[11:13]))
            for at in (loop, place)
        )
        tick = os.sysconf("SC_CLK_TCK")
        return one / tick, all_of_it / tick

    def memory_mb(self, fact: str) -> float:
        text = Path(f"/proc/{self.process.pid}/status").read_text()
        return int(re.findall(rf"{fact}:\s+(\d+)", text)[0]) / 1024


@contextmanager
def started(folder: Path, module: Sequence[str] = PROGRAM) -> Iterator[Terminal]:
    """Run the program, or another module with its words, on a project."""
    hand, end = pty.openpty()
    fcntl.ioctl(end, termios.TIOCSWINSZ, struct.pack("HHHH", ROWS, COLUMNS, 0, 0))
    house = str(Path(__file__).parents[2])
    env = {
        **os.environ,
        "TERM": "xterm-256color",
        "COLORTERM": "truecolor",
        "LOGBOOK_STATE": str(folder.parent / "state"),
        "PYTHONPATH": house,
    }
    process = subprocess.Popen(
        [sys.executable, "-m", *module],
        cwd=folder,
        env=env,
        stdin=end,
        stdout=end,
        stderr=end,
        start_new_session=True,
    )
    os.close(end)
    try:
        yield Terminal(process, hand)
    finally:
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()
        os.close(hand)
